import { GAMMA_M0, GAMMA_M2 } from "./bolt.ts";

/** A plate that a bolt or pin pulls at. `thickness_mm`: of all plates that share the pull. */
export interface Lug {
  readonly thickness_mm: number;
  readonly hole_mm: number;
  /** Centre of the hole to the edge in the direction of the pull, e1. */
  readonly end_mm: number;
  /** Centre of the hole to the edge beside it, e2. */
  readonly side_mm: number;
  readonly yield_MPa: number;
  readonly ultimate_MPa: number;
}

/**
 * Fb,Rd, N: k1·αb·fu·d·t/γM2 with k1 = min(2.8·e2/d0 − 1.7, 2.5) and αb = min(e1/(3·d0), fub/fu, 1), for a bolt at the
 * edge (EN 1993-1-8 table 3.4); fu is the plate's, also in αb's place of fub.
 */
export function bearing_N(lug: Lug, bolt_mm: number, boltUltimate_MPa: number): number {
  const k1 = Math.max(0, Math.min((2.8 * lug.side_mm) / lug.hole_mm - 1.7, 2.5));
  const alpha = Math.min(lug.end_mm / (3 * lug.hole_mm), boltUltimate_MPa / lug.ultimate_MPa, 1);
  return (k1 * alpha * lug.ultimate_MPa * bolt_mm * lug.thickness_mm) / GAMMA_M2;
}

/**
 * Pull at which the end tears out, N: from a ≥ F·γM0/(2·t·fy) + 2·d0/3 with a from the hole's edge to the end (EN 1993-1-8
 * table 3.9, type A). Nothing where the end is nearer than 2/3 of the hole.
 */
export function tearOut_N({ thickness_mm, hole_mm, end_mm, yield_MPa }: Lug): number {
  return (2 * thickness_mm * yield_MPa * Math.max(0, end_mm - hole_mm / 2 - (2 * hole_mm) / 3)) / GAMMA_M0;
}

/** The same beside the hole, N: from c ≥ F·γM0/(2·t·fy) + d0/3 (EN 1993-1-8 table 3.9, type A). */
export function besideHole_N({ thickness_mm, hole_mm, side_mm, yield_MPa }: Lug): number {
  return (2 * thickness_mm * yield_MPa * Math.max(0, side_mm - hole_mm / 2 - hole_mm / 3)) / GAMMA_M0;
}

/** Nu,Rd of the section through the hole, N: 0.9·Anet·fu/γM2 with a plate 2·e2 wide (EN 1993-1-1, 6.2.3). */
export function netSection_N({ thickness_mm, hole_mm, side_mm, ultimate_MPa }: Lug): number {
  return (0.9 * (2 * side_mm - hole_mm) * thickness_mm * ultimate_MPa) / GAMMA_M2;
}
