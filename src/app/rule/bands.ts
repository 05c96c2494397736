import type { PairVerdict } from "../../check/result.ts";
import type { Side } from "../../scene/scene.ts";
import { type Reading, runsBelow } from "../curves/linePath.ts";
import { pairKey } from "../store/state.ts";

export type BandKind = "clash" | "tight";

/** A stretch of a wheel's travel in which something touches or is too near, and the pair that is worst in it. */
export interface Band {
  readonly kind: BandKind;
  readonly from_mm: number;
  readonly to_mm: number;
  /** pairKey() of the worst pair. */
  readonly worst: string;
}

interface Range {
  readonly from_mm: number;
  readonly to_mm: number;
}

interface Stretch extends Range {
  readonly pair: PairVerdict;
}

/**
 * Bands of one wheel's rule, travel ascending, none overlapping another: clashes as the check found them (any engine
 * pose), the tight rest read from each pair's profile in its worst pose. Pairs of parts that stand still whatever the
 * wheel does are not painted: no travel is to blame for them.
 */
export function bandsOfSide(pairs: readonly PairVerdict[], side: Side): Band[] {
  const moving = pairs.filter((pair) => pair.side === side && pair.verdict !== "accepted");
  const touching = moving.flatMap((pair) =>
    pair.clashTravel_mm.map(([from_mm, to_mm]): Stretch => ({ from_mm, to_mm, pair })),
  );
  const near = moving.flatMap(tightStretches);
  const clash = merge(touching);
  const tight = merge(near).flatMap((range) => without(range, clash));
  const bands = [
    ...clash.map((range): Band => ({ kind: "clash", ...range, worst: worstIn(range, touching) })),
    ...tight.map((range): Band => ({ kind: "tight", ...range, worst: worstIn(range, near) })),
  ];
  return bands.sort((a, b) => a.from_mm - b.from_mm);
}

/** What parts that no wheel moves, engine against frame, do to each other in one engine pose, and the worst of them. */
export interface StillTouch {
  readonly kind: BandKind;
  /** pairKey() of the worst pair. */
  readonly worst: string;
}

/** null: all of them are clear in this pose, whatever the travel. */
export function stillTouch(pairs: readonly PairVerdict[], pose: string): StillTouch | null {
  const gapOf = (pair: PairVerdict): number => pair.byPose[pose] ?? pair.clearance_mm;
  const near = pairs.filter(
    (pair) => pair.side === "both" && pair.verdict !== "accepted" && gapOf(pair) < pair.required_mm,
  );
  const touching = near.filter((pair) => gapOf(pair) < 0);
  const among = touching.length > 0 ? touching : near;
  if (among.length === 0) return null;
  const worst = among.reduce((a, b) => (gapOf(b) < gapOf(a) ? b : a));
  return { kind: touching.length > 0 ? "clash" : "tight", worst: pairKey(worst) };
}

export function bandAt(bands: readonly Band[], travel_mm: number): Band | undefined {
  const here = bands.filter((band) => travel_mm >= band.from_mm - 1e-6 && travel_mm <= band.to_mm + 1e-6);
  return here.find((band) => band.kind === "clash") ?? here[0];
}

/** The travel in which one pair touches; where it never does, in which it is tight; [from, to] over all of it, null: clear. */
export function stretchOf(pair: PairVerdict): readonly [number, number] | null {
  const touches = pair.clashTravel_mm;
  if (touches.length > 0) return [touches[0]![0], touches.at(-1)![1]];
  const tight = tightStretches(pair);
  return tight.length > 0 ? [tight[0]!.from_mm, tight.at(-1)!.to_mm] : null;
}

export function readingsOf(pair: PairVerdict): Reading[] {
  return pair.profile.map(([travel_mm, value]) => ({ travel_mm, value }));
}

function tightStretches(pair: PairVerdict): Stretch[] {
  if (pair.verdict === "clear") return [];
  return runsBelow(readingsOf(pair), pair.required_mm).map((run) => ({
    from_mm: run[0]!.travel_mm,
    to_mm: run.at(-1)!.travel_mm,
    pair,
  }));
}

function merge(stretches: readonly Range[]): Range[] {
  const merged: { from_mm: number; to_mm: number }[] = [];
  for (const { from_mm, to_mm } of [...stretches].sort((a, b) => a.from_mm - b.from_mm)) {
    const last = merged.at(-1);
    if (last && from_mm <= last.to_mm) last.to_mm = Math.max(last.to_mm, to_mm);
    else merged.push({ from_mm, to_mm });
  }
  return merged;
}

/** What is left of a range outside the others, which do not overlap each other and ascend. */
function without(range: Range, others: readonly Range[]): Range[] {
  const rest: Range[] = [];
  let from_mm = range.from_mm;
  for (const other of others) {
    if (other.to_mm <= from_mm || other.from_mm >= range.to_mm) continue;
    if (other.from_mm > from_mm) rest.push({ from_mm, to_mm: other.from_mm });
    from_mm = Math.max(from_mm, other.to_mm);
  }
  if (from_mm < range.to_mm) rest.push({ from_mm, to_mm: range.to_mm });
  return rest;
}

/** The pair to look at in a band: the worst of those whose worst lies in it, or else of all that reach into it. */
function worstIn(range: Range, stretches: readonly Stretch[]): string {
  const reaching = stretches.filter(({ from_mm, to_mm }) => from_mm <= range.to_mm && to_mm >= range.from_mm);
  const pairs = reaching.map(({ pair }) => pair);
  const here = pairs.filter(({ at }) => at.travel_mm >= range.from_mm && at.travel_mm <= range.to_mm);
  const worst = (here.length > 0 ? here : pairs).reduce((a, b) => (b.clearance_mm < a.clearance_mm ? b : a));
  return pairKey(worst);
}
