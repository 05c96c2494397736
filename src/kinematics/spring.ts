import type { Corner } from "./corner.ts";
import { readCorner } from "./readings.ts";

/** m/s², by definition (3rd General Conference on Weights and Measures, 1901). */
export const STANDARD_GRAVITY = 9.80665;

/** The spring with the car standing at ride height. */
export interface SpringAtRide {
  /** Between its seats; null where the spring's free length or rate is not told. */
  readonly length_mm: number | null;
  /** Along the damper; null where it is neither weighed nor follows from the length. */
  readonly force_N: number | null;
  /** The length was measured, not worked out from the load. */
  readonly isMeasured: boolean;
}

/** Mass that rides on this wheel's spring: what the scale reads less what moves with the wheel; null where it is not told. */
export function sprungMass_kg({ scene: { loads }, side }: Pick<Corner, "scene" | "side">): number | null {
  const mass_kg = loads.cornerMass_kg[side];
  return mass_kg === null ? null : mass_kg - (loads.unsprung_kg ?? 0);
}

/**
 * The force that holds this corner up at ride height, from virtual work: sprung weight over damper ratio; and the spring's
 * length under it, unless that was measured. Null without a damper.
 */
export function springAtRide(corner: Corner): SpringAtRide | null {
  const { damper } = corner.scene;
  if (!damper) return null;
  const { springFree_mm, springRate_N_per_mm, springAtRide_mm } = damper;
  const mass_kg = sprungMass_kg(corner);
  const { damperRatio } = readCorner(corner, corner.ridePose, "rest");
  const carried_N = mass_kg === null || !damperRatio ? null : (mass_kg * STANDARD_GRAVITY) / damperRatio;
  const knowsSpring = springFree_mm !== null && springRate_N_per_mm !== null;
  if (springAtRide_mm !== null) {
    const pushed_N = knowsSpring ? springRate_N_per_mm * (springFree_mm - springAtRide_mm) : null;
    return { length_mm: springAtRide_mm, force_N: pushed_N ?? carried_N, isMeasured: true };
  }
  const length_mm = knowsSpring && carried_N !== null ? springFree_mm - carried_N / springRate_N_per_mm : null;
  return { length_mm, force_N: carried_N, isMeasured: false };
}

/**
 * Wheel rate, N/mm: with the ratio R (damper per wheel) K_w = K·R² + F·dR/dz, the derivative of the wheel's force F·R by
 * travel (Milliken & Milliken, Race Car Vehicle Dynamics, chapter 16; from memory). `force_N` in the spring, compression positive.
 */
export function wheelRate_N_per_mm(rate_N_per_mm: number, ratio: number, force_N: number, ratioRate_per_mm: number) {
  return rate_N_per_mm * ratio * ratio + force_N * ratioRate_per_mm;
}

/** Undamped frequency of the sprung mass on its wheel rate, the tyre rigid: √(K/m)/2π, Hz; null for a rate that does not hold it up. */
export function rideFrequency_Hz(wheelRate_N_per_mm: number, mass_kg: number): number | null {
  return wheelRate_N_per_mm > 0 ? Math.sqrt((1000 * wheelRate_N_per_mm) / mass_kg) / (2 * Math.PI) : null;
}
