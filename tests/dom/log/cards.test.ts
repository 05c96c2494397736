import { describe, expect, it } from "vitest";
import { createLogStore } from "../../../src/app/log/cards.ts";
import type { CardStorage } from "../../../src/app/log/storage.ts";
import type { ClashDecision } from "../../../src/buildlog/decision.ts";
import type { Card } from "../../../src/buildlog/entry.ts";
import { InputError } from "../../../src/scene/error.ts";
import { card } from "../../buildlog/fixture.ts";
import { decision } from "../../buildlog/logs.ts";
import { rowFor } from "./logState.ts";

/** A storage in memory, which may refuse as a browser's does. */
function memory(over: Partial<CardStorage> = {}) {
  const kept = new Map<string, Card>();
  const said: ClashDecision[] = [];
  let highest = 0;
  const storage: CardStorage = {
    load: async () => ({ rows: [...kept.values()].map(rowFor), decisions: said, unreadable: [] }),
    card: async (id) => kept.get(id) ?? null,
    keep: async (cards) => {
      for (const one of cards) {
        kept.set(one.id, one);
        highest = Math.max(highest, one.number);
      }
    },
    drop: async (id) => void kept.delete(id),
    decide: async (decisions) => void said.push(...decisions),
    nextNumber: async () => highest + 1,
    ...over,
  };
  return { kept, said, store: createLogStore(storage) };
}

describe("the build log", () => {
  it("keeps cards, the newest first, and finds them again", async () => {
    const { store } = memory();
    const [first, second] = [card({ number: 1 }), card({ number: 2 })];
    await store.getState().keep([first]);
    await store.getState().keep([second]);
    store.setState({ rows: [], cards: new Map() });
    await store.getState().load();
    expect(store.getState().rows.map(({ digest }) => digest.number)).toEqual([2, 1]);
    expect(store.getState().cards.size).toBe(0);
    await store.getState().need(first.id);
    expect(store.getState().cards.get(first.id)).toEqual(first);
  });

  it("deletes a card, and puts it back", async () => {
    const { store, kept } = memory();
    const one = card({ number: 1 });
    await store.getState().keep([one]);
    await store.getState().remove(one.id);
    expect([store.getState().rows, store.getState().cards.size, kept.size]).toEqual([[], 0, 0]);
    await store.getState().putBack();
    expect([...store.getState().cards.values()]).toEqual([one]);
    expect(kept.size).toBe(1);
  });

  it("does not give a deleted card's number again", async () => {
    const { store } = memory();
    const one = card({ number: 1 });
    await store.getState().keep([one]);
    await store.getState().remove(one.id);
    expect(await store.getState().nextNumber()).toBe(2);
  });

  it("compares two at most: a third tick lets go of the first", () => {
    const { store } = memory();
    for (const id of ["a", "b", "c"]) store.getState().tick(id);
    expect(store.getState().ticked).toEqual(["b", "c"]);
    store.getState().tick("b");
    expect(store.getState().ticked).toEqual(["c"]);
  });

  it("shows a card that the browser does not keep, and says so", async () => {
    const { store } = memory({ keep: () => Promise.reject(new Error("QuotaExceeded")) });
    expect(await store.getState().keep([card()])).toBe(false);
    expect(store.getState().cards.size).toBe(1);
    expect(store.getState().trouble).toContain("Save the log as one file");
  });

  it("shows what it can read and names what it cannot", async () => {
    const unreadable = [new InputError("wrong-value", { file: "build log", path: "card/x" }, "is old", "a card")];
    const { store } = memory({ load: async () => ({ rows: [rowFor(card())], decisions: [], unreadable }) });
    await store.getState().load();
    expect(store.getState().rows).toHaveLength(1);
    expect(store.getState().trouble).toContain("card/x");
  });

  it("holds only the last cards that were looked at, and gives all of them for a file, oldest first", async () => {
    const { store } = memory();
    const cards = Array.from({ length: 30 }, (_, i) => card({ number: i + 1 }));
    await store.getState().keep(cards);
    expect(store.getState().cards.size).toBeLessThan(20);
    expect(store.getState().cards.has(cards[0]!.id)).toBe(true);
    expect(await store.getState().whole()).toEqual({ cards, decisions: [] });
  });

  it("lets go of no card that the browser does not keep", async () => {
    const { store } = memory({ keep: () => Promise.reject(new Error("QuotaExceeded")) });
    const cards = Array.from({ length: 30 }, (_, i) => card({ number: i + 1 }));
    await store.getState().keep(cards);
    expect((await store.getState().whole()).cards).toEqual(cards);
  });

  it("adds what is decided, and has each decision once however often it is brought in", async () => {
    const { store, said } = memory();
    await store.getState().decide([decision({ id: "b", made: "2026-11-14T08:00:00.000Z" }), decision({ id: "a" })]);
    await store.getState().decide([decision({ id: "a" })]);
    expect(store.getState().decisions.map(({ id }) => id)).toEqual(["a", "b"]);
    expect(said).toHaveLength(3);
  });
});
