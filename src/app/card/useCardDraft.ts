import { useEffect, useRef, useState } from "react";
import type { Card, CardPicture } from "../../buildlog/entry.ts";
import { log } from "../log/cards.ts";
import { app } from "../store/useApp.ts";
import { type CardWords, composeCard, usualNote, usualTitle } from "./composeCard.ts";
import { pngSize } from "./pngSize.ts";

export interface CardDraft {
  readonly words: CardWords;
  readonly picture: CardPicture | null;
  /** Why the picture could not be taken. */
  readonly pictureTrouble: string | null;
  /** The card as it lies in the log; null: not kept yet. */
  readonly kept: Card | null;
  setWords(words: Partial<CardWords>): void;
  /** Keeps the card, or what was changed in it since; null when nothing is there to make it of. */
  keep(): Promise<Card | null>;
}

/** A card in the making: the picture is taken and the title proposed when the dialog opens. */
export function useCardDraft(takePicture: () => Promise<Blob>): CardDraft {
  const [words, setWords] = useState<CardWords>(() => ({
    title: usualTitle(app.getState()),
    note: usualNote(app.getState()),
  }));
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
    setWords: (part) => setWords((before) => ({ ...before, ...part })),
    async keep() {
      const number = kept?.number ?? (await log.getState().nextNumber());
      const fresh = composeCard(app.getState(), words, await taking.current, number, made);
      if (!fresh) return null;
      const card = kept ? { ...fresh, id: kept.id } : fresh;
      await log.getState().keep([card]);
      setKept(card);
      return card;
    },
  };
}

async function readPicture(takePicture: () => Promise<Blob>): Promise<CardPicture> {
  const png = new Uint8Array(await (await takePicture()).arrayBuffer());
  return { png, ...pngSize(png) };
}
