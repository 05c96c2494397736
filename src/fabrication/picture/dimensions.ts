import type { PreparedCheck } from "../../check/check.ts";
import { bodyKeyOf, type MeasuredState, readMeasure, spotNow } from "../../check/measures.ts";
import type { Verdict } from "../../check/result.ts";
import { GapMeter } from "../../clearance/gap.ts";
import type { TreeShelf } from "../../clearance/sweepShelf.ts";
import { applyPose } from "../../maths/pose.ts";
import { add, distance, dot, subtract, type Vec3 } from "../../maths/vec3.ts";
import { InputError } from "../../scene/error.ts";
import { formatLength } from "../../scene/length.ts";
import type { Measure, Spot } from "../../scene/measures.ts";
import type { Datum, Side } from "../../scene/scene.ts";
import { gapOf, type StandingGap } from "./near.ts";
import { axesOf, type ViewName, type Way, wayIn } from "./view.ts";
import { filled, type PictureWords } from "./words.ts";

/** An end of a length: a hard point, a place of a part, or a place of the car. */
export type DimensionEnd = Spot | { readonly place: Vec3 };

/** A length to be drawn: as the crow flies, or forward, out or up alone. */
export interface LengthAsked {
  readonly from: DimensionEnd;
  readonly to: DimensionEnd;
  readonly along: "straight" | Way;
}

/** The gap of two parts of one side, by their ids. */
export interface GapAsked {
  readonly a: string;
  readonly b: string;
  readonly side?: Side;
}

export interface DimensionsAsked {
  readonly lengths: readonly LengthAsked[];
  readonly gaps: readonly GapAsked[];
  /** Of what is nearer than it must be: all of it, the worst, or nothing beside what is asked. */
  readonly nearGaps: "all" | "worst" | "none";
  /** Pinned measures by id. */
  readonly measures: readonly string[];
}

export type DrawnDimension =
  | {
      readonly kind: "length";
      readonly from: Vec3;
      readonly to: Vec3;
      readonly lies: "straight" | "across" | "upright";
      readonly text: string;
    }
  | { readonly kind: "angle"; readonly from: Vec3; readonly at: Vec3; readonly to: Vec3; readonly text: string }
  | {
      readonly kind: "gap";
      readonly from: Vec3;
      readonly to: Vec3;
      readonly verdict: Verdict;
      readonly title: string;
      readonly text: string;
      readonly clearance_mm: number;
    };

/** Where all stands of which dimensions are taken. */
export interface DimensionState extends MeasuredState {
  readonly prepared: PreparedCheck;
  readonly trees: TreeShelf;
  readonly datum: Datum | null;
  /** Keys of the bodies that are drawn. */
  readonly drawn: ReadonlySet<string>;
  /** What is nearer than it wants among them, the worst first. */
  readonly near: readonly StandingGap[];
}

/** A length differs from what is seen of it only if it shows, mm. */
const SHOWS_mm = 0.05;
/** Of the line that an angle without a place of its own is written on, mm. */
const STROKE_mm = 60;
/** More callouts than this and nothing is told by any. */
const MOST_NEAR = 12;

/** What is asked, where it lies and what is written to it. Throws InputError for what the scene or the view does not have. */
export function dimensionsOf(
  asked: DimensionsAsked,
  measures: readonly Measure[],
  state: DimensionState,
  view: ViewName,
  words: PictureWords,
): DrawnDimension[] {
  const lengths = asked.lengths.map((one, i) => lengthOf(one, state, view, words, `dimensions[${i}]`));
  const pinned = asked.measures.flatMap((id) => {
    const measure = measures.find((each) => each.id === id);
    if (!measure)
      throw missing(
        "measures",
        `no measure is pinned as "${id}"`,
        measures.map((each) => each.id),
      );
    return measureOf(measure, state, view, words);
  });
  const gaps = asked.gaps.flatMap((one, i) => gapsAsked(one, state, `gaps[${i}]`).map((gap) => gapOfPair(gap, words)));
  const most = { all: MOST_NEAR, worst: 1, none: 0 }[asked.nearGaps];
  const near = state.near.slice(0, most).map((gap) => gapOfPair(gap, words));
  return [...lengths, ...pinned, ...once([...gaps, ...near])];
}

/** The halves of a spring are one part to the builder: what says the same of the same is said once. */
function once(gaps: readonly DrawnDimension[]): DrawnDimension[] {
  const told = new Set<string>();
  return gaps.filter((gap) => {
    const name = gap.kind === "gap" ? `${gap.title}|${gap.from[1] >= 0}` : "";
    return !told.has(name) && told.add(name);
  });
}

function lengthOf(
  { from, to, along }: LengthAsked,
  state: DimensionState,
  view: ViewName,
  words: PictureWords,
  path: string,
): DrawnDimension {
  const [a, b] = [endNow(from, state, `${path}.from`), endNow(to, state, `${path}.to`)];
  if (along === "straight")
    return { kind: "length", from: a, to: b, lies: "straight", text: straightText(a, b, view, words) };
  const lies = wayIn(view, along);
  if (lies === null)
    throw new InputError(
      "wrong-value",
      { path },
      `${along} does not lie in the plane of the ${view} view`,
      `${(["forward", "out", "up"] as const).filter((way) => wayIn(view, way) !== null).join(" or ") || "straight"}, or another view`,
    );
  const axis = { forward: 0, out: 1, up: 2 }[along];
  return { kind: "length", from: a, to: b, lies, text: formatLength(Math.abs(b[axis]! - a[axis]!), words.unit) };
}

