import { changeThroughTravel, readingsAt } from "../../buildlog/readings.ts";
import { foldTwins } from "../../buildlog/twins.ts";
import type { CheckResult, CurvePoint, PairVerdict } from "../../check/result.ts";
import { distance, type Vec3 } from "../../maths/vec3.ts";
import { InputError } from "../../scene/error.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import { ledgerRows, tallies } from "../corner/ledgerRows.ts";
import { liveCurve } from "../store/corners.ts";
import { pairsByKey } from "../store/pairsByKey.ts";
import { pairKey } from "../store/state.ts";
import type { en } from "../text/en/index.ts";
import { t } from "../text/text.ts";

/** One pair before and after a tried move; both sides at once where they fare alike. */
export interface PairEffect {
  readonly key: string;
  readonly sides: PairVerdict["side"];
  readonly before: PairVerdict;
  readonly after: PairVerdict;
}

export interface WheelEffect {
  readonly reading: keyof (typeof en)["points"]["readings"];
  readonly kind: "angle" | "length";
  readonly before: number | null;
  readonly after: number | null;
}

export interface LengthEffect {
  readonly part: string;
  readonly before_mm: number;
  readonly after_mm: number;
}

/** Readings over travel, engine at rest. */
export type Curves = Readonly<Partial<Record<Side, readonly CurvePoint[]>>>;

const LEAST_mm = 0.005;
/** Sides that differ by less are shown with the same figures. */
const ALIKE_mm = 0.05;

/**
 * The pairs a move matters to: those that touch or are tight before or after it, and clear ones that are near and change.
 * What touches only after the move stands first, then all by the clearance they would have, the least first. A clear pair
 * whose clearance is yet to be made exact comes when it is.
 */
export function pairEffects(before: CheckResult, after: CheckResult): PairEffect[] {
  const was = pairsByKey(before);
  const effects = after.pairs.flatMap((pair): PairEffect[] => {
    if (pair.isAtLeast) return [];
    const old = was.get(pairKey(pair));
    if (!old) return [];
    const effect = { key: pairKey(pair), sides: pair.side, before: old, after: pair };
    // most pairs are far from each other: they are passed over first
    return open(effect) || isNear(effect) ? [effect] : [];
  });
  const change = (effect: PairEffect) => Math.abs(effect.after.clearance_mm - effect.before.clearance_mm);
  return withoutTwins(effects)
    .filter((effect) => open(effect) || change(effect) > LEAST_mm)
    .sort(
      (a, b) =>
        Number(isNewClash(b)) - Number(isNewClash(a)) ||
        a.after.clearance_mm - b.after.clearance_mm ||
        change(b) - change(a),
    );
}

function open({ before, after }: PairEffect): boolean {
  return isOpen(before.verdict) || isOpen(after.verdict);
}

export function isNewClash({ before, after }: PairEffect): boolean {
  return after.verdict === "clash" && before.verdict !== "clash";
}

/** What touches or is tight as the car is kept, the worst first: what stands there while the move is being checked. */
export function openPairs(before: CheckResult): PairEffect[] {
  const pairs = before.pairs.filter(({ verdict }) => isOpen(verdict));
  return withoutTwins(pairs.map((pair) => ({ key: pairKey(pair), sides: pair.side, before: pair, after: pair }))).sort(
    (a, b) => a.before.clearance_mm - b.before.clearance_mm,
  );
}

/** "leaves 3 clash, 2 tight", or a sentence of it: what the car would have in all with the move kept, counted as the ledger counts. */
export function leavesText(after: CheckResult, form: "within" | "whole" = "within"): string {
  const { clash, limit, tight } = tallies(ledgerRows(after));
  return limit > 0
    ? t(`points.effects.leaves.${form}Limit`, { clash, tight, limit })
    : t(`points.effects.leaves.${form}`, { clash, tight });
}

/** A pair that fares the same on both sides is told once. */
function withoutTwins(effects: readonly PairEffect[]): PairEffect[] {
  return foldTwins(effects, {
    name: ({ after }) => `${after.a}/${after.b}`,
    side: (effect) => effect.sides,
    alike: (one, other) =>
      Math.abs(one.after.clearance_mm - other.after.clearance_mm) < ALIKE_mm &&
      Math.abs(one.before.clearance_mm - other.before.clearance_mm) < ALIKE_mm,
  }).map(({ item, side }) => ({ ...item, sides: side }));
}

/** A clear pair within three times the room it wants; what is farther off is nobody's concern. */
function isNear({ before, after }: PairEffect): boolean {
  return Math.min(before.clearance_mm, after.clearance_mm) < 3 * Math.max(after.required_mm, 5);
}

