import type { GovernedBy } from "./finding.ts";
import type { Material } from "./materials.ts";

/** A round bar's section: area mm², second moment mm⁴, section modulus mm³, radius of gyration mm. */
export interface RoundSection {
  readonly area_mm2: number;
  readonly second_mm4: number;
  readonly modulus_mm3: number;
  readonly gyration_mm: number;
}

/** A tube, or a solid bar where the wall is as thick as the radius or more: π(D⁴ − d⁴)/64 and so on (any textbook). */
export function roundSection(diameter_mm: number, wall_mm: number): RoundSection {
  const bore_mm = Math.max(0, diameter_mm - 2 * wall_mm);
  const area_mm2 = (Math.PI * (diameter_mm ** 2 - bore_mm ** 2)) / 4;
  const second_mm4 = (Math.PI * (diameter_mm ** 4 - bore_mm ** 4)) / 64;
  return {
    area_mm2,
    second_mm4,
    modulus_mm3: second_mm4 / (diameter_mm / 2),
    gyration_mm: Math.sqrt(second_mm4 / area_mm2),
  };
}

/**
 * Load at which an ideal straight column buckles, N: π²·C·E·I/L² (Euler 1744; Gere, Mechanics of Materials, 7th ed.,
 * 11.3–11.4). `endConstant` C: 1 pinned, 2 fixed and pinned (2.046 exactly), 4 fixed, 1/4 fixed and free.
 */
export function euler_N(section: RoundSection, length_mm: number, elastic_MPa: number, endConstant: number): number {
  return (Math.PI ** 2 * endConstant * elastic_MPa * section.second_mm4) / length_mm ** 2;
}

/**
 * Load of a short column, N, by J. B. Johnson's parabola: A·Sy·[1 − Sy·(L/k)²/(4π²·C·E)] (Shigley, Mechanical
 * Engineering Design, chapter on columns, from memory). Some texts print 2π² for 4π²: that gives nothing at the transition.
 */
export function johnson_N(
  section: RoundSection,
  length_mm: number,
  { yield_MPa, elastic_MPa }: Pick<Material, "yield_MPa" | "elastic_MPa">,
  endConstant: number,
): number {
  const slenderness = length_mm / section.gyration_mm;
  const share = (yield_MPa * slenderness ** 2) / (4 * Math.PI ** 2 * endConstant * elastic_MPa);
  return section.area_mm2 * yield_MPa * (1 - share);
}

/** L/k above which Euler holds and below which Johnson does: √(2π²·C·E/Sy); there both give half the yield stress. */
export function transition(
  { yield_MPa, elastic_MPa }: Pick<Material, "yield_MPa" | "elastic_MPa">,
  endConstant: number,
): number {
  return Math.sqrt((2 * Math.PI ** 2 * endConstant * elastic_MPa) / yield_MPa);
}

export interface BarLoad {
  /** Tension positive. */
  readonly axial_N: number;
  readonly bending_Nmm: number;
  readonly length_mm: number;
  readonly endConstant: number;
  readonly bow_mm: number;
}

export interface BarFinding {
  /** How many times the load may grow. */
  readonly factor: number;
  readonly governedBy: GovernedBy;
  readonly formula: string;
}

/**
 * A bar under an axial force and bending, which all grow together. In tension yield at the edge: N/A + (M + N·bow)/Z = Sy.
 * In compression the column's load by Euler or Johnson, and yield at the edge with the bending grown by the buckling,
 * n·N/A + n·(M + N·bow)/(Z·(1 − n·N/Pe)) = Sy (Timoshenko & Gere, Theory of Elastic Stability, chapter 1: beam-columns;
 * from memory): whichever comes first. A bow of nothing in an ideal bar leaves Euler, Johnson and yield.
 */
export function screenBar(section: RoundSection, material: Material, load: BarLoad): BarFinding | null {
  const { area_mm2, modulus_mm3, gyration_mm } = section;
  const { axial_N, length_mm, endConstant } = load;
  const { yield_MPa } = material;
  const axial_MPa = Math.abs(axial_N) / area_mm2;
  const edge_MPa = (load.bending_Nmm + Math.abs(axial_N) * load.bow_mm) / modulus_mm3;
  if (axial_MPa + edge_MPa === 0) return null;
  if (axial_N >= 0) {
    return { factor: yield_MPa / (axial_MPa + edge_MPa), governedBy: "yield", formula: "Sy / (N/A + (M + N·bow)/Z)" };
  }
  const euler = euler_N(section, length_mm, material.elastic_MPa, endConstant);
  const isLong = length_mm / gyration_mm >= transition(material, endConstant);
  const column: BarFinding = isLong
    ? { factor: euler / -axial_N, governedBy: "Euler", formula: "π²·C·E·I/L² / N" }
    : {
        factor: johnson_N(section, length_mm, material, endConstant) / -axial_N,
        governedBy: "Johnson",
        formula: "A·Sy·(1 − Sy·(L/k)²/(4π²·C·E)) / N",
      };
  if (edge_MPa === 0) return column;
  // a·p·n² − (a + m + Sy·p)·n + Sy = 0 with a = N/A, m = (M + N·bow)/Z, p = N/Pe: its smaller root
  const p = -axial_N / euler;
  const half = (axial_MPa + edge_MPa + yield_MPa * p) / 2;
  const factor = yield_MPa / (half + Math.sqrt(half ** 2 - axial_MPa * p * yield_MPa));
  if (factor >= column.factor) return column;
  return {
    factor,
    governedBy: "bending and buckling",
    formula: "min n: n·N/A + n·(M + N·bow)/(Z·(1 − n·N/Pe)) = Sy",
  };
}
