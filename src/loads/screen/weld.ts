import { GAMMA_M2 } from "./bolt.ts";

/** Throat of a fillet with equal legs, mm: leg/√2. */
export function throatOfLeg_mm(leg_mm: number): number {
  return leg_mm / Math.SQRT2;
}

/** Design shear strength of a fillet, MPa: fu/√3/(βw·γM2), the simplified method (EN 1993-1-8, 4.5.3.3). */
export function filletStrength_MPa(ultimate_MPa: number, weldFactor: number): number {
  return ultimate_MPa / Math.sqrt(3) / (weldFactor * GAMMA_M2);
}

/**
 * Force per length of weld, N/mm, from a force F at a height h above `runs` parallel runs of length L: F/(n·L) straight,
 * and at their ends 6·F·h/(n·L²) from tipping along them; taken square to each other. Runs as lines, elastic (Blodgett,
 * Design of Welded Structures, section 7.4: weld treated as a line; from memory).
 */
export function lineLoad_N_per_mm(force_N: number, length_mm: number, runs: number, lever_mm: number): number {
  return Math.hypot(force_N / (runs * length_mm), (6 * force_N * lever_mm) / (runs * length_mm ** 2));
}
