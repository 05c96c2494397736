import type { Vec3 } from "../../src/maths/vec3.ts";

/** Arm of 450 mm: its axis lies crosswise through this point, the wheel centre behind it at the same height. */
export const ARM_mm = 450;
export const PIVOT: Vec3 = [450, 600, 300];
export const CENTRE: Vec3 = [0, 740, 300];

/** Where a place of a pure trailing arm of 450 mm is with the wheel raised by so much: a turn about the crosswise axis (closed form). */
export function swung([x, y, z]: Vec3, travel_mm: number): Vec3 {
  const angle = Math.asin(travel_mm / ARM_mm);
  // behind the pivot a rise is a turn from +x to −z about y
  const [dx, dz] = [x - PIVOT[0], z - PIVOT[2]];
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [PIVOT[0] + dx * c + dz * s, y, PIVOT[2] - dx * s + dz * c];
}

/** Where a function that changes its sign between two places does so, by halving. */
export function rootBetween(from: number, to: number, of: (x: number) => number): number {
  let [low, high] = [from, to];
  const sign = Math.sign(of(low));
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (Math.sign(of(middle)) === sign) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
