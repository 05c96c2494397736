import type { ModelBody } from "../../check/model.ts";
import type { SweepBody } from "../../clearance/types.ts";
import { buildSolid } from "../../geometry/buildSolid.ts";
import { contentKey } from "../../geometry/content.ts";
import type { ShapeContext } from "../../geometry/context.ts";
import { mirrorSolid } from "../../geometry/rearrange.ts";
import type { Solid } from "../../geometry/solid.ts";
import { writeLeastTurn } from "../../kinematics/rider.ts";
import { identityPose, type Pose, translationPose } from "../../maths/pose.ts";
import { add, dot, length, normalise, scale, subtract } from "../../maths/vec3.ts";
import type { Shape, Side } from "../../scene/scene.ts";
import { endsOf, isBar, type Leaf, wayOf, withEnds } from "./leaves.ts";

/**
 * How a piece's design position follows the points. `from` and `to`: half of a stretching bar, held at that end and laid along it;
 * the two slide in each other and are together the bar of any length.
 */
type Held = "shift" | "from" | "to" | "redraw";

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

export interface Follow {
  /** Of the body's shape in shapesByName. */
  readonly name: string;
  /** Which of its leaves; −1: the whole shape. */
  readonly leaf: number;
  readonly held: Held;
  readonly base: Shape;
}

/** What pieces are made of. */
export interface PieceMaker {
  readonly context: ShapeContext;
  /** The body's leaves at the farthest places. */
  readonly extremes: readonly (readonly Shape[])[];
}

/** The halves of a bar overlap by so much of its greatest length. */
const OVERLAP = 0.01;
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
    const drawn = pieceSolid(shape, isMirrored, context);
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
  const shifting = new Map<string, number[]>();
  leaves.forEach(({ shape, index: leaf, follows }) => {
    const follow = { name, leaf, base: shape };
    if (follows === "redraw") add(shape, { ...follow, held: "redraw" });
    if (follows === "shift") {
      const ways = extremes.map((shapes) => wayOf(shape, shapes[leaf]!).map((value) => value.toFixed(6)));
      const alike = ways.join(" ");
      shifting.set(alike, [...(shifting.get(alike) ?? []), leaf]);
    }
    if (follows === "stretch") {
      const halves = halvesOf(
        shape,
        extremes.map((shapes) => shapes[leaf]!),
      );
      if (!halves) add(shape, { ...follow, held: "redraw" });
      else for (const { held, drawn } of halves) add(drawn, { ...follow, held });
    }
  });
  for (const together of shifting.values()) {
    const [first] = together as [number];
    add(groupOf(together.map((leaf) => leaves[leaf]!.shape)), {
      name,
      leaf: first,
      held: "shift",
      base: leaves[first]!.shape,
    });
  }
  return pieces;
}

/** A solid as a search takes it, and its content. */
export function pieceSolid(
  shape: Shape,
  isMirrored: boolean,
  context: ShapeContext,
): { readonly solid: Solid; readonly content: string } {
  const solid = buildSolid(shape, context);
  const content = contentKey(shape, context);
  return isMirrored ? { solid: mirrorSolid(solid), content: `mirror:${content}` } : { solid, content };
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
  const end = held === "from" ? from : to;
  const endNow = held === "from" ? fromNow : toNow;
  writeLeastTurn(out, normalise(subtract(to, from)), subtract(toNow, fromNow), end, endNow);
}

/**
 * A bar in two that slide in each other, both so long that they meet at its greatest length and neither stands out of it at its
 * least; one alone where its length stays; null where no such length is.
 */
function halvesOf(base: Shape, extremes: readonly Shape[]): { held: "from" | "to"; drawn: Shape }[] | null {
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
  if (longest - Math.min(...lengths) < SAME_mm) return [{ held: "from", drawn: base }];
  // a way along a fixed direction is linear in the ways of the ends, and no longer than the bar
  const shortest = Math.min(...lines.map((line) => dot(line, along)));
  const reach = (longest / 2) * (1 + OVERLAP);
  if (reach > shortest) return null;
  return [
    { held: "from", drawn: withEnds(base, from, add(from, scale(along, reach))) },
    { held: "to", drawn: withEnds(base, subtract(to, scale(along, reach)), to) },
  ];
}

function groupOf(parts: readonly Shape[]): Shape {
  return parts.length === 1 ? parts[0]! : { kind: "group", at: null, turn_deg: null, parts };
}
