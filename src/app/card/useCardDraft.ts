import { useEffect, useRef, useState } from "react";
import type { Card, CardPicture, CardView, ViewState } from "../../buildlog/entry.ts";
import { usualRevision } from "../../buildlog/revision.ts";
import { log } from "../log/cards.ts";
import { app } from "../store/useApp.ts";
import { type CardWords, composeCard, usualNote, usualTitle } from "./composeCard.ts";
import { readPicture } from "./readPicture.ts";
import { takeViews, viewStates } from "./takeViews.ts";

export interface CardDraft {
  readonly words: CardWords;
  readonly picture: CardPicture | null;
  /** Why the picture could not be taken. */
  readonly pictureTrouble: string | null;
  /** Further pictures that can be taken, and those that are wanted. */
  readonly views: readonly ViewState[];
  readonly wanted: ReadonlySet<ViewState>;
  /** The further pictures are being taken. */
  readonly busy: boolean;
  /** Why they could not be. */
  readonly viewsTrouble: string | null;
  /** The card as it lies in the log; null: not kept yet. */
  readonly kept: Card | null;
  setWords(words: Partial<CardWords>): void;
  want(view: ViewState): void;
  /** Keeps the card, or what was changed in it since; null when nothing is there to make it of. */
  keep(): Promise<Card | null>;
}

/** A card in the making: the picture is taken and the title proposed when the dialog opens. */
export function useCardDraft(takePicture: () => Promise<Blob>): CardDraft {
  const [words, setWords] = useState<CardWords>(() => ({
    title: usualTitle(app.getState()),
    note: usualNote(app.getState()),
    revision: usualRevision(
      log.getState().rows.map(({ digest }) => digest),
      app.getState().scene?.title ?? "",
    ),
  }));
  const [views] = useState(() => viewStates(app.getState()));
  const [wanted, setWanted] = useState<ReadonlySet<ViewState>>(new Set());
  const [busy, setBusy] = useState(false);
  const [viewsTrouble, setViewsTrouble] = useState<string | null>(null);
  const taken = useRef(new Map<ViewState, CardView>());
  const [picture, setPicture] = useState<CardPicture | null>(null);
  const [pictureTrouble, setPictureTrouble] = useState<string | null>(null);
  const [kept, setKept] = useState<Card | null>(null);
  const [made] = useState(() => new Date());

  const taking = useRef<Promise<CardPicture | null>>(Promise.resolve(null));
  useEffect(() => {
    let wanted = true;
    taking.current = readPicture(takePicture).catch((error: unknown) => {
      if (wanted) setPictureTrouble(error instanceof Error ? error.message : String(error));
      return null;
    });
    void taking.current.then((taken) => wanted && setPicture(taken));
    return () => {
      wanted = false;
    };
  }, [takePicture]);

  return {
    words,
    picture,
    pictureTrouble,
    kept,
    views,
    wanted,
    busy,
    viewsTrouble,
    want: (view) =>
      setWanted((before) => new Set(before.has(view) ? [...before].filter((one) => one !== view) : [...before, view])),
    setWords: (part) => setWords((before) => ({ ...before, ...part })),
    async keep() {
      const number = kept?.number ?? (await log.getState().nextNumber());
      const fresh = composeCard(app.getState(), words, await taking.current, number, made);
      if (!fresh) return null;
      setBusy(true);
      const missing = views.filter((view) => wanted.has(view) && !taken.current.has(view));
      try {
        for (const view of await takeViews(missing, takePicture)) taken.current.set(view.state, view);
        setViewsTrouble(null);
      } catch (error) {
        setViewsTrouble(error instanceof Error ? error.message : String(error));
      }
      setBusy(false);
      const further = views.flatMap((view) => (wanted.has(view) ? (taken.current.get(view) ?? []) : []));
      const card = { ...fresh, views: further, ...(kept ? { id: kept.id, photos: kept.photos } : {}) };
      await log.getState().keep([card]);
      setKept(card);
      return card;
    },
  };
}
