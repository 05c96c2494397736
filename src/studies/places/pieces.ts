import type { ModelBody } from "../../check/model.ts";
import type { Extent } from "../../clearance/bound.ts";
import type { SweepBody } from "../../clearance/types.ts";
import { buildSolid } from "../../geometry/buildSolid.ts";
import { contentKey } from "../../geometry/content.ts";
import type { ShapeContext } from "../../geometry/context.ts";
import { mirrorSolid } from "../../geometry/rearrange.ts";
import { writeLeastTurn } from "../../kinematics/rider.ts";
import { identityPose, type Pose, translationPose } from "../../maths/pose.ts";
import { add, distance, dot, length, mix, normalise, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { Shape, Side } from "../../scene/scene.ts";
import { endsOf, isBar, type Leaf, type LeafName, leafOf, wayOf, withEnds } from "./leaves.ts";
import { mostBendSteps } from "./tubeParts.ts";

/**
 * How a piece's design position follows the points. A number: a piece of a stretching bar, held at that share of the bar's length
 * and laid along it; such pieces slide in each other and are together the bar of any length.
 */
type Held = "shift" | number | "redraw";

/** One piece of a body as a search carries it. */
export interface Piece {
  readonly body: SweepBody;
  readonly mount: string;
  /** Whose mount carries it. */
  readonly side: Side;
  readonly isMirrored: boolean;
  /** Null: it is drawn in the same place wherever the points are. */
  readonly follow: Follow | null;
}

export interface Follow extends LeafName {
  /** Of the body's shape in shapesByName. */
  readonly name: string;
  readonly held: Held;
  readonly base: Shape;
  /** A box in car axes of its side that holds it in every place, where one is known of what is drawn anew. */
  readonly within: Extent | null;
  /** So that what is drawn anew keeps its triangles, which go on to bound it; undefined where there are no bends. */
  readonly leastBendSteps?: number | undefined;
}

/** What pieces are made of. */
export interface PieceMaker {
  readonly context: ShapeContext;
  /** The body's shape at the farthest places. */
  readonly extremes: readonly Shape[];
}

/** More pieces that slide in each other take longer than drawing the bar anew. */
const MOST_SLIDES = 6;
/** They overlap by so much of their length. */
const OVERLAP = 0.01;
/** Between the places looked at a bend may turn a little more, and reach farther by this share of what it takes up of a leg. */
const BEND_SPARE = 0.2;
/** Rounding, mm. */
const SAME_mm = 1e-9;

/** The body as it is, when it does not follow. */
export function wholePiece(body: ModelBody, side: Side): Piece {
  return { body, mount: body.mount, side, isMirrored: body.side === "right", follow: null };
}

/** The body's pieces: what stays in one, what goes the same way in one each, every other leaf by itself. */
export function splitBody(
  body: ModelBody,
  side: Side,
  name: string,
  leaves: readonly Leaf[],
  { context, extremes }: PieceMaker,
): Piece[] {
  const pieces: Piece[] = [];
  const add = (shape: Shape, follow: Follow | null) => {
    const isMirrored = body.side === "right";
    const left = pieceSolid(shape, contextOf(follow, context));
    const drawn = isMirrored ? mirroredPiece(left) : left;
    pieces.push({
      body: { key: `${body.key}~${pieces.length}`, ...drawn },
      mount: body.mount,
      side,
      isMirrored,
      follow,
    });
  };
  const staying = leaves.filter(({ follows }) => follows === "stay").map(({ shape }) => shape);
  if (staying.length > 0) add(groupOf(staying), null);
  const shifting = new Map<string, Leaf[]>();
  for (const each of leaves) {
    const { shape, leaf, part, follows } = each;
    if (follows === "stay") continue;
    const others = extremes.map((extreme) => leafOf(extreme, each, context.tessellation_mm)!);
    const follow = { name, leaf, part, base: shape, within: null };
    if (follows === "redraw") {
      const box = boxOfBends([shape, ...others], context.tessellation_mm);
      const leastBendSteps = mostBendSteps([shape, ...others], context.tessellation_mm);
      const within = box && body.side === "right" ? mirrorBox(box) : box;
      add(shape, { ...follow, held: "redraw", within, leastBendSteps });
    }
    if (follows === "shift") {
      const alike = others.map((other) => wayOf(shape, other).map((value) => value.toFixed(6))).join();
      shifting.set(alike, [...(shifting.get(alike) ?? []), each]);
    }
    if (follows === "stretch") {
      const slides = slidesOf(shape, others);
      if (!slides) add(shape, { ...follow, held: "redraw" });
      else for (const { held, drawn } of slides) add(drawn, { ...follow, held });
    }
  }
  for (const together of shifting.values()) {
    const [{ shape, leaf, part }] = together as [Leaf];
    add(groupOf(together.map((each) => each.shape)), { name, leaf, part, held: "shift", base: shape, within: null });
  }
  return pieces;
}

/** A solid as a search takes it, and its content. */
export type PieceSolid = Pick<SweepBody, "solid" | "content">;

/** What a piece is drawn with. */
export function contextOf(follow: Follow | null, context: ShapeContext): ShapeContext {
  const leastBendSteps = follow?.leastBendSteps;
  return leastBendSteps === undefined ? context : { ...context, leastBendSteps };
}

function pieceSolid(shape: Shape, context: ShapeContext): PieceSolid {
  return { solid: buildSolid(shape, context), content: contentKey(shape, context) };
}

/** The same on the other side of the car. */
export function mirroredPiece({ solid, content }: PieceSolid): PieceSolid {
  return { solid: mirrorSolid(solid), content: `mirror:${content}` };
}

/** Takes a piece from where it is drawn for the points as they are to where it would be drawn now (left design axes). */
export function writeFollow({ held, base }: Follow, now: Shape, out: Pose): void {
  if (held === "redraw") {
    out.set(identityPose());
    return;
  }
  if (held === "shift") {
    out.set(translationPose(wayOf(base, now)));
    return;
  }
  if (!isBar(base) || !isBar(now)) throw new Error("only a bar is held by its ends");
  const [from, to] = endsOf(base);
  const [fromNow, toNow] = endsOf(now);
  writeLeastTurn(
    out,
    normalise(subtract(to, from)),
    subtract(toNow, fromNow),
    mix(from, to, held),
    mix(fromNow, toNow, held),
  );
}

/**
 * A bar in the fewest pieces that slide in each other, so long that they meet at its greatest length and none stands out of it
 * at its least; one alone where its length stays; null where it becomes too short for `MOST_SLIDES`.
 */
function slidesOf(base: Shape, extremes: readonly Shape[]): { held: number; drawn: Shape }[] | null {
  if (!isBar(base)) return null;
  const [from, to] = endsOf(base);
  const along = normalise(subtract(to, from));
  const lines = [base, ...extremes].map((shape) => {
    if (!isBar(shape)) throw new Error("a bar stays one");
    const [a, b] = endsOf(shape);
    return subtract(b, a);
  });
  const lengths = lines.map(length);
  const longest = Math.max(...lengths);
  if (longest - Math.min(...lengths) < SAME_mm) return [{ held: 0, drawn: base }];
  // a way along a fixed direction is linear in the ways of the ends, and no longer than the bar
  const shortest = Math.min(...lines.map((line) => dot(line, along)));
  const count = Math.max(2, Math.ceil((longest * (1 + OVERLAP)) / shortest));
  if (!(shortest > 0 && count <= MOST_SLIDES)) return null;
  const each_mm = (longest / count) * (1 + OVERLAP);
  return Array.from({ length: count }, (_, i) => {
    const held = i / (count - 1);
    const begin = subtract(mix(from, to, held), scale(along, held * each_mm));
    return { held, drawn: withEnds(base, begin, add(begin, scale(along, each_mm))) };
  });
}

/** Of a bend, which lies between its corner and where it begins and ends. */
function boxOfBends(shapes: readonly Shape[], tessellation_mm: number): Extent | null {
  const box: Extent = Float64Array.of(Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity);
  for (const shape of shapes) {
    if (shape.kind !== "tube" || shape.path.length !== 3) return null;
    const [begin, corner, end] = shape.path as [Vec3, Vec3, Vec3];
    const around_mm = shape.diameter_mm / 2 + tessellation_mm + BEND_SPARE * distance(begin, corner);
    for (const point of [begin, corner, end]) {
      for (const k of [0, 1, 2] as const) {
        box[k] = Math.min(box[k]!, point[k] - around_mm);
        box[k + 3] = Math.max(box[k + 3]!, point[k] + around_mm);
      }
    }
  }
  return box;
}

function mirrorBox([x0, y0, z0, x1, y1, z1]: Extent): Extent {
  return Float64Array.of(x0!, -y1!, z0!, x1!, -y0!, z1!);
}

function groupOf(parts: readonly Shape[]): Shape {
  return parts.length === 1 ? parts[0]! : { kind: "group", at: null, turn_deg: null, parts };
}
