import type { Vec3 } from "../maths/vec3.ts";
import type { PointDocument, ShapeDocument } from "./document.ts";
import { InputError } from "./error.ts";
import { type Locate, resolveShape } from "./resolveShape.ts";
import type { Resolving } from "./resolving.ts";
import type { Shape } from "./scene.ts";

interface Kept {
  /** Named points that the shape hangs on, and where they were. */
  readonly points: readonly PointDocument[];
  readonly places: readonly Vec3[];
  readonly shape: Shape;
}

/** A record of a document is never written to, so the same record at the same places makes the same shape. */
const kept = new WeakMap<ShapeDocument, Kept>();

/**
 * The shape as `resolveShape` makes it; the very same object as before while no point that it hangs on has moved, so that
 * dragging one point costs what hangs on that point. Throws InputError like `resolveShape`.
 */
export function keptShape(document: ShapeDocument, path: string, locate: Locate, context: Resolving): Shape {
  const before = kept.get(document);
  if (before && standsWhereItStood(before, locate)) return before.shape;
  const points: PointDocument[] = [];
  const places: Vec3[] = [];
  const noting: Locate = (point, pointPath) => {
    const place = locate(point, pointPath);
    if (!isPlace(point)) {
      points.push(point);
      places.push(place);
    }
    return place;
  };
  const shape = resolveShape(document, path, noting, context);
  kept.set(document, { points, places, shape });
  return shape;
}

function standsWhereItStood({ points, places }: Kept, locate: Locate): boolean {
  try {
    return points.every((point, i) => {
      const [x, y, z] = locate(point, "");
      const was = places[i]!;
      return was[0] === x && was[1] === y && was[2] === z;
    });
  } catch (error) {
    // resolving it anew tells the fault with its place
    if (error instanceof InputError) return false;
    throw error;
  }
}

function isPlace(point: PointDocument): point is Vec3 {
  return Array.isArray(point);
}
