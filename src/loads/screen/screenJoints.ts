import { length, type Vec3 } from "../../maths/vec3.ts";
import type { BoltRecord, PlateRecord, WeldRecord } from "../../scene/loadRecords.ts";
import type { Scene } from "../../scene/scene.ts";
import { boltAxis, boltShare } from "../boltAxis.ts";
import type { LoadedState } from "../runLoads.ts";
import { CLASSES, GAMMA_M0, GAMMA_M2, shearPerPlane_N, THREAD_SIZES, tension_N } from "./bolt.ts";
import { type CheckName, type Finding, type NoteId, rowOf, type ScreenRow, type SourceId } from "./finding.ts";
import { type Material, materialOf } from "./materials.ts";
import { bearing_N, besideHole_N, type Lug, netSection_N, tearOut_N } from "./plate.ts";
import { filletStrength_MPa, lineLoad_N_per_mm, throatOfLeg_mm } from "./weld.ts";

/** Bolts, plates, welds and rated joints that the scene tells, each at its worst state. */
export function screenJoints(scene: Scene, states: readonly LoadedState[]): ScreenRow[] {
  const { bolts, plates, welds, ratings, materials, target } = scene.loads;
  const rows = (
    joint: string,
    check: CheckName,
    own: number | undefined,
    notes: readonly NoteId[],
    find: (state: LoadedState) => Finding | null,
  ) => rowOf(joint, check, own ?? target, notes, states, find);
  return [
    ...bolts.flatMap((bolt) => {
      const axis = boltAxis(scene, bolt.joint, bolt.axis);
      const notes: NoteId[] = [];
      if (bolt.planes === 1) notes.push("bolt bending");
      if (!axis) notes.push("no bolt axis");
      return rows(bolt.joint, "bolt shear", bolt.target, notes, boltFinding(bolt, axis));
    }),
    ...plates.flatMap((plate) => {
      const material = materialOf(plate.material, materials);
      if (!material) return [];
      const lug: Lug = { ...plate, ...material, thickness_mm: plate.thickness_mm * plate.count };
      const bolt = bolts.find(({ joint }) => joint === plate.joint);
      const row = (check: CheckName, capacity_N: number, formula: string, source: SourceId) =>
        rows(
          plate.joint,
          check,
          plate.target,
          ["edge"],
          plateFinding(plate, material, bolt, capacity_N, formula, source),
        );
      return [
        ...(bolt
          ? row(
              "plate bearing",
              bearing_N(lug, THREAD_SIZES[bolt.thread].diameter_mm, CLASSES[bolt.class].ultimate_MPa),
              "k1·αb·fu·d·t/γM2 / F",
              "boltTable",
            )
          : []),
        ...row("tear-out", tearOut_N(lug), "2·t·fy·(a − 2·d0/3)/γM0 / F", "pinTable"),
        ...row("beside the hole", besideHole_N(lug), "2·t·fy·(c − d0/3)/γM0 / F", "pinTable"),
        ...row("net section", netSection_N(lug), "0.9·Anet·fu/γM2 / F", "netSection"),
      ];
    }),
    ...welds.flatMap((weld) => {
      const material = materialOf(weld.material, materials);
      if (!material || material.weldFactor === null) return [];
      return rows(weld.joint, "weld", weld.target, ["along runs"], weldFinding(weld, material, material.weldFactor));
    }),
    ...ratings.flatMap(({ joint, static_N, source, target: own }) =>
      rows(joint, "joint rating", own, [], (state) => {
        const force_N = length(forceIn(state, joint) ?? [0, 0, 0]);
        return {
          factor: static_N / force_N,
          governedBy: null,
          formula: "Fstat / F",
          source: source === undefined ? "builder" : "maker",
          told: source ?? null,
          inputs: { F_N: force_N, Fstat_N: static_N },
        };
      }),
    ),
  ];
}

