import { describe, expect, it } from "vitest";
import { createLogStore } from "../../../src/app/log/cards.ts";
import type { CardStorage } from "../../../src/app/log/storage.ts";
import type { Card } from "../../../src/buildlog/entry.ts";
import { InputError } from "../../../src/scene/error.ts";
import { card } from "../../buildlog/fixture.ts";

/** A storage in memory, which may refuse as a browser's does. */
function memory(over: Partial<CardStorage> = {}) {
  const kept = new Map<string, Card>();
  let highest = 0;
  const storage: CardStorage = {
    load: async () => ({ cards: [...kept.values()], unreadable: [] }),
    keep: async (cards) => {
      for (const one of cards) {
        kept.set(one.id, one);
        highest = Math.max(highest, one.number);
      }
    },
    drop: async (id) => void kept.delete(id),
    nextNumber: async () => highest + 1,
    ...over,
  };
  return { kept, store: createLogStore(storage) };
}

describe("the build log", () => {
  it("keeps cards, the newest first, and finds them again", async () => {
    const { store } = memory();
    const [first, second] = [card({ number: 1 }), card({ number: 2 })];
    await store.getState().keep([first]);
    await store.getState().keep([second]);
    store.setState({ cards: [] });
    await store.getState().load();
    expect(store.getState().cards.map((found) => found.number)).toEqual([2, 1]);
  });

  it("deletes a card, and puts it back", async () => {
    const { store, kept } = memory();
    const one = card({ number: 1 });
    await store.getState().keep([one]);
    await store.getState().remove(one.id);
    expect([store.getState().cards, kept.size]).toEqual([[], 0]);
    await store.getState().putBack();
    expect(store.getState().cards).toEqual([one]);
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
    expect(store.getState().cards).toHaveLength(1);
    expect(store.getState().trouble).toContain("Save the log as one file");
  });

  it("shows what it can read and names what it cannot", async () => {
    const unreadable = [new InputError("wrong-value", { file: "build log", path: "card/x" }, "is old", "a card")];
    const { store } = memory({ load: async () => ({ cards: [card()], unreadable }) });
    await store.getState().load();
    expect(store.getState().cards).toHaveLength(1);
    expect(store.getState().trouble).toContain("card/x");
  });
});
