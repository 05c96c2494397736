import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import type { ClashDecision } from "../../buildlog/decision.ts";
import type { Card } from "../../buildlog/entry.ts";
import type { BuildLog } from "../../buildlog/logfile.ts";
import { nextNumber } from "../../buildlog/make.ts";
import { t } from "../text/text.ts";
import { type CardRow, rowOf } from "./rows.ts";
import { browserCardStorage, type CardStorage } from "./storage.ts";

export interface LogState {
  /** Newest first. */
  readonly rows: readonly CardRow[];
  /** By id: cards that were looked at or made here. */
  readonly cards: ReadonlyMap<string, Card>;
  readonly decisions: readonly ClashDecision[];
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
  /** Brings a card to hand. */
  need(id: string): Promise<void>;
  /** False when the browser did not keep it; the card then stands for this session only. */
  keep(cards: readonly Card[]): Promise<boolean>;
  decide(decisions: readonly ClashDecision[]): Promise<boolean>;
  remove(id: string): Promise<void>;
  putBack(): Promise<void>;
  /** All of it, cards and decisions, for a file. */
  whole(): Promise<BuildLog>;
  tick(id: string): void;
  open(id: string): void;
  setTrouble(trouble: string | null): void;
}

/** Cards at hand beyond the ones that are shown; each holds its pictures. */
const MOST_AT_HAND = 12;

export function createLogStore(storage: CardStorage) {
  return createStore<LogState & LogActions>()((set, get) => {
    /** Ids of cards that only this page has. */
    const unsaved = new Set<string>();
    const atHand = (fresh: readonly Card[]) => {
      const cards = new Map(get().cards);
      for (const card of fresh) {
        cards.delete(card.id);
        cards.set(card.id, card);
      }
      const spare = [...cards.keys()].filter((id) => !unsaved.has(id));
      for (const id of spare.slice(0, Math.max(0, spare.length - MOST_AT_HAND))) cards.delete(id);
      return cards;
    };
    const fetched = async (id: string): Promise<Card | null> => get().cards.get(id) ?? (await storage.card(id));
    return {
      rows: [],
      cards: new Map(),
      decisions: [],
      loaded: false,
      ticked: [],
      openId: null,
      deleted: null,
      trouble: null,
      async load() {
        try {
          const { rows, decisions, unreadable } = await storage.load();
          const first = unreadable[0];
          set({
            rows: merged(rows, get().rows),
            decisions: joined(decisions, get().decisions),
            loaded: true,
            trouble: first ? t("log.unreadable", { count: unreadable.length, trouble: first.message }) : null,
          });
        } catch (error) {
          set({ loaded: true, trouble: notKept(error) });
        }
      },
      async nextNumber() {
        const shown = nextNumber(get().rows.map(({ digest }) => digest.number));
        try {
          return Math.max(shown, await storage.nextNumber());
        } catch {
          // the browser keeps nothing: the numbers of this session are all there are, and keep() will say so
          return shown;
        }
      },
      async need(id) {
        if (get().cards.has(id)) return;
        try {
          const card = await storage.card(id);
          if (card) set({ cards: atHand([card]) });
        } catch (error) {
          set({ trouble: error instanceof Error ? error.message : String(error) });
        }
      },
      async keep(cards) {
        for (const { id } of cards) unsaved.add(id);
        const rows = await Promise.all(cards.map(rowOf));
        const openId = cards[0]?.id ?? null;
        set({ rows: merged(get().rows, rows), cards: atHand(cards), openId, deleted: null });
        const isKept = await stored(set, () => storage.keep(cards, rows));
        if (isKept) {
          for (const { id } of cards) unsaved.delete(id);
          set({ cards: atHand(cards.slice(0, 1)) });
        }
        return isKept;
      },
      async decide(decisions) {
        set({ decisions: joined(get().decisions, decisions) });
        return stored(set, () => storage.decide(decisions));
      },
      async remove(id) {
        const deleted = await fetched(id).catch(() => null);
        const cards = new Map(get().cards);
        cards.delete(id);
        unsaved.delete(id);
        set({
          rows: get().rows.filter(({ digest }) => digest.id !== id),
          cards,
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
      async whole() {
        const cards: Card[] = [];
        for (const { digest } of [...get().rows].reverse()) {
          const card = await fetched(digest.id);
          if (card) cards.push(card);
        }
        return { cards, decisions: get().decisions };
      },
      tick(id) {
        const { ticked } = get();
        set({ ticked: ticked.includes(id) ? ticked.filter((other) => other !== id) : [...ticked, id].slice(-2) });
      },
      open: (openId) => set({ openId }),
      setTrouble: (trouble) => set({ trouble }),
    };
  });
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

/** Newest first; a row of `more` stands for one with its id. */
function merged(shown: readonly CardRow[], more: readonly CardRow[]): CardRow[] {
  const ids = new Set(more.map(({ digest }) => digest.id));
  const all = [...shown.filter(({ digest }) => !ids.has(digest.id)), ...more];
  return all.sort(({ digest: a }, { digest: b }) => b.number - a.number || (a.made < b.made ? 1 : -1));
}

/** In the order they were made; nothing that was said is ever lost. */
function joined(before: readonly ClashDecision[], more: readonly ClashDecision[]): ClashDecision[] {
  const byId = new Map([...before, ...more].map((decision) => [decision.id, decision]));
  return [...byId.values()].sort((a, b) => (a.made === b.made ? (a.id < b.id ? -1 : 1) : a.made < b.made ? -1 : 1));
}

function notKept(error: unknown): string {
  return error instanceof Error && error.message ? t("log.notKeptBecause", { why: error.message }) : t("log.notKept");
}
