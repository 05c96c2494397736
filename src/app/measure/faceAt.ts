import { nearestOnTriangle } from "../../clearance/pointTriangle.ts";
import type { Solid } from "../../geometry/solid.ts";
import { visitNear } from "../../geometry/triangleRuns.ts";
import { cross, length, normalise, subtract, type Vec3 } from "../../maths/vec3.ts";

/** A hit lies on its triangle to the rounding of the coordinates; this far is well past that. */
const REACH_mm = 0.5;

/** Unit normal of the triangle on which the place of the solid's surface lies, body coordinates; null where none is near. */
export function faceAt(solid: Solid, place: Vec3): Vec3 | null {
  const { positions, indices } = solid;
  const corners = new Float64Array(9);
  const near = new Float64Array(4);
  let least = REACH_mm * REACH_mm;
  let found: Vec3 | null = null;
  visitNear(solid, place, REACH_mm, (first) => {
    for (let k = 0; k < 9; k++) corners[k] = positions[indices[first + Math.floor(k / 3)]! * 3 + (k % 3)]!;
    nearestOnTriangle(corners, 0, place[0], place[1], place[2], near);
    if (near[0]! > least) return;
    const corner = (i: number): Vec3 => [corners[3 * i]!, corners[3 * i + 1]!, corners[3 * i + 2]!];
    const normal = cross(subtract(corner(1), corner(0)), subtract(corner(2), corner(0)));
    if (length(normal) === 0) return;
    least = near[0]!;
    found = normalise(normal);
  });
  return found;
}