/** Force that the joint passes, car coordinates; null where it passes none in this state. */
function forceIn({ loads }: LoadedState, joint: string): Vec3 | null {
  return loads.joints.find(({ id }) => id === joint)?.force_N ?? null;
}

/**
 * Shear across the bolt; where it overhangs, the force along it pulls it as well: Fv/Fv,Rd + Ft/(1.4·Ft,Rd) ≤ 1. Held on
 * both sides, the force along it goes into the bracket's faces.
 */
function boltFinding(bolt: BoltRecord, axis: Vec3 | null) {
  const through = bolt.through ?? "thread";
  const plane_N = shearPerPlane_N(bolt.thread, bolt.class, through);
  return (state: LoadedState): Finding | null => {
    const force = forceIn(state, bolt.joint);
    if (!force || plane_N === null) return null;
    const { across_N, along_N } = axis
      ? boltShare(force, axis, state.at.side)
      : { across_N: length(force), along_N: 0 };
    const pull_N = tension_N(bolt.thread, bolt.class);
    const isPulled = bolt.planes === 1 && along_N > 0;
    const use = across_N / (plane_N * bolt.planes) + (isPulled ? along_N / (1.4 * pull_N) : 0);
    return {
      factor: 1 / (isPulled ? Math.max(use, along_N / pull_N) : use),
      governedBy: null,
      formula: isPulled ? "1 / (Fv/Fv,Rd + Ft/(1.4·Ft,Rd))" : "n·αv·fub·A/γM2 / F",
      source: "boltTable",
      told: null,
      inputs: {
        across_N,
        along_N,
        thread: bolt.thread,
        class: bolt.class,
        planes: bolt.planes,
        through,
        FvRd_per_plane_N: plane_N,
        gammaM2: GAMMA_M2,
      },
    };
  };
}

function plateFinding(
  { joint, count, thickness_mm, hole_mm, end_mm, side_mm }: PlateRecord,
  { id, yield_MPa, ultimate_MPa }: Material,
  bolt: BoltRecord | undefined,
  capacity_N: number,
  formula: string,
  source: SourceId,
) {
  return (state: LoadedState): Finding | null => {
    const force = forceIn(state, joint);
    if (!force) return null;
    const F_N = length(force);
    return {
      factor: capacity_N / F_N,
      governedBy: null,
      formula,
      source,
      told: null,
      inputs: {
        F_N,
        capacity_N,
        plates: count,
        t_mm: thickness_mm,
        d0_mm: hole_mm,
        e1_mm: end_mm,
        e2_mm: side_mm,
        ...(bolt ? { bolt: `${bolt.thread} ${bolt.class}` } : {}),
        fy_MPa: yield_MPa,
        fu_MPa: ultimate_MPa,
        gammaM0: GAMMA_M0,
        gammaM2: GAMMA_M2,
        material: id,
      },
    };
  };
}

function weldFinding(weld: WeldRecord, { id, ultimate_MPa }: Material, weldFactor: number) {
  const throat_mm = weld.throat_mm ?? throatOfLeg_mm(weld.leg_mm!);
  const lever_mm = weld.lever_mm ?? 0;
  const strength_MPa = filletStrength_MPa(ultimate_MPa, weldFactor);
  return (state: LoadedState): Finding | null => {
    const force = forceIn(state, weld.joint);
    if (!force) return null;
    const F_N = length(force);
    const line = lineLoad_N_per_mm(F_N, weld.length_mm, weld.runs, lever_mm);
    return {
      factor: (strength_MPa * throat_mm) / line,
      governedBy: null,
      formula: "fu/√3/(βw·γM2)·a / √((F/(n·L))² + (6·F·h/(n·L²))²)",
      source: "weld",
      told: null,
      inputs: {
        F_N,
        a_mm: throat_mm,
        L_mm: weld.length_mm,
        runs: weld.runs,
        h_mm: lever_mm,
        fu_MPa: ultimate_MPa,
        betaW: weldFactor,
        gammaM2: GAMMA_M2,
        material: id,
      },
    };
  };
}
