import { applyPose, rotationPose, turnByPose } from "../../maths/pose.ts";
import {
  add,
  cross,
  distance,
  dot,
  length,
  normalise,
  scale,
  squareTo,
  subtract,
  type Vec3,
} from "../../maths/vec3.ts";
import { InputError } from "../../scene/error.ts";
import type { TubeShape } from "../../scene/scene.ts";
import { keyPath, type ShapeBuilder, type ShapeContext, shapeError } from "../context.ts";
import { cloudOf, MeshBuilder } from "../meshBuilder.ts";
import { cornerRadius, sidesForSag } from "../roundness.ts";

/** Corners sharper than this fold back on themselves. */
const SHARPEST_TURN_rad = (165 / 180) * Math.PI;

/** A corner of the path: where the centre line turns by `turn_rad` about `axis`. */
interface Corner {
  readonly at: Vec3;
  readonly place: number;
  readonly into: Vec3;
  readonly axis: Vec3;
  readonly turn_rad: number;
  /** Length of each leg that the bend (or the inside of the mitre) takes up. */
  readonly takes_mm: number;
}

/** A section of the tube: how far along two directions square to the path its corners stand. */
interface Section {
  readonly x: Vec3;
  readonly y: Vec3;
  readonly corners: readonly (readonly [number, number])[];
}

/**
 * A tube along the path with flat ends; corners are arcs of the centre-line radius `bend_mm`, or mitred. The outside
 * alone is drawn: solid, whatever the wall. Each leg and each step of a bend is a convex piece.
 */
export const tube: ShapeBuilder<"tube"> = (shape, context) => {
  const { path } = shape;
  for (let i = 1; i < path.length; i++) {
    if (distance(path[i - 1]!, path[i]!) === 0) {
      const place = { path: keyPath(context, `path[${i}]`) };
      throw new InputError("zero-length", place, "two points that follow each other are the same", "different points");
    }
  }
  if (path.length < 2) throw shapeError(context, "path", "it has no length", "two points or more");
  const corners = pathCorners(shape, context);
  checkLegs(shape, corners, context);
  const rings = tubeRings(shape, corners, context);
  const mesh = new MeshBuilder();
  const vertices = rings.map((ring) => mesh.ring(ring));
  for (let i = 1; i < vertices.length; i++) mesh.band(vertices[i - 1]!, vertices[i]!);
  mesh.cap([...vertices[0]!].reverse());
  mesh.cap(vertices.at(-1)!);
  return mesh.solid(rings.slice(1).map((ring, i) => cloudOf(rings[i]!, ring)));
};

function pathCorners(shape: TubeShape, context: ShapeContext): Corner[] {
  const { path } = shape;
  const corners: Corner[] = [];
  for (let i = 1; i < path.length - 1; i++) {
    const into = normalise(subtract(path[i]!, path[i - 1]!));
    const out = normalise(subtract(path[i + 1]!, path[i]!));
    const across = cross(into, out);
    const turn_rad = Math.atan2(length(across), dot(into, out));
    if (turn_rad < 1e-6) continue;
    if (turn_rad > SHARPEST_TURN_rad) {
      throw shapeError(
        context,
        `path[${i}]`,
        `the tube turns by ${degrees(turn_rad)}° there`,
        "a turn of at most 165°",
      );
    }
    const takes_mm = bendTakes_mm(shape, turn_rad);
    corners.push({ at: path[i]!, place: i, into, axis: normalise(across), turn_rad, takes_mm });
  }
  return corners;
}

/** What a corner takes up of either leg: a bend of centre-line radius B through an angle t takes B·tan(t/2), a mitre as if bent about the tube's own inside. */
export function bendTakes_mm({ bend_mm, diameter_mm }: TubeShape, turn_rad: number): number {
  return (bend_mm ?? diameter_mm / 2) * Math.tan(turn_rad / 2);
}

/** By how much a path turns at one of its inner points, radians. */
export function turnAt_rad(path: TubeShape["path"], at: number): number {
  const into = subtract(path[at]!, path[at - 1]!);
  const out = subtract(path[at + 1]!, path[at]!);
  return Math.atan2(length(cross(into, out)), dot(into, out));
}

/** In how many steps a bend of a tube through so much is drawn: the fewest of which none stands farther out than bendSag_mm. */
export function bendSteps(
  { bend_mm, diameter_mm }: Pick<TubeShape, "bend_mm" | "diameter_mm">,
  turn_rad: number,
  { tessellation_mm }: Pick<ShapeContext, "tessellation_mm">,
): number {
  if (bend_mm === null) return 1;
  const stepsPerTurn = sidesForSag(bend_mm + diameter_mm / 2, bendSag_mm(tessellation_mm));
  return Math.max(1, Math.ceil((turn_rad / (2 * Math.PI)) * stepsPerTurn - 1e-9));
}

function checkLegs({ path, bend_mm, diameter_mm }: TubeShape, corners: readonly Corner[], context: ShapeContext): void {
  if (bend_mm !== null && corners.length > 0 && bend_mm <= diameter_mm / 2 + context.tessellation_mm) {
    throw shapeError(
      context,
      "bend_mm",
      `a bend of ${bend_mm} mm is too tight for a tube of ${diameter_mm} mm`,
      `a centre-line radius above half of the diameter and tessellation_mm, which is ${context.tessellation_mm}, together`,
    );
  }
  const stops = [{ at: path[0]!, takes_mm: 0 }, ...corners, { at: path.at(-1)!, takes_mm: 0 }];
  for (const [i, corner] of corners.entries()) {
    for (const [here, there] of [
      [i + 1, i],
      [i + 1, i + 2],
    ] as const) {
      const leg_mm = distance(stops[here]!.at, stops[there]!.at);
      const taken_mm = stops[here]!.takes_mm + stops[there]!.takes_mm;
      if (taken_mm <= leg_mm * (1 + 1e-9)) continue;
      const what = bend_mm === null ? "mitre" : `bend of ${bend_mm} mm`;
      throw shapeError(
        context,
        `path[${corner.place}]`,
        `the ${what} at this corner (${degrees(corner.turn_rad)}°) does not fit: the leg is ${rounded(leg_mm)} mm long and ${rounded(taken_mm)} mm are taken up`,
        bend_mm === null ? "longer legs or a smaller turn" : "longer legs or a smaller bend_mm",
      );
    }
  }
}

