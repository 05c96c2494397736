import { InputError } from "../scene/error.ts";
import type { Shape, Wheel } from "../scene/scene.ts";
import type { Solid } from "./solid.ts";

/** What a shape needs besides its own record. */
export interface ShapeContext {
  /** Surfaces are drawn at most this far outside the true ones. */
  readonly tessellation_mm: number;
  readonly wheel: Wheel;
  /** Imported meshes in millimetres, by the shape's `file`. */
  readonly meshFiles: ReadonlyMap<string, Solid>;
  /**
   * Bends of tubes that are drawn for one place of a point after another are drawn in no fewer steps than this, and from a side that
   * turns with them, so that their triangles stay where they are as far as they can. Left out: as many as they need.
   */
  readonly leastBendSteps?: number;
  /** JSON path of the shape, put before the keys that errors name. */
  readonly path?: string;
}

export type ShapeBuilder<Kind extends Shape["kind"]> = (
  shape: Extract<Shape, { kind: Kind }>,
  context: ShapeContext,
) => Solid;

export function shapeError(context: ShapeContext, key: string, wrong: string, wanted: string): InputError {
  return new InputError("wrong-value", { path: keyPath(context, key) }, wrong, wanted);
}

export function keyPath(context: ShapeContext, key: string): string {
  return [context.path, key].filter(Boolean).join(".");
}
