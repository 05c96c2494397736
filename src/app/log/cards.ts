import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import type { Card } from "../../buildlog/entry.ts";
import { nextNumber } from "../../buildlog/make.ts";
import { t } from "../text/text.ts";
import { browserCardStorage, type CardStorage } from "./storage.ts";

export interface LogState {
  /** Newest first. */
  readonly cards: readonly Card[];
  readonly loaded: boolean;
  /** Ids ticked for comparing, at most two, in the order they were ticked. */
  readonly ticked: readonly string[];
  /** The card that is open; null: the newest. */
  readonly openId: string | null;
  /** The card deleted last, until it is put back or another change makes that moot. */
  readonly deleted: Card | null;
  /** What went wrong with keeping or reading, in words for the builder. */
  readonly trouble: string | null;
}

export interface LogActions {
  load(): Promise<void>;
  /** The number a card made now gets. */
  nextNumber(): Promise<number>;
  /** False when the browser did not keep it; the card then stands for this session only. */
  keep(cards: readonly Card[]): Promise<boolean>;
  remove(id: string): Promise<void>;
  putBack(): Promise<void>;
  tick(id: string): void;
  open(id: string): void;
  setTrouble(trouble: string | null): void;
}

export function createLogStore(storage: CardStorage) {
  return createStore<LogState & LogActions>()((set, get) => ({
    cards: [],
    loaded: false,
    ticked: [],
    openId: null,
    deleted: null,
    trouble: null,
    async load() {
      try {
        const { cards, unreadable } = await storage.load();
        const first = unreadable[0];
        set({
          cards: newestFirst(merge(get().cards, cards)),
          loaded: true,
          trouble: first ? t("log.unreadable", { count: unreadable.length, trouble: first.message }) : null,
        });
      } catch (error) {
        set({ loaded: true, trouble: notKept(error) });
      }
    },
    async nextNumber() {
      const shown = nextNumber(get().cards.map((card) => card.number));
      try {
        return Math.max(shown, await storage.nextNumber());
      } catch {
        // the browser keeps nothing: the numbers of this session are all there are, and keep() will say so
        return shown;
      }
    },
    async keep(cards) {
      set({ cards: newestFirst(merge(get().cards, cards)), openId: cards[0]?.id ?? null, deleted: null });
      return stored(set, () => storage.keep(cards));
    },
    async remove(id) {
      const deleted = get().cards.find((card) => card.id === id) ?? null;
      set({
        cards: get().cards.filter((card) => card.id !== id),
        ticked: get().ticked.filter((ticked) => ticked !== id),
        openId: get().openId === id ? null : get().openId,
        deleted,
      });
      await stored(set, () => storage.drop(id));
    },
    async putBack() {
      const { deleted } = get();
      if (deleted) await get().keep([deleted]);
    },
    tick(id) {
      const { ticked } = get();
      set({ ticked: ticked.includes(id) ? ticked.filter((other) => other !== id) : [...ticked, id].slice(-2) });
    },
    open: (openId) => set({ openId }),
    setTrouble: (trouble) => set({ trouble }),
  }));
}

export const log = createLogStore(browserCardStorage());

export function useLog<T>(select: (state: LogState & LogActions) => T): T {
  return useStore(log, select);
}

async function stored(set: (part: Partial<LogState>) => void, run: () => Promise<void>): Promise<boolean> {
  try {
    await run();
    set({ trouble: null });
    return true;
  } catch (error) {
    set({ trouble: notKept(error) });
    return false;
  }
}

function merge(shown: readonly Card[], more: readonly Card[]): Card[] {
  const ids = new Set(more.map((card) => card.id));
  return [...shown.filter((card) => !ids.has(card.id)), ...more];
}

function newestFirst(cards: readonly Card[]): Card[] {
  return [...cards].sort((a, b) => b.number - a.number || (a.made < b.made ? 1 : -1));
}

function notKept(error: unknown): string {
  return error instanceof Error && error.message ? t("log.notKeptBecause", { why: error.message }) : t("log.notKept");
}
