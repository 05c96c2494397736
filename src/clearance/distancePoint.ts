/** The surface point nearest to a point; belongs to the caller. */
export interface SurfacePoint {
  distance_mm: number;
  /** Tree triangle, −1 where none is within the limit. */
  triangle: number;
  readonly point: Float64Array;
}

export interface PointQuery {
  /**
   * Nearest surface point to (x, y, z), in the tree's design axes, if it is nearer than `below_mm`; false, and `out` left
   * with triangle −1 and distance `below_mm`, if none is.
   */
  nearest(x: number, y: number, z: number, below_mm: number, out: SurfacePoint): boolean;
}