function endNow(end: DimensionEnd, state: DimensionState, path: string): Vec3 {
  if ("place" in end) return end.place;
  const at = spotNow(end, state);
  if (at) return at;
  const name = "point" in end ? end.point : bodyKeyOf(end);
  throw missing(path, `there is no "${name}"`, [...state.scene.points.keys()]);
}

/** The true length, and that it is one where the picture shows less of it. */
function straightText(a: Vec3, b: Vec3, view: ViewName, words: PictureWords): string {
  const { right, up } = axesOf(view);
  const way = subtract(b, a);
  const length = distance(a, b);
  const text = formatLength(length, words.unit);
  return length - Math.hypot(dot(way, right), dot(way, up)) > SHOWS_mm
    ? filled(words.trueLength, { length: text })
    : text;
}

function measureOf(measure: Measure, state: DimensionState, view: ViewName, words: PictureWords): DrawnDimension[] {
  const reading = readMeasure(measure, state, state.datum);
  switch (reading?.kind) {
    case undefined:
      return [];
    case "distance": {
      const { from, to } = reading;
      return [{ kind: "length", from, to, lies: "straight", text: straightText(from, to, view, words) }];
    }
    case "angle": {
      const { from, at, to, angle_deg } = reading;
      return angle_deg === null ? [] : [{ kind: "angle", from, at, to, text: angleText(angle_deg) }];
    }
    case "lines": {
      const { a, b, angle_deg } = reading;
      // lines that meet where they are held have no length between them to write the angle on
      const to = distance(a, b) > 0 ? b : add(a, [STROKE_mm, 0, 0]);
      return [{ kind: "length", from: a, to, lies: "straight", text: angleText(angle_deg) }];
    }
    case "gap": {
      const [a, b] = reading.keys.map((key) => state.prepared.bodies.find((body) => body.key === key));
      const [poseA, poseB] = reading.keys.map((key) => state.poses.get(key));
      if (!a || !b || !poseA || !poseB) return [];
      const { clearance_mm, pointA, pointB } = new GapMeter(state.trees).measure(a, poseA, b, poseB);
      if (!Number.isFinite(clearance_mm)) return [];
      return [
        {
          kind: "gap",
          from: applyPose(poseA, pointA),
          to: applyPose(poseB, pointB),
          verdict: clearance_mm < 0 ? "clash" : "clear",
          title: titleOf(a.id, b.id, words),
          text: formatLength(clearance_mm, words.unit),
          clearance_mm,
        },
      ];
    }
  }
}

function gapsAsked({ a, b, side }: GapAsked, state: DimensionState, path: string): StandingGap[] {
  const { prepared, poses, trees } = state;
  const pairs = prepared.pairs.filter(({ first, second, side: ofPair }) => {
    const isPair = (first.id === a && second.id === b) || (first.id === b && second.id === a);
    return isPair && (side === undefined || ofPair === "both" || ofPair === side);
  });
  if (pairs.length === 0) {
    const ids = [...new Set(prepared.bodies.map(({ id }) => id))];
    const strange = [a, b].find((id) => !ids.includes(id));
    if (strange !== undefined) throw missing(path, `no part is called "${strange}"`, ids);
    throw new InputError(
      "wrong-value",
      { path },
      `"${a}" and "${b}" are not checked against each other: they never move apart`,
      "two parts of which one moves",
    );
  }
  const drawn = pairs.filter(({ first, second }) => state.drawn.has(first.key) && state.drawn.has(second.key));
  const found = (drawn.length > 0 ? drawn : pairs).flatMap((pair) => gapOf(prepared, pair, poses, trees) ?? []);
  // of several bodies of one id the nearest, on each side
  const best = new Map<string, StandingGap>();
  for (const gap of found) {
    const last = best.get(gap.planned.side);
    if (!last || gap.clearance_mm < last.clearance_mm) best.set(gap.planned.side, gap);
  }
  return [...best.values()];
}

function gapOfPair({ planned, clearance_mm, verdict, from, to }: StandingGap, words: PictureWords): DrawnDimension {
  const { first, second, required_mm } = planned;
  const title = titleOf(first.id, second.id, words);
  const text = filled(clearance_mm < 0 ? words.overlap : words.apart, {
    gap: formatLength(Math.abs(clearance_mm), words.unit),
    wanted: formatLength(required_mm, words.unit),
  });
  return { kind: "gap", from, to, verdict, title, text, clearance_mm };
}

function titleOf(a: string, b: string, { parts }: PictureWords): string {
  return `${parts[a] ?? a} / ${parts[b] ?? b}`;
}

function angleText(angle_deg: number): string {
  return `${angle_deg.toFixed(1)}°`;
}

function missing(path: string, wrong: string, known: readonly string[]): InputError {
  return new InputError(
    "missing-id",
    { path },
    wrong,
    known.length > 0 ? `one of ${known.join(", ")}` : "a scene with some",
  );
}
