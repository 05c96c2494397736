import { add, cross, dot, normalise, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";

/** Arm of 450 mm: its axis lies crosswise through this point, the wheel centre behind it at the same height. */
export const ARM_mm = 450;
export const PIVOT: Vec3 = [450, 600, 300];
export const CENTRE: Vec3 = [0, 740, 300];
/** Set straight, so that its angles are those of what carries it. */
export const WHEEL = { centre: CENTRE, tyre: "205/55R16", rimWidth_in: 7, rimOffset_mm: 42, toe_deg: 0, camber_deg: 0 };
/** Of the damper on the arm. */
export const TOP: Vec3 = [60, 560, 640];
export const BOTTOM: Vec3 = [80, 585, 260];
/** Of the driveshaft to it. */
export const INNER: Vec3 = [20, 240, 330];
export const OUTER: Vec3 = [0, 668, 300];

/** Where a place of a pure trailing arm of 450 mm is with the wheel raised by so much: a turn about the crosswise axis (closed form). */
export function swung([x, y, z]: Vec3, travel_mm: number): Vec3 {
  const angle = Math.asin(travel_mm / ARM_mm);
  // behind the pivot a rise is a turn from +x to −z about y
  const [dx, dz] = [x - PIVOT[0], z - PIVOT[2]];
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [PIVOT[0] + dx * c + dz * s, y, PIVOT[2] - dx * s + dz * c];
}

/** Semi-trailing arm swept back by 15°: its axis lies level through this point, the wheel centre 400 behind and 150 out from it. */
export const FOOT: Vec3 = [400, 590, 300];
const SWEEP_rad = (15 * Math.PI) / 180;
export const SWEPT: Vec3 = [Math.sin(SWEEP_rad), Math.cos(SWEEP_rad), 0];
/** Another place of its axis. */
export const FAR_FOOT: Vec3 = subtract(FOOT, scale(SWEPT, 200));

/** A direction carried by the semi-trailing arm: Rodrigues' rotation by φ, sin φ = z/R, R = 400 cos α + 150 sin α. */
export function sweptWay(way: Vec3, travel_mm: number): Vec3 {
  const sine = travel_mm / (400 * SWEPT[1] + 150 * SWEPT[0]);
  const cosine = Math.sqrt(1 - sine * sine);
  const along = scale(SWEPT, dot(SWEPT, way) * (1 - cosine));
  return add(add(scale(way, cosine), scale(cross(SWEPT, way), sine)), along);
}

export function sweptPlace(place: Vec3, travel_mm: number): Vec3 {
  return add(FOOT, sweptWay(subtract(place, FOOT), travel_mm));
}

/** Lowest place of its wheel: the loaded radius, as high as the centre stands, down the wheel's own plane. */
export function sweptGround(travel_mm: number): Vec3 {
  const spin = sweptWay([0, 1, 0], travel_mm);
  const up = normalise(subtract([0, 0, 1], scale(spin, spin[2])));
  return subtract(sweptPlace(CENTRE, travel_mm), scale(up, CENTRE[2]));
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
