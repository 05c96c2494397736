import "fake-indexeddb/auto";
import { createStore, del, get, set } from "idb-keyval";
import { describe, expect, it } from "vitest";
import { browserCardStorage } from "../../../src/app/log/storage.ts";
import { card } from "../../buildlog/fixture.ts";
import { decision, photo, view } from "../../buildlog/logs.ts";
import { rowFor } from "./logState.ts";

let counted = 0;

/** Shelves that no other test has. */
function shelves() {
  counted++;
  const shelf = createStore(`log ${counted}`, "cards");
  const rowShelf = createStore(`rows ${counted}`, "rows");
  return { shelf, rowShelf, storage: browserCardStorage(shelf, rowShelf) };
}

describe("the log in the browser's database", () => {
  it("gives cards back with their photos, and what was decided", async () => {
    const { storage } = shelves();
    const one = card({ number: 7, photos: [photo()], views: [view()] });
    await storage.keep([one], [rowFor(one)]);
    await storage.decide([decision()]);
    const { rows, decisions, unreadable } = await storage.load();
    expect([rows, decisions, unreadable]).toEqual([[rowFor(one)], [decision()], []]);
    expect(await storage.card(one.id)).toEqual(one);
    expect(await storage.nextNumber()).toBe(8);
  });

  it("reads cards of version 1, and makes rows that are not there", async () => {
    const { shelf, rowShelf, storage } = shelves();
    const { revision: _revision, views: _views, photos: _photos, ...old } = card({ number: 3 });
    await set(`card/${old.id}`, { ...old, version: 1 }, shelf);
    const { rows } = await storage.load();
    expect(rows.map(({ digest }) => [digest.number, digest.revision, digest.photos])).toEqual([[3, "", 0]]);
    expect(await get(old.id, rowShelf)).toEqual(rows[0]);
    // what lies there is not touched
    expect(await get(`card/${old.id}`, shelf)).toEqual({ ...old, version: 1 });
  });

  it("opens without reading a card: they may be hundreds, and large", async () => {
    const { shelf, storage } = shelves();
    const one = card();
    await storage.keep([one], [rowFor(one)]);
    await set(`card/${one.id}`, "spoilt", shelf);
    expect((await storage.load()).rows).toEqual([rowFor(one)]);
    await expect(storage.card(one.id)).rejects.toThrow(/build log/);
  });

  it("shows no row of a card that is gone, and names what cannot be read", async () => {
    const { shelf, storage } = shelves();
    const [gone, spoilt] = [card({ number: 1 }), card({ number: 2 })];
    await storage.keep([gone], [rowFor(gone)]);
    await del(`card/${gone.id}`, shelf);
    await set(`card/${spoilt.id}`, { ...spoilt, number: -1 }, shelf);
    const { rows, unreadable } = await storage.load();
    expect(rows).toEqual([]);
    expect(unreadable.map(({ path }) => path)).toEqual([`card/${spoilt.id}.number`]);
  });
});
