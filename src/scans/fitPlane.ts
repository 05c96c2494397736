import { principalAxes, sumOfOuter } from "../maths/sym3.ts";
import { add, dot, scale, subtract, type Vec3 } from "../maths/vec3.ts";

export interface FittedPlane {
  readonly kind: "plane";
  /** Middle of the points. */
  readonly at: Vec3;
  /** Unit normal, either way round. */
  readonly normal: Vec3;
  readonly rms_mm: number;
}

/**
 * The plane with the least sum of squared distances (K. Pearson, "On lines and planes of closest fit to systems of points in
 * space", Phil. Mag. 2 (1901) 559): through the middle, square to the direction in which the points spread least.
 * At least three points that are not in a line.
 */
export function fitPlane(points: readonly Vec3[]): FittedPlane {
  const at = middleOf(points);
  const off = points.map((p) => subtract(p, at));
  const { axes } = principalAxes(sumOfOuter(off));
  const normal = axes[2];
  return { kind: "plane", at, normal, rms_mm: rootMeanSquare(off.map((p) => dot(p, normal))) };
}

export function middleOf(points: readonly Vec3[]): Vec3 {
  return scale(
    points.reduce((sum, p) => add(sum, p), [0, 0, 0] as Vec3),
    1 / points.length,
  );
}

export function rootMeanSquare(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}
