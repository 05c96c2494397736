import { type PerspectiveCamera, Vector3 } from "three";
import type { Vec3 } from "../../maths/vec3.ts";
import type { PictureSize } from "./framing.ts";

export interface ProjectedPoint {
  readonly x: number;
  readonly y: number;
  /** Inside the picture, in front of the eye. Parts before it are not asked. */
  readonly visible: boolean;
}

/** Where points of the car are in a picture of that size, taken by that camera. */
export function projected(
  points: readonly Vec3[],
  camera: PerspectiveCamera,
  { width, height }: PictureSize,
): ProjectedPoint[] {
  const p = new Vector3();
  return points.map((point) => {
    p.set(point[0], point[1], point[2]).project(camera);
    const visible = Math.abs(p.x) <= 1 && Math.abs(p.y) <= 1 && Math.abs(p.z) <= 1;
    return { x: (p.x * 0.5 + 0.5) * width, y: (0.5 - p.y * 0.5) * height, visible };
  });
}

/** Points of the car that the shell draws over the picture: where they are in it, told when that changes. */
export class Marks {
  points: readonly Vec3[] = [];
  onProject: (points: readonly ProjectedPoint[]) => void = () => {};
  #told = "";

  project(camera: PerspectiveCamera, size: PictureSize): void {
    const places = projected(this.points, camera, size);
    const text = places.map(({ x, y, visible }) => `${x.toFixed(2)},${y.toFixed(2)},${visible}`).join(";");
    if (text === this.#told) return;
    this.#told = text;
    this.onProject(places);
  }
}
