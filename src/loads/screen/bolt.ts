import type { BOLT_CLASSES, THREADS } from "../../scene/loadsDocument.ts";

export type Thread = (typeof THREADS)[number];
export type BoltClass = (typeof BOLT_CLASSES)[number];

/** Partial factors of EN 1993-1-8, 2.2: for bolts, plates in bearing, net sections and welds; and for gross sections. */
export const GAMMA_M2 = 1.25;
export const GAMMA_M0 = 1;

/** Nominal diameter, mm, and tensile stress area, mm²: ISO 898-1, coarse threads (M6 and M20 from memory). */
export const THREAD_SIZES: Readonly<Record<Thread, { readonly diameter_mm: number; readonly stress_mm2: number }>> = {
  M6: { diameter_mm: 6, stress_mm2: 20.1 },
  M8: { diameter_mm: 8, stress_mm2: 36.6 },
  M10: { diameter_mm: 10, stress_mm2: 58 },
  M12: { diameter_mm: 12, stress_mm2: 84.3 },
  M14: { diameter_mm: 14, stress_mm2: 115 },
  M16: { diameter_mm: 16, stress_mm2: 157 },
  M20: { diameter_mm: 20, stress_mm2: 245 },
};

/** Ultimate strength, MPa, and the shear factor αv with the plane through the thread; null: the table does not go so far. */
export const CLASSES: Readonly<Record<BoltClass, { readonly ultimate_MPa: number; readonly shear: number | null }>> = {
  "4.6": { ultimate_MPa: 400, shear: 0.6 },
  "5.6": { ultimate_MPa: 500, shear: 0.6 },
  "8.8": { ultimate_MPa: 800, shear: 0.6 },
  "10.9": { ultimate_MPa: 1000, shear: 0.5 },
  "12.9": { ultimate_MPa: 1200, shear: null },
};

/** Fv,Rd of one plane, N: αv·fub·A/γM2, A the stress area in the thread, the gross area with αv 0.6 in the shank (EN 1993-1-8 table 3.4). */
export function shearPerPlane_N(thread: Thread, boltClass: BoltClass, through: "thread" | "shank"): number | null {
  const { ultimate_MPa, shear } = CLASSES[boltClass];
  if (shear === null) return null;
  const { diameter_mm, stress_mm2 } = THREAD_SIZES[thread];
  if (through === "shank") return (0.6 * ultimate_MPa * Math.PI * diameter_mm ** 2) / 4 / GAMMA_M2;
  return (shear * ultimate_MPa * stress_mm2) / GAMMA_M2;
}

/** Ft,Rd, N: 0.9·fub·As/γM2 (EN 1993-1-8 table 3.4). */
export function tension_N(thread: Thread, boltClass: BoltClass): number {
  return (0.9 * CLASSES[boltClass].ultimate_MPa * THREAD_SIZES[thread].stress_mm2) / GAMMA_M2;
}
