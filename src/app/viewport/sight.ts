import { Matrix4, type PerspectiveCamera, Vector3 } from "three";
import type { Pose } from "../../maths/pose.ts";
import { normalise, subtract, type Vec3 } from "../../maths/vec3.ts";
import { writePose } from "./bodyLayer.ts";
import type { PictureSize } from "./framing.ts";

/** A line of sight: from the eye's side through a place of the picture, unit direction, car coordinates, mm. */
export interface Ray {
  readonly from: Vec3;
  readonly way: Vec3;
}

/** What the picture's camera sees where, as last drawn. Places of the picture are CSS px from its upper left. */
export interface Sight {
  project(p: Vec3): { readonly x: number; readonly y: number };
  /** Of many points at once, 3 numbers each, drawn under a pose: writes x and y of each. */
  projectAll(points: Float32Array, pose: Pose, out: Float32Array): void;
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
    projectAll(points, pose, out) {
      const whole = new Matrix4().multiplyMatrices(camera.projectionMatrix, camera.matrixWorldInverse);
      const drawn = new Matrix4();
      writePose(pose, drawn.elements);
      const m = whole.multiply(drawn).elements;
      for (let i = 0, o = 0; i + 2 < points.length; i += 3, o += 2) {
        const [x, y, z] = [points[i]!, points[i + 1]!, points[i + 2]!];
        const w = m[3]! * x + m[7]! * y + m[11]! * z + m[15]!;
        out[o] = (((m[0]! * x + m[4]! * y + m[8]! * z + m[12]!) / w) * 0.5 + 0.5) * width;
        out[o + 1] = (0.5 - ((m[1]! * x + m[5]! * y + m[9]! * z + m[13]!) / w) * 0.5) * height;
      }
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
