import { add, dot, scale, type Vec3 } from "../../maths/vec3.ts";
import { type CameraPlace, cameraFrame } from "./cameraPlace.ts";

/** Margins of the picture that something else covers, CSS px. */
export interface Inset {
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly left: number;
}

export const NO_INSET: Inset = { top: 0, right: 0, bottom: 0, left: 0 };

export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/** The free part of the picture: size, and how far its middle lies right of and above the picture's middle, CSS px. */
export function freeArea(size: PictureSize, inset: Inset): PictureSize & { readonly x: number; readonly y: number } {
  const width = Math.max(size.width - inset.left - inset.right, size.width * 0.2, 1);
  const height = Math.max(size.height - inset.top - inset.bottom, size.height * 0.2, 1);
  return { width, height, x: (inset.left - inset.right) / 2, y: (inset.bottom - inset.top) / 2 };
}

/**
 * The nearest place in the given direction from which every point lies inside the free area, in its middle. `lens_rad` is the
 * angle of view over the whole height. A point at (x, z) of the camera's axes (z towards the eye, from any origin) is inside
 * when |x − s| ≤ k·(d − z), with s the sideways shift, d the eye's distance and k half the free width over the
 * focal length; so d·k = (max(x + k·z) + max(−x + k·z)) / 2 at the least.
 */
export function framed(
  points: readonly Vec3[],
  direction: Pick<CameraPlace, "azimuth_rad" | "elevation_rad">,
  size: PictureSize,
  inset: Inset,
  lens_rad: number,
): CameraPlace | null {
  if (points.length === 0) return null;
  const free = freeArea(size, inset);
  const perPixel = (2 * Math.tan(lens_rad / 2)) / size.height;
  const { right, up, back } = cameraFrame({ ...direction, target: [0, 0, 0], distance_mm: 1 });
  const span = (axis: Vec3, k: number) => {
    let [plus, minus] = [-Infinity, -Infinity];
    for (const point of points) {
      const [x, z] = [dot(point, axis), dot(point, back)];
      plus = Math.max(plus, x + k * z);
      minus = Math.max(minus, k * z - x);
    }
    return { shift: (plus - minus) / 2, distance: (plus + minus) / (2 * k) };
  };
  const across = span(right, (perPixel * free.width) / 2);
  const upright = span(up, (perPixel * free.height) / 2);
  const along = Math.max(across.distance, upright.distance);
  const depths = points.map((point) => dot(point, back));
  const middle = (Math.min(...depths) + Math.max(...depths)) / 2;
  const target = add(scale(right, across.shift), add(scale(up, upright.shift), scale(back, middle)));
  return { ...direction, target, distance_mm: Math.max(along - middle, 1) };
}