/** Rings of corners along the tube, counter-clockwise about the way it runs. */
function tubeRings(
  { path, bend_mm, diameter_mm }: TubeShape,
  corners: readonly Corner[],
  context: ShapeContext,
): Vec3[][] {
  const { radius_mm, sag_mm } = boundShares(diameter_mm / 2, bend_mm, corners, context.tessellation_mm);
  const sides = sidesForSag(radius_mm, sag_mm);
  const corner_mm = cornerRadius(radius_mm, sides);
  const round = Array.from({ length: sides }, (_, i): readonly [number, number] => {
    const angle = (2 * Math.PI * i) / sides;
    return [corner_mm * Math.cos(angle), corner_mm * Math.sin(angle)];
  });

  const along = normalise(subtract(path[1]!, path[0]!));
  const { leastBendSteps } = context;
  // the axis of a bend is square to its legs, and turns with them without a jump
  const x = (leastBendSteps && corners[0]?.axis) || squareTo(along);
  let section: Section = { x, y: cross(along, x), corners: round };
  const rings: Vec3[][] = [ringAt(path[0]!, section)];
  for (const corner of corners) {
    if (bend_mm === null) rings.push(mitreRing(corner, section));
    else {
      const steps = Math.max(leastBendSteps ?? 1, bendSteps({ bend_mm, diameter_mm }, corner.turn_rad, context));
      rings.push(...bendRings(corner, section, bend_mm, steps));
    }
    section = turnSection(section, corner);
  }
  rings.push(ringAt(path.at(-1)!, section));
  return withoutDoubles(rings);
}

/**
 * How the bound is shared out. Between two steps of a bend (half step h, centre-line radius B) a flat face on the outer
 * side comes inward by (B + r)(1 − cos h): drawn around a section r + d with d = (B + r)(1/cos h − 1) it stays outside,
 * as (B + r + d)·cos h = B + r. On the inner side d and the step add up, hence twice. A mitre stretches what
 * stands out at a corner by 1/cos(turn/2).
 */
function boundShares(radius_mm: number, bend_mm: number | null, corners: readonly Corner[], tessellation_mm: number) {
  if (corners.length > 0 && bend_mm !== null) {
    return { radius_mm: radius_mm + bendSag_mm(tessellation_mm), sag_mm: 0.4 * tessellation_mm };
  }
  const sharpest_rad = Math.max(0, ...corners.map((corner) => corner.turn_rad));
  return { radius_mm, sag_mm: tessellation_mm * Math.cos(sharpest_rad / 2) };
}

/** So far outside its true round a tube with bends is drawn. */
export function bendSag_mm(tessellation_mm: number): number {
  return 0.3 * tessellation_mm;
}

function ringAt(centre: Vec3, { x, y, corners }: Section): Vec3[] {
  const [cx, cy, cz] = centre;
  const [xx, xy, xz] = x;
  const [yx, yy, yz] = y;
  return corners.map(([a, b]): Vec3 => [cx + (xx * a + yx * b), cy + (xy * a + yy * b), cz + (xz * a + yz * b)]);
}

function turnSection(section: Section, corner: Corner): Section {
  const turn = rotationPose(corner.axis, corner.turn_rad);
  return { ...section, x: turnByPose(turn, section.x), y: turnByPose(turn, section.y) };
}

/** The section run along its leg up to the plane that halves the corner. */
function mitreRing(corner: Corner, section: Section): Vec3[] {
  const halving = turnByPose(rotationPose(corner.axis, corner.turn_rad / 2), corner.into);
  return ringAt(corner.at, section).map((p) => {
    const run = -dot(subtract(p, corner.at), halving) / dot(corner.into, halving);
    return add(p, scale(corner.into, run));
  });
}

/** Rings through a bend, the first where it begins and the last where it ends. */
function bendRings(corner: Corner, section: Section, bend_mm: number, steps: number): Vec3[][] {
  const begin = subtract(corner.at, scale(corner.into, corner.takes_mm));
  const centre = add(begin, scale(cross(corner.axis, corner.into), bend_mm));
  const first = ringAt(begin, section);
  return Array.from({ length: steps + 1 }, (_, k) => {
    const turn = rotationPose(corner.axis, (corner.turn_rad * k) / steps, centre);
    return first.map((p) => applyPose(turn, p));
  });
}

/** Where bends follow each other without a straight between them, one ends and the next begins in the same place. */
function withoutDoubles(rings: readonly Vec3[][]): Vec3[][] {
  return rings.filter((ring, i) => i === 0 || distance(middle(ring), middle(rings[i - 1]!)) > 1e-6);
}

function middle(ring: readonly Vec3[]): Vec3 {
  let [x, y, z] = [0, 0, 0];
  for (const [px, py, pz] of ring) {
    x += px;
    y += py;
    z += pz;
  }
  return scale([x, y, z], 1 / ring.length);
}

function degrees(rad: number): string {
  return ((rad * 180) / Math.PI).toFixed(1);
}

function rounded(mm: number): string {
  return mm.toFixed(1);
}
