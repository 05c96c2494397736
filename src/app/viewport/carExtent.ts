import { Sphere, Vector3 } from "three";
import type { Vec3 } from "../../maths/vec3.ts";
import type { Part } from "./bodyLayer.ts";
import type { Reach } from "./lens.ts";

/** Travel and engine rock move parts out of their design position by no more than this, mm. */
const MOVES_MM = 300;

/** The room that the car takes: a sphere for the depth buffer, and the corners of its parts' boxes for framing it. */
export function carExtent(parts: readonly Part[]): { readonly reach: Reach; readonly points: readonly Vec3[] } {
  const points: Vec3[] = [];
  const all = new Sphere();
  all.makeEmpty();
  for (const part of parts) {
    all.union(part.bounds);
    if (part.coil !== null) continue;
    const { geometry } = part.mesh;
    if (geometry.boundingBox === null) geometry.computeBoundingBox();
    const { min, max } = geometry.boundingBox!;
    for (const x of [min.x, max.x]) {
      for (const y of [min.y, max.y]) for (const z of [min.z, max.z]) points.push([x, y, z]);
    }
  }
  const { center, radius } = all.isEmpty() ? new Sphere(new Vector3(0, 0, 300), 1000) : all;
  return { reach: { centre: [center.x, center.y, center.z], radius_mm: radius + MOVES_MM }, points };
}
