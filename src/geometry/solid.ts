/**
 * A body's surface in its design position (car coordinates of the left corner or of the car, mm).
 * `positions` 3 per vertex (float32), `indices` 3 per triangle, counter-clockwise seen from outside.
 */
export interface Solid {
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
  /** Closed surfaces of which the solid consists, as runs of triangles that follow each other and cover `indices`. */
  readonly shells: readonly Shell[];
  /**
   * Convex pieces that together fill the solid (their union is the solid within the tessellation bound), each a cloud
   * of 3·k vertex coordinates whose hull is the piece; null where the shape is not known to come in such pieces (scans).
   * Depth is exact over these.
   */
  readonly convexPieces: readonly Float32Array[] | null;
  /** Why there is nothing: a mesh file that is larger than what is read. Its parts are told as not checked. */
  readonly refused?: Refusal;
}

export interface Refusal {
  readonly file: string;
  readonly wrong: string;
  readonly wanted: string;
}

export interface Shell {
  readonly firstTriangle: number;
  readonly triangleCount: number;
  /** Every edge belongs to two triangles that run it in opposite senses. An open shell has no inside. */
  readonly closed: boolean;
}
