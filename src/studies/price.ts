import { limitName } from "../check/limits.ts";
import type { CheckResult, CurvePoint, Verdict } from "../check/result.ts";

/** The largest change of a reading either way, and the travel at which it is. */
export interface Change {
  readonly by: number;
  readonly travel_mm: number;
}

/** A pair whose clearance a move changes. */
export interface PairPrice {
  readonly side: string;
  readonly a: string;
  readonly b: string;
  readonly before_mm: number;
  readonly after_mm: number;
  readonly verdict: Verdict;
}

/** What a move costs, by two whole checks. */
export interface MovePrice {
  readonly toe_deg: Change;
  readonly camber_deg: Change;
  readonly halfTrack_mm: Change;
  readonly shaft_mm: Change | null;
  /** Pairs that are wanted farther apart than they are after the move. */
  readonly open: readonly PairPrice[];
  /** Pairs that come nearer by half a millimetre or more and are, after it, within twice what is wanted. */
  readonly nearer: readonly PairPrice[];
  /** Limits that are passed after the move. */
  readonly passed: readonly string[];
}

const NEARER_mm = 0.5;

export function priceOf(before: CheckResult, after: CheckResult): MovePrice {
  const [was, is] = [before, after].map(({ sides }) => (sides.left ?? sides.right)!.curve) as [
    readonly CurvePoint[],
    readonly CurvePoint[],
  ];
  const change = (of: (point: CurvePoint) => number | null): Change | null => {
    let most: Change | null = null;
    for (const point of is) {
      const old = was.find(({ travel_mm }) => travel_mm === point.travel_mm);
      const [from, to] = [old ? of(old) : null, of(point)];
      if (from === null || to === null) continue;
      if (!most || Math.abs(to - from) > Math.abs(most.by)) most = { by: to - from, travel_mm: point.travel_mm };
    }
    return most;
  };
  const nothing: Change = { by: 0, travel_mm: 0 };
  const old = new Map(before.pairs.map((pair) => [`${pair.side} ${pair.a} ${pair.b}`, pair.clearance_mm]));
  const priced = after.pairs.map((pair): PairPrice & { required_mm: number } => {
    const { side, a, b, clearance_mm, verdict, required_mm } = pair;
    const before_mm = old.get(`${side} ${a} ${b}`) ?? clearance_mm;
    return { side, a, b, before_mm, after_mm: clearance_mm, verdict, required_mm };
  });
  const bare = ({ required_mm: _required, ...price }: PairPrice & { required_mm: number }): PairPrice => price;
  return {
    toe_deg: change(({ toe_deg }) => toe_deg) ?? nothing,
    camber_deg: change(({ camber_deg }) => camber_deg) ?? nothing,
    halfTrack_mm: change(({ halfTrack_mm }) => halfTrack_mm) ?? nothing,
    shaft_mm: change(({ shaft_mm }) => shaft_mm),
    open: priced.filter(({ verdict }) => verdict === "clash" || verdict === "tight").map(bare),
    nearer: priced
      .filter(({ before_mm, after_mm, required_mm }) => after_mm < before_mm - NEARER_mm && after_mm < 2 * required_mm)
      .map(bare),
    passed: [
      ...new Set(
        after.limits.filter(({ verdict }) => verdict === "clash").map((limit) => `${limit.side} ${limitName(limit)}`),
      ),
    ],
  };
}
