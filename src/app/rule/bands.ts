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

interface Stretch {
  readonly from_mm: number;
  readonly to_mm: number;
  readonly pair: PairVerdict;
}

/**
 * Bands of one wheel's rule, travel ascending, none overlapping another: clashes as the check found them (any engine
 * pose), the tight rest read from each pair's profile in its worst pose. Pairs of parts that stand still whatever the
 * wheel does are not painted: no travel is to blame for them.
 */
export function bandsOfSide(pairs: readonly PairVerdict[], side: Side): Band[] {
  const moving = pairs.filter((pair) => pair.side === side && pair.verdict !== "accepted");
  const clash = merge(
    "clash",
    moving.flatMap((pair) => pair.clashTravel_mm.map(([from_mm, to_mm]) => ({ from_mm, to_mm, pair }))),
  );
  const tight = merge("tight", moving.flatMap(tightStretches)).flatMap((band) => without(band, clash));
  return [...clash, ...tight].sort((a, b) => a.from_mm - b.from_mm);
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

function merge(kind: BandKind, stretches: readonly Stretch[]): Band[] {
  const bands: { from_mm: number; to_mm: number; pair: PairVerdict }[] = [];
  for (const stretch of [...stretches].sort((a, b) => a.from_mm - b.from_mm)) {
    const last = bands.at(-1);
    if (!last || stretch.from_mm > last.to_mm) {
      bands.push({ ...stretch });
      continue;
    }
    last.to_mm = Math.max(last.to_mm, stretch.to_mm);
    if (stretch.pair.clearance_mm < last.pair.clearance_mm) last.pair = stretch.pair;
  }
  return bands.map(({ from_mm, to_mm, pair }) => ({ kind, from_mm, to_mm, worst: pairKey(pair) }));
}

/** What is left of a band outside the others, which do not overlap each other and ascend. */
function without(band: Band, others: readonly Band[]): Band[] {
  const rest: Band[] = [];
  let from_mm = band.from_mm;
  for (const other of others) {
    if (other.to_mm <= from_mm || other.from_mm >= band.to_mm) continue;
    if (other.from_mm > from_mm) rest.push({ ...band, from_mm, to_mm: other.from_mm });
    from_mm = Math.max(from_mm, other.to_mm);
  }
  if (from_mm < band.to_mm) rest.push({ ...band, from_mm });
  return rest;
}
