import { useState } from "react";
import type { Card } from "../../buildlog/entry.ts";
import { CardVerdicts } from "../card/CardVerdicts.tsx";
import { originText, stateText } from "../card/facts.ts";
import { usePrinting } from "../card/printing.ts";
import { saveCardPicture } from "../card/saveCardPicture.ts";
import { fullWhen } from "../card/when.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { log } from "./cards.ts";
import { openAgain } from "./openAgain.ts";
import { usePicture } from "./usePicture.ts";

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
        <CardPictureAndNote card={card} />
        <CardVerdicts card={card} unit={unit} most={10} />
      </div>
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
      </div>
      {letter && <span className="letter">{letter}</span>}
    </header>
  );
}

export function CardPictureAndNote({ card }: { card: Card }) {
  const address = usePicture(card.picture);
  return (
    <div>
      <div className="card-picture">
        {address ? <img src={address} alt={card.title} /> : <p>{t("log.noPicture")}</p>}
      </div>
      {card.note && <p className="log-note">{card.note}</p>}
    </div>
  );
}
