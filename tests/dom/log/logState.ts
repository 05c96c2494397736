import { cardTallies } from "../../../src/app/card/facts.ts";
import type { LogState } from "../../../src/app/log/cards.ts";
import type { CardRow } from "../../../src/app/log/rows.ts";
import type { ClashDecision } from "../../../src/buildlog/decision.ts";
import { digestOf } from "../../../src/buildlog/digest.ts";
import type { Card } from "../../../src/buildlog/entry.ts";

export const rowFor = (card: Card): CardRow => ({ digest: digestOf(card), tally: cardTallies(card), thumb: null });

/** The log as it stands when these cards, the newest first, are all there is of it and at hand. */
export function logOf(cards: readonly Card[] = [], decisions: readonly ClashDecision[] = []): LogState {
  return {
    rows: cards.map(rowFor),
    cards: new Map(cards.map((card) => [card.id, card])),
    decisions,
    loaded: true,
    ticked: [],
    openId: null,
    deleted: null,
    trouble: null,
  };
}
