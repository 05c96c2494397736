import { type PerspectiveCamera, Vector3 } from "three";
import { normalise, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { PictureSize } from "./framing.ts";

/** A line of sight: from the eye's side through a place of the picture, unit direction, car coordinates, mm. */
export interface Ray {
  readonly from: Vec3;
  readonly way: Vec3;
}

/** What the picture's camera sees where, as last drawn. Places of the picture are CSS px from its upper left. */
export interface Sight {
  project(p: Vec3): { readonly x: number; readonly y: number };
  rayAt(x: number, y: number): Ray;
  /** mm that one CSS px spans at the depth of `p`. */
  mmPerPx(p: Vec3): number;
  /** Unit vector from what is looked at to the eye. */
  readonly back: Vec3;
}

export function sightOf(
  camera: PerspectiveCamera,
  { width, height }: PictureSize,
  mmPerPx: (p: Vec3) => number,
  back: Vec3,
): Sight {
  return {
    project(p) {
      const v = new Vector3(...p).project(camera);
      return { x: (v.x * 0.5 + 0.5) * width, y: (0.5 - v.y * 0.5) * height };
    },
    rayAt(x, y) {
      const [u, v] = [(x / width) * 2 - 1, 1 - (y / height) * 2];
      const [near, far] = [-1, 1].map((z): Vec3 => {
        const p = new Vector3(u, v, z).unproject(camera);
        return [p.x, p.y, p.z];
      }) as [Vec3, Vec3];
      return { from: near, way: normalise(subtract(far, near)) };
    },
    mmPerPx,
    back,
  };
}
