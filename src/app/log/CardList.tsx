import { useMemo } from "react";
import type { Card } from "../../buildlog/entry.ts";
import { cardTallies } from "../card/facts.ts";
import { shortWhen } from "../card/when.ts";
import { GapMark } from "../marks/GapMark.tsx";
import { t } from "../text/text.ts";
import { log, useLog } from "./cards.ts";
import { usePicture } from "./usePicture.ts";

/** The stack of cards, newest on top. `open` is the card that is shown alone; null: two are compared. */
export function CardList({ cards, open }: { cards: readonly Card[]; open: string | null }) {
  return (
    <ol className="card-list">
      {cards.map((card) => (
        <CardRow key={card.id} card={card} isOpen={card.id === open} />
      ))}
    </ol>
  );
}

function CardRow({ card, isOpen }: { card: Card; isOpen: boolean }) {
  const ticked = useLog((state) => state.ticked);
  const cards = useLog((state) => state.cards);
  const letter = letterOf(card, cards, ticked);
  const address = usePicture(card.picture);
  return (
    <li data-open={isOpen} data-ticked={letter !== null}>
      <button type="button" aria-current={isOpen} onClick={() => log.getState().open(card.id)}>
        <span className="thumb">{address && <img src={address} alt="" />}</span>
        <span>
          <b>
            <span className="number">{card.number}</span> {card.title}
          </b>
          <span className="quiet">{shortWhen(card.made)}</span>
          <Tally card={card} />
        </span>
      </button>
      <label className="tick">
        <input
          type="checkbox"
          className="unseen"
          checked={letter !== null}
          onChange={() => log.getState().tick(card.id)}
          aria-label={t("log.compare", { number: card.number })}
        />
        <span aria-hidden="true">{letter ?? ""}</span>
      </label>
    </li>
  );
}

/** "A" for the earlier of two ticked cards, "B" for the later; a single one is A. */
function letterOf(card: Card, cards: readonly Card[], ticked: readonly string[]): "A" | "B" | null {
  if (!ticked.includes(card.id)) return null;
  const other = cards.find((found) => found.id !== card.id && ticked.includes(found.id));
  return other && other.number < card.number ? "B" : "A";
}

export function Tally({ card }: { card: Card }) {
  const { clash, tight, limit } = useMemo(() => cardTallies(card), [card]);
  return (
    <span className="tally-line">
      <span>
        <GapMark kind={clash > 0 ? "clash" : "clear"} size={18} />
        {clash > 0 ? <Count count={clash} text={t("log.tally.clash", { count: clash })} /> : t("log.tally.none")}
      </span>
      <span>
        <GapMark kind="tight" size={18} />
        <Count count={tight} text={t("log.tally.tight", { count: tight })} />
      </span>
      {limit > 0 && (
        <span>
          <GapMark kind="limit" size={16} />
          <Count count={limit} text={t("log.tally.limit", { count: limit })} />
        </span>
      )}
    </span>
  );
}

/** The figure for the eye, which has the mark beside it; the whole for the ear. */
function Count({ count, text }: { count: number; text: string }) {
  return (
    <>
      <span aria-hidden="true">{count}</span>
      <span className="unseen">{text}</span>
    </>
  );
}
