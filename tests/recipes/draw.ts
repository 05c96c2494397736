import { buildSolid } from "../../src/geometry/buildSolid.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { add, type Vec3 } from "../../src/maths/vec3.ts";
import type { PointDocument, SceneDocument, ShapeDocument } from "../../src/scene/document.ts";
import { pointResolver } from "../../src/scene/pointResolver.ts";
import type { MadeDocument } from "../../src/scene/recipes/made.ts";
import { makeShape } from "../../src/scene/recipes/makeShape.ts";
import { resolveShape } from "../../src/scene/resolveShape.ts";
import { resolving } from "../../src/scene/resolving.ts";
import { contextAt } from "../geometry/support.ts";

export type Points = Readonly<Record<string, Vec3>>;

export function placeIn(points: Points): (point: PointDocument) => Vec3 {
  return (point) => {
    if (typeof point === "string") return points[point]!;
    return "from" in point ? add(points[point.from]!, point.by) : point;
  };
}

/** The mesh of a shape record whose names stand in `points`. */
export function drawShape(shape: ShapeDocument, points: Points = {}, tessellation_mm = 0.1): Solid {
  const document = { points } as unknown as SceneDocument;
  const context = resolving(pointResolver(document), "");
  return buildSolid(resolveShape(shape, "shape", context.drawn, context), contextAt(tessellation_mm));
}

export function drawMade(made: MadeDocument, points: Points = {}, tessellation_mm = 0.1): Solid {
  return drawShape(makeShape(made, placeIn(points)), points, tessellation_mm);
}
