import { useEffect, useRef } from "react";
import type { Card } from "../../buildlog/entry.ts";
import { PaperChoice } from "../card/PaperChoice.tsx";
import { usePrinting } from "../card/printing.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { CardList } from "./CardList.tsx";
import { CardView } from "./CardView.tsx";
import { ComparedCards } from "./ComparedCards.tsx";
import { log, useLog } from "./cards.ts";
import { LogButtons } from "./LogButtons.tsx";
import "./log.css";

/** The place Build log: the stack of job cards, one of them open or two side by side. */
export function LogPlace() {
  const cards = useLog((state) => state.cards);
  const loaded = useLog((state) => state.loaded);
  const ticked = useLog((state) => state.ticked);
  const openId = useLog((state) => state.openId);
  useEffect(() => {
    if (!log.getState().loaded) void log.getState().load();
  }, []);

  const pair = cards.filter((card) => ticked.includes(card.id)).sort((a, b) => a.number - b.number);
  const open = cards.find((card) => card.id === openId) ?? cards[0];
  const [before, after] = pair;
  useReadyToPrint(before && after ? [before, after] : open ? [open] : []);
  return (
    <main className="log">
      <aside className="log-stack" aria-label={t("log.stack")}>
        <div className="log-head">
          <h2>{t("log.stack")}</h2>
          {cards.length > 1 && <span className="fine quiet">{t("log.tickTwo")}</span>}
        </div>
        <LogTrouble />
        <CardList cards={cards} open={before && after ? null : (open?.id ?? null)} />
        <LogButtons cards={cards} pair={before && after ? [before, after] : null} />
        {cards.length > 0 && <PaperChoice />}
      </aside>
      <div className="log-body">
        {before && after && <ComparedCards before={before} after={after} />}
        {!(before && after) && open && <CardView key={open.id} card={open} />}
        {loaded && cards.length === 0 && (
          <div className="log-empty">
            <h2>{t("log.empty")}</h2>
            <p>{t("log.howToBegin")}</p>
          </div>
        )}
      </div>
    </main>
  );
}

/** The browser's own print command prints what stands open, unless a card is just being made. */
function useReadyToPrint(cards: readonly Card[]): void {
  const unit = useApp((state) => state.unit);
  const cardOpen = useApp((state) => state.cardOpen);
  const latest = useRef(cards);
  latest.current = cards;
  const ids = cards.map((card) => card.id).join(" ");
  useEffect(() => {
    usePrinting.getState().setOpen(ids && !cardOpen ? { cards: latest.current, unit } : null);
    return () => usePrinting.getState().setOpen(null);
  }, [ids, unit, cardOpen]);
}

function LogTrouble() {
  const trouble = useLog((state) => state.trouble);
  const deleted = useLog((state) => state.deleted);
  return (
    <>
      {trouble && (
        <p className="card-trouble" role="alert">
          {trouble}
        </p>
      )}
      {deleted && (
        <div className="log-deleted" role="status">
          <span>{t("log.deleted", { number: deleted.number })}</span>
          <button type="button" className="button" onClick={() => void log.getState().putBack()}>
            {t("log.undo")}
          </button>
        </div>
      )}
    </>
  );
}