function isOpen(verdict: PairVerdict["verdict"]): boolean {
  return verdict === "clash" || verdict === "tight";
}

/** What a move does to the wheel: how far each reading runs through the travel, and its angles at ride height where they change. */
export function wheelEffects(before: Curves, after: Curves): WheelEffect[] {
  const sides = (["left", "right"] as const).filter((side) => before[side] && after[side]);
  const [first] = sides;
  if (!first) return [];
  const [was, now] = [changesOf(before, first), changesOf(after, first)];
  const plunges = sides.map((side): WheelEffect => {
    const [old, fresh] = [changesOf(before, side).plunge_mm, changesOf(after, side).plunge_mm];
    return { reading: side === "left" ? "plungeLeft" : "plungeRight", kind: "length", before: old, after: fresh };
  });
  return [
    ...atRide(before, after, first),
    { reading: "toe", kind: "angle", before: was.toe_deg, after: now.toe_deg },
    { reading: "camber", kind: "angle", before: was.camber_deg, after: now.camber_deg },
    { reading: "halfTrack", kind: "length", before: was.halfTrack_mm, after: now.halfTrack_mm },
    ...unlessTwins(plunges).filter((effect) => effect.before !== null),
  ];
}

/** Bolting up steers the wheel at ride height too, which a change through travel does not tell. */
function atRide(before: Curves, after: Curves, side: Side): WheelEffect[] {
  const [old, fresh] = [before, after].map((curves) => readingsAt(curves[side]!, 0));
  if (!old || !fresh) return [];
  const angles: WheelEffect[] = [
    { reading: "toeAtRide", kind: "angle", before: old.toe_deg, after: fresh.toe_deg },
    { reading: "camberAtRide", kind: "angle", before: old.camber_deg, after: fresh.camber_deg },
  ];
  return angles.filter((angle) => Math.abs(angle.after! - angle.before!) > 0.005);
}

function changesOf(curves: Curves, side: Side) {
  return changeThroughTravel(curves[side] ?? []);
}

/** The wheels' curves of a scene, solved here and now; a scene whose corner does not go gives none. */
export function curvesOf(scene: Scene): Curves {
  try {
    return Object.fromEntries(scene.sides.map((side) => [side, liveCurve(scene, side)]));
  } catch (error) {
    if (error instanceof InputError) return {};
    throw error;
  }
}

function unlessTwins(plunges: readonly WheelEffect[]): WheelEffect[] {
  const [left, right] = plunges;
  if (!left || !right) return [...plunges];
  const same = [left.before! - right.before!, left.after! - right.after!].every((apart) => Math.abs(apart) < 0.05);
  return same ? [{ ...left, reading: "plunge" }] : [left, right];
}

/** Lengths, eye to eye, of the parts that a move cuts anew; empty when every part keeps its length. */
export function lengthEffects(before: Scene, after: Scene, nameOf: (id: string) => string): LengthEffect[] {
  const was = new Map(partLengths(before, nameOf));
  return partLengths(after, nameOf).flatMap(([part, after_mm]) => {
    const before_mm = was.get(part);
    return before_mm !== undefined && Math.abs(after_mm - before_mm) > LEAST_mm ? [{ part, before_mm, after_mm }] : [];
  });
}

function partLengths(scene: Scene, nameOf: (id: string) => string): [string, number][] {
  const lengths: [string, number][] = [];
  const add = (part: string, from: Vec3, to: Vec3) => lengths.push([part, distance(from, to)]);
  for (const member of scene.members) {
    const part = nameOf(member.id);
    if (member.kind === "link") add(part, member.inboard, member.outboard);
    if (member.kind === "strut") add(part, member.top, member.bottom);
    if (member.kind === "wishbone") {
      add(t("points.lengths.frontLeg", { part }), member.front, member.outboard);
      add(t("points.lengths.rearLeg", { part }), member.rear, member.outboard);
    }
    if (member.kind === "ball") add(t("points.lengths.pivot", { part }), member.at, scene.wheel.centre);
    if (member.kind === "hinge") {
      add(t("points.lengths.frontBush", { part }), member.front, scene.wheel.centre);
      add(t("points.lengths.rearBush", { part }), member.rear, scene.wheel.centre);
    }
  }
  if (scene.damper) add(t("points.lengths.damper"), scene.damper.top, scene.damper.bottom);
  if (scene.driveshaft) add(t("points.lengths.driveshaft"), scene.driveshaft.inner.left.at, scene.driveshaft.outer);
  return lengths;
}
