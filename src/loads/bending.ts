import { add, cross, dot, length, scale, subtract, type Vec3, ZERO } from "../maths/vec3.ts";
import type { PointForce } from "./forces.ts";

/**
 * Largest bending moment either side of the innermost load of a beam that runs from `from` along the unit vector `along`,
 * found at cuts through the foot of every load: the moment of all forces beyond the cut. `about`: only the part about
 * this axis counts (an arm that turns about it); null: all of it square to the beam. `forces`: everything beyond the
 * inboard end, the reaction at the outboard end included.
 */
export function bendingAlong(
  from: Vec3,
  along: Vec3,
  length_mm: number,
  forces: readonly PointForce[],
  about: Vec3 | null,
): readonly [{ name: "inboard"; bending_Nmm: number }, { name: "outboard"; bending_Nmm: number }] {
  const stations = forces.map(({ at }) => Math.min(Math.max(dot(subtract(at, from), along), 0), length_mm));
  const first = Math.min(...stations);
  let inboard = 0;
  let outboard = 0;
  for (const station of stations) {
    const cut = add(from, scale(along, station));
    const [withHere, beyond] = [true, false].map((counts) => {
      let moment = ZERO;
      for (let i = 0; i < forces.length; i++) {
        if (!(stations[i]! > station || (counts && stations[i] === station))) continue;
        const { at, force_N } = forces[i]!;
        moment = add(moment, cross(subtract(at, cut), force_N));
      }
      return about ? Math.abs(dot(moment, about)) : length(subtract(moment, scale(along, dot(moment, along))));
    });
    // just inside the innermost load is the inboard stretch; every other side of a cut lies outboard of it
    if (station === first) inboard = Math.max(inboard, withHere!);
    else outboard = Math.max(outboard, withHere!);
    outboard = Math.max(outboard, beyond!);
  }
  return [
    { name: "inboard", bending_Nmm: inboard },
    { name: "outboard", bending_Nmm: outboard },
  ];
}
