import { createStore as createShelf, del, entries, get, setMany, type UseStore } from "idb-keyval";
import type { Card } from "../../buildlog/entry.ts";
import { nextNumber } from "../../buildlog/make.ts";
import { readCard } from "../../buildlog/read.ts";
import { InputError } from "../../scene/error.ts";
import { t } from "../text/text.ts";

export interface LoadedCards {
  readonly cards: readonly Card[];
  /** What was kept but cannot be read by this version; it stays where it is. */
  readonly unreadable: readonly InputError[];
}

/** Where the browser keeps the job cards. Each call rejects with the browser's own error. */
export interface CardStorage {
  load(): Promise<LoadedCards>;
  keep(cards: readonly Card[]): Promise<void>;
  drop(id: string): Promise<void>;
  /** The number for a new card: above every one ever kept, deleted ones too. */
  nextNumber(): Promise<number>;
}

const CARD = "card/";
const HIGHEST_KEY = "highest number";

/** In this browser's database, on this machine only. */
export function browserCardStorage(shelf: UseStore = createShelf("elbowroom-log", "cards")): CardStorage {
  const highest = async () => (await get<number>(HIGHEST_KEY, shelf)) ?? 0;
  return {
    async load() {
      const kept = (await entries<string, unknown>(shelf)).filter(([key]) => key.startsWith(CARD));
      const cards: Card[] = [];
      const unreadable: InputError[] = [];
      for (const [key, value] of kept) {
        try {
          cards.push(readCard(value, t("log.name"), key));
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          unreadable.push(error);
        }
      }
      return { cards, unreadable };
    },
    async keep(cards) {
      const top = nextNumber([await highest(), ...cards.map((card) => card.number)]) - 1;
      const rows = cards.map((card): [string, unknown] => [CARD + card.id, card]);
      await setMany([...rows, [HIGHEST_KEY, top]], shelf);
    },
    drop: (id) => del(CARD + id, shelf),
    nextNumber: async () => nextNumber([await highest()]),
  };
}
