import { mirror, type Vec3 } from "../../maths/vec3.ts";
import type { PointDocument, ShapeDocument } from "../document.ts";

type MapPoint = (point: PointDocument) => PointDocument;

/**
 * The shape with its outermost POINTs turned into others. What lies within a placed shape (one with `at` or `turn_deg`)
 * is drawn about that place and goes with it; a shape without points of its own is placed at what the origin becomes.
 */
export function mapShape(shape: ShapeDocument, ofPoint: MapPoint): ShapeDocument {
  if (shape.at !== undefined) return { ...shape, at: ofPoint(shape.at) };
  if (shape.turn_deg !== undefined) return placedAt(shape, ofPoint);
  switch (shape.kind) {
    case "cylinder":
    case "capsule":
    case "cone":
      return { ...shape, from: ofPoint(shape.from), to: ofPoint(shape.to) };
    case "tube":
      return { ...shape, path: shape.path.map(ofPoint) };
    case "prism":
      return { ...shape, origin: ofPoint(shape.origin) };
    case "hull":
      return {
        ...shape,
        ...(shape.points ? { points: shape.points.map(ofPoint) } : {}),
        ...(shape.spheres ? { spheres: shape.spheres.map((ball) => ({ ...ball, at: ofPoint(ball.at) })) } : {}),
      };
    case "group":
      return { ...shape, parts: shape.parts.map((part) => mapShape(part, ofPoint)) } as ShapeDocument;
    default:
      return placedAt(shape, ofPoint);
  }
}

function placedAt(shape: ShapeDocument, ofPoint: MapPoint): ShapeDocument {
  const at = ofPoint([0, 0, 0]);
  return Array.isArray(at) && at.every((value) => value === 0) ? shape : { ...shape, at };
}

/** The POINTs that mapShape turns. */
export function outerPoints(shape: ShapeDocument): PointDocument[] {
  const points: PointDocument[] = [];
  mapShape(shape, (point) => {
    points.push(point);
    return point;
  });
  return points;
}

/**
 * The shape's image in the car's centre plane, all its points fixed in space by `place`. null: there is none, since a
 * mesh file and the scene's own wheel cannot be written as their images.
 */
export function mirrorShape(shape: ShapeDocument, place: (point: PointDocument) => Vec3): ShapeDocument | null {
  const image = (point: PointDocument): Vec3 => mirror(place(point));
  const placed = {
    ...(shape.at === undefined ? {} : { at: image(shape.at) }),
    // a turn about Y stays, turns about X and Z change their sense
    ...(shape.turn_deg === undefined
      ? {}
      : { turn_deg: [-shape.turn_deg[0] + 0, shape.turn_deg[1], -shape.turn_deg[2] + 0] as const }),
  };
  switch (shape.kind) {
    case "mesh":
    case "wheel":
      return null;
    case "sphere":
    case "box":
    case "torus":
      return { ...shape, ...placed };
    case "cylinder":
    case "capsule":
    case "cone":
      return { ...shape, ...placed, from: image(shape.from), to: image(shape.to) };
    case "tube":
      return { ...shape, ...placed, path: shape.path.map(image) };
    case "prism": {
      // u and v change places, so that the plate still grows along u×v on the image's side
      const swapped = (outline: readonly (readonly [number, number])[]) => outline.map(([a, b]) => [b, a] as const);
      return {
        ...shape,
        ...placed,
        outline: swapped(shape.outline),
        ...(shape.holes ? { holes: shape.holes.map(swapped) } : {}),
        origin: image(shape.origin),
        u: mirror(shape.v),
        v: mirror(shape.u),
      };
    }
    case "hull":
      return {
        ...shape,
        ...placed,
        ...(shape.points ? { points: shape.points.map(image) } : {}),
        ...(shape.spheres ? { spheres: shape.spheres.map((ball) => ({ ...ball, at: image(ball.at) })) } : {}),
      };
    case "group": {
      const parts = shape.parts.map((part) => mirrorShape(part, place));
      return parts.includes(null) ? null : ({ ...shape, ...placed, parts } as ShapeDocument);
    }
  }
}
