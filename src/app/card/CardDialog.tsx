import { Dialog } from "@base-ui/react/dialog";
import { useId, useState } from "react";
import type { Card } from "../../buildlog/entry.ts";
import { useLog } from "../log/cards.ts";
import { usePicture } from "../log/usePicture.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { CardVerdicts } from "./CardVerdicts.tsx";
import { cardTrouble, composeCard } from "./composeCard.ts";
import { PaperChoice } from "./PaperChoice.tsx";
import { usePrinting } from "./printing.ts";
import { saveCardPicture } from "./saveCardPicture.ts";
import { type CardDraft, useCardDraft } from "./useCardDraft.ts";
import "./card.css";

interface CardDialogProps {
  /** A picture of the view as it stands, PNG. The same function for as long as the view stands. */
  takePicture(): Promise<Blob>;
}

/** Makes a job card of what is shown. Open while the store says so. */
export function CardDialog({ takePicture }: CardDialogProps) {
  const open = useApp((state) => state.cardOpen);
  return (
    <Dialog.Root open={open} onOpenChange={app.getState().setCardOpen}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog card-dialog">
          <CardForm takePicture={takePicture} />
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function CardForm({ takePicture }: CardDialogProps) {
  const draft = useCardDraft(takePicture);
  const trouble = useApp(cardTrouble);
  const title = useId();
  const note = useId();
  const revision = useId();
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        void draft.keep().then((card) => card && app.getState().setCardOpen(false));
      }}
    >
      <div className="card-dialog-head">
        <Dialog.Title>{draft.kept ? t("card.numbered", { number: draft.kept.number }) : t("card.make")}</Dialog.Title>
        <Dialog.Close className="button">{t("card.close")}</Dialog.Close>
      </div>
      <div className="card-dialog-body">
        <div>
          <DraftPicture draft={draft} />
          <label htmlFor={title}>{t("card.title")}</label>
          <input
            id={title}
            className="field"
            value={draft.words.title}
            maxLength={200}
            onChange={(event) => draft.setWords({ title: event.target.value })}
          />
          <label htmlFor={note}>{t("card.note")}</label>
          <textarea
            id={note}
            className="field"
            rows={4}
            value={draft.words.note}
            maxLength={20_000}
            placeholder={t("card.noteHint")}
            onChange={(event) => draft.setWords({ note: event.target.value })}
          />
          <div className="card-dialog-more">
            <DraftViews draft={draft} />
            <label htmlFor={revision}>
              {t("card.revision")}
              <input
                id={revision}
                className="field"
                value={draft.words.revision}
                maxLength={20}
                autoComplete="off"
                onChange={(event) => draft.setWords({ revision: event.target.value })}
              />
            </label>
          </div>
        </div>
        <DraftFacts draft={draft} />
      </div>
      {trouble && (
        <p className="card-trouble" role="alert">
          {t("card.noCardYet", { trouble })}
        </p>
      )}
      <DraftButtons draft={draft} disabled={trouble !== null || draft.busy} />
      <p className="fine quiet">{t("card.caution")}</p>
    </form>
  );
}

function DraftPicture({ draft }: { draft: CardDraft }) {
  const address = usePicture(draft.picture);
  const { title } = draft.words;
  return (
    <div className="card-picture">
      {address && <img src={address} alt={title ? t("card.picture", { title }) : t("card.untitledPicture")} />}
      {!address && (
        <p>
          {draft.pictureTrouble
            ? t("card.noPictureBecause", { trouble: draft.pictureTrouble })
            : t("card.takingPicture")}
        </p>
      )}
    </div>
  );
}

/** Pictures in other states than the one that is shown. */
function DraftViews({ draft }: { draft: CardDraft }) {
  return (
    <fieldset>
      <legend>{t("card.views")}</legend>
      <span className="choices">
        {draft.views.map((view) => (
          <button key={view} type="button" aria-pressed={draft.wanted.has(view)} onClick={() => draft.want(view)}>
            {t(`card.view.${view}`)}
          </button>
        ))}
      </span>
    </fieldset>
  );
}

function DraftFacts({ draft }: { draft: CardDraft }) {
  const state = useApp((now) => now);
  const [made] = useState(() => new Date());
  const card = composeCard(state, draft.words, null, 1, made);
  if (!card) return <div />;
  return <CardVerdicts card={card} unit={state.unit} most={6} />;
}

function DraftButtons({ draft, disabled }: { draft: CardDraft; disabled: boolean }) {
  const unit = useApp((state) => state.unit);
  const logTrouble = useLog((state) => state.trouble);
  const [trouble, setTrouble] = useState<string | null>(null);
  const withCard = async (use: (card: Card) => Promise<unknown> | undefined) => {
    const card = await draft.keep();
    try {
      if (card) await use(card);
    } catch (error) {
      setTrouble(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <>
      {(trouble ?? logTrouble) && (
        <p className="card-trouble" role="alert">
          {trouble ?? logTrouble}
        </p>
      )}
      {draft.busy && <p role="status">{t("card.takingViews")}</p>}
      {draft.viewsTrouble && (
        <p className="card-trouble" role="alert">
          {t("card.noViewsBecause", { trouble: draft.viewsTrouble })}
        </p>
      )}
      {draft.kept && (
        <p className="card-kept" role="status">
          {t("card.kept", { number: draft.kept.number })}
        </p>
      )}
      <div className="dialog-buttons card-buttons">
        <PaperChoice />
        <button
          type="button"
          className="button"
          disabled={disabled}
          onClick={() =>
            void withCard((card) => {
              usePrinting.getState().print({ cards: [card], unit });
              return undefined;
            })
          }
        >
          {t("card.print")}
        </button>
        <button
          type="button"
          className="button"
          disabled={disabled}
          onClick={() => void withCard((card) => saveCardPicture(card, unit))}
        >
          {t("card.savePng")}
        </button>
        <button type="submit" className="button go" disabled={disabled}>
          {t("card.keep")}
        </button>
      </div>
    </>
  );
}
