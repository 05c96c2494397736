import type { Vec3 } from "../maths/vec3.ts";
import { type Frame, pointIn } from "./frame.ts";

/** Fewer sides than this look wrong, however small the part. */
const FEWEST_SIDES = 8;

/**
 * The fewest sides of a regular polygon around a circle whose corners stand at most `sag_mm` outside it:
 * r/cos(π/n) − r ≤ sag, so n = ⌈π / acos(r/(r + sag))⌉.
 */
export function sidesForSag(radius_mm: number, sag_mm: number): number {
  if (radius_mm <= 0) return FEWEST_SIDES;
  return Math.max(FEWEST_SIDES, Math.ceil(Math.PI / Math.acos(radius_mm / (radius_mm + sag_mm)) - 1e-9));
}

/** Radius of the corners of the regular polygon of n sides around a circle. */
export function cornerRadius(radius_mm: number, sides: number): number {
  return radius_mm / Math.cos(Math.PI / sides);
}

/** Regular polygon in the frame's x, y plane at height z, counter-clockwise about z. */
export function regularRing(frame: Frame, cornerRadius_mm: number, sides: number, z_mm: number): Vec3[] {
  return Array.from({ length: sides }, (_, i) => {
    const angle = (2 * Math.PI * i) / sides;
    return pointIn(frame, cornerRadius_mm * Math.cos(angle), cornerRadius_mm * Math.sin(angle), z_mm);
  });
}
