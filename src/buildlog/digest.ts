import type { LimitVerdict, PairVerdict, StateAt, Verdict } from "../check/result.ts";
import { limitKey, pairKey } from "./decision.ts";
import type { Card } from "./entry.ts";

/** What lists tell of a card, so that they need not hold its pictures and its scene. */
export interface CardDigest {
  readonly id: string;
  readonly number: number;
  readonly title: string;
  readonly revision: string;
  readonly made: string;
  readonly sceneTitle: string;
  readonly check: string;
  /** Pictures and photos in it. */
  readonly views: number;
  readonly photos: number;
  /** What clashes, is tight, is accepted by the scene, or is past a limit; worst first, limits after pairs. */
  readonly findings: readonly Finding[];
  /** Keys of all that was checked and has the room it wants, a line each: one text is read a hundred times faster than a list. */
  readonly clear: string;
}

export interface Finding {
  readonly key: string;
  readonly side: PairVerdict["side"];
  readonly of: FoundPair | FoundLimit;
  readonly verdict: Exclude<Verdict, "clear">;
  readonly at: StateAt;
  /** Why the scene accepts it. */
  readonly why?: string;
}

export interface FoundPair {
  readonly kind: "pair";
  readonly a: string;
  readonly b: string;
  readonly clearance_mm: number;
  readonly required_mm: number;
}

export interface FoundLimit {
  readonly kind: "limit";
  readonly what: LimitVerdict["what"];
  readonly joint?: string;
  /** mm or degrees, as the limit is. */
  readonly value: number;
  readonly limit: number;
}

export function digestOf(card: Card): CardDigest {
  const isClear = ({ verdict }: { verdict: Verdict }) => verdict === "clear";
  return {
    id: card.id,
    number: card.number,
    title: card.title,
    revision: card.revision,
    made: card.made,
    sceneTitle: card.sceneTitle,
    check: card.check,
    views: card.views.length + (card.picture ? 1 : 0),
    photos: card.photos.length,
    findings: [
      ...card.pairs.filter((pair) => !isClear(pair)).map(foundPair),
      ...card.limits.filter((limit) => !isClear(limit)).map(foundLimit),
    ],
    clear: [...card.pairs.filter(isClear).map(pairKey), ...card.limits.filter(isClear).map(limitKey)].join("\n"),
  };
}

function foundPair(pair: PairVerdict): Finding {
  const { a, b, clearance_mm, required_mm } = pair;
  return {
    key: pairKey(pair),
    side: pair.side,
    of: { kind: "pair", a, b, clearance_mm, required_mm },
    verdict: pair.verdict as Finding["verdict"],
    at: pair.at,
    ...(pair.why === undefined ? {} : { why: pair.why }),
  };
}

function foundLimit(limit: LimitVerdict): Finding {
  const { what, joint, value } = limit;
  return {
    key: limitKey(limit),
    side: limit.side,
    of: { kind: "limit", what, ...(joint === undefined ? {} : { joint }), value, limit: limit.limit },
    verdict: limit.verdict as "clash",
    at: limit.at,
  };
}
