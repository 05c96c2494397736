import { useEffect, useRef, useState } from "react";
import type { Card } from "../../buildlog/entry.ts";
import { usePrinting } from "../card/printing.ts";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { CardList } from "./CardList.tsx";
import { CardView } from "./CardView.tsx";
import { ClashList } from "./ClashList.tsx";
import { ComparedCards } from "./ComparedCards.tsx";
import { log, useLog } from "./cards.ts";
import { LogButtons } from "./LogButtons.tsx";
import "./log.css";

const VIEWS = ["cards", "clashes"] as const;

/** The place Build log: the timeline of job cards, one of them open or two side by side, or the list of clashes. */
export function LogPlace() {
  const rows = useLog((state) => state.rows);
  const cards = useLog((state) => state.cards);
  const loaded = useLog((state) => state.loaded);
  const ticked = useLog((state) => state.ticked);
  const openId = useLog((state) => state.openId);
  const [view, setView] = useState<(typeof VIEWS)[number]>("cards");
  useEffect(() => {
    if (!log.getState().loaded) void log.getState().load();
  }, []);

  const pair = rows.filter(({ digest }) => ticked.includes(digest.id)).reverse();
  const open = rows.find(({ digest }) => digest.id === openId) ?? rows[0];
  const isPair = pair.length === 2;
  const shownIds = (isPair ? pair : open ? [open] : []).map(({ digest }) => digest.id);
  useAtHand(shownIds);
  const shown = shownIds.flatMap((id) => cards.get(id) ?? []);
  const [before, after] = shown;
  const isReady = shown.length === shownIds.length;
  useReadyToPrint(view === "cards" && isReady ? shown : []);
  return (
    <main className="log" data-view={view} aria-busy={!loaded || (view === "cards" && !isReady)}>
      <aside className="log-stack" aria-label={t("log.stack")}>
        <div className="log-head">
          <h2>{t("log.stack")}</h2>
          {rows.length > 1 && view === "cards" && <span className="fine quiet">{t("log.tickTwo")}</span>}
        </div>
        {rows.length > 0 && (
          <Choices
            label={t("log.views.of")}
            options={VIEWS.map((value) => ({ value, name: t(`log.views.${value}`) }))}
            value={view}
            onChoose={setView}
          />
        )}
        <LogTrouble />
        <CardList
          rows={rows}
          open={isPair || view === "clashes" ? null : (open?.digest.id ?? null)}
          onOpen={() => setView("cards")}
        />
        <LogButtons pair={isPair && before && after ? [before, after] : null} />
      </aside>
      <div className="log-body">
        {view === "clashes" && rows.length > 0 && <ClashList />}
        {view === "cards" && isPair && before && after && <ComparedCards before={before} after={after} />}
        {view === "cards" && !isPair && before && <CardView key={before.id} card={before} />}
        {loaded && rows.length === 0 && (
          <div className="log-empty">
            <h2>{t("log.empty")}</h2>
            <p>{t("log.howToBegin")}</p>
          </div>
        )}
      </div>
    </main>
  );
}

/** Brings the cards with these ids to hand. */
function useAtHand(ids: readonly string[]): void {
  const wanted = ids.join(" ");
  useEffect(() => {
    for (const id of wanted.split(" ")) if (id) void log.getState().need(id);
  }, [wanted]);
}

/** The browser's own print command prints what stands open, unless a card is just being made. */
function useReadyToPrint(cards: readonly Card[]): void {
  const unit = useApp((state) => state.unit);
  const cardOpen = useApp((state) => state.cardOpen);
  const latest = useRef(cards);
  latest.current = cards;
  const ids = cards.map((card) => `${card.id} ${card.photos.length}`).join(" ");
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
