import { useState } from "react";
import type { Card } from "../../buildlog/entry.ts";
import { CardVerdicts } from "../card/CardVerdicts.tsx";
import { originText, stateText } from "../card/facts.ts";
import { usePrinting } from "../card/printing.ts";
import { saveCardPicture } from "../card/saveCardPicture.ts";
import { fullWhen } from "../card/when.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { CardPictures } from "./CardPictures.tsx";
import { log } from "./cards.ts";
import { openAgain, openAsNew } from "./openAgain.ts";
import { Photos } from "./Photos.tsx";

/** One card, open, with what can be done with it. */
export function CardView({ card }: { card: Card }) {
  const unit = useApp((state) => state.unit);
  const [trouble, setTrouble] = useState<string | null>(null);
  const savePicture = () =>
    void saveCardPicture(card, unit).catch((error: unknown) =>
      setTrouble(error instanceof Error ? error.message : String(error)),
    );
  return (
    <article className="log-card" aria-label={t("log.card", { number: card.number, title: card.title })}>
      <CardHead card={card} letter={null} />
      <div className="log-card-body">
        <div>
          <CardPictures card={card} />
          {card.note && <p className="log-note">{card.note}</p>}
        </div>
        <CardVerdicts card={card} unit={unit} most={10} />
      </div>
      <Photos card={card} />
      {trouble && (
        <p className="card-trouble" role="alert">
          {trouble}
        </p>
      )}
      <div className="log-card-buttons">
        <button
          type="button"
          className="button go"
          onClick={() => usePrinting.getState().print({ cards: [card], unit })}
        >
          {t("log.print")}
        </button>
        <button type="button" className="button" onClick={savePicture}>
          {t("log.savePng")}
        </button>
        <button type="button" className="button" onClick={() => openAgain(card)}>
          {t("log.openAgain")}
        </button>
        <button type="button" className="button" onClick={() => void openAsNew(card)}>
          {t("log.openAsNew")}
        </button>
        <button type="button" className="button plain" onClick={() => void log.getState().remove(card.id)}>
          {t("log.delete")}
        </button>
      </div>
      <p className="log-caution fine quiet">{t("log.caution", { caution: card.caution, origin: originText(card) })}</p>
    </article>
  );
}

export function CardHead({ card, letter }: { card: Card; letter: "A" | "B" | null }) {
  const unit = useApp((state) => state.unit);
  return (
    <header className="log-card-head">
      <span className="hole" aria-hidden="true" />
      <span className="card-number">{card.number}</span>
      <div>
        <h3>{card.title}</h3>
        <p className="small quiet">{t("log.when", { when: fullWhen(card.made), state: stateText(card, unit) })}</p>
        {card.revision && <p className="small">{t("log.revision", { revision: card.revision })}</p>}
      </div>
      {letter && <span className="letter">{letter}</span>}
    </header>
  );
}
