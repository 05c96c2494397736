import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Database } from "../../../src/app/projects/database.ts";
import { smallScene } from "../smallScene.ts";
import { fakeBrowser, kill, lift } from "./fakes.ts";

const DAY_ms = 86_400_000;

async function two() {
  const browser = fakeBrowser();
  const tab = await browser.tab();
  await tab.desk.openNew(smallScene({ title: "Left" }), "left.json");
  lift(tab, "one");
  await tab.desk.flush();
  const left = tab.id();
  await tab.desk.openNew(smallScene({ title: "Right" }), "right.json", new Map([["a.stl", new Uint8Array(4)]]));
  lift(tab, "one");
  await tab.desk.flush();
  return { browser, tab, left, right: tab.id() };
}

/** What the database holds of a record, whatever it is. */
const put = (database: Database, store: "projects" | "steps" | "settings", value: unknown, key?: string) =>
  database.put(store, value as never, key as never);

describe("a damaged record", () => {
  it("of a project, whatever is in it, is told and left as it is; the others open, and keep their mesh files", async () => {
    const fields = ["title", "changed_ms", "revision", "steps", "at", "meshes", "deleted_ms", "bytes"] as const;
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...fields),
        fc.oneof(
          fc.constant(undefined),
          fc.constant({}),
          fc.constant("x"),
          fc.constant(Number.NaN),
          fc.constant(1e300),
        ),
        async (field, value) => {
          fc.pre(!(field === "title" && value === "x") && !(field === "bytes" && value === 1e300));
          const { browser, tab, left, right } = await two();
          const database = await tab.door();
          const record = { ...(await database.get("projects", left))!, [field]: value };
          kill(tab);
          await put(database, "projects", record);
          const later = await browser.tab(left);
          expect(later.id()).toBe(right);
          expect(later.desk.state.getState().note).toMatch(/One project cannot be read here/);
          await later.desk.duplicate(right);
          const [copy] = later.desk.state.getState().list.filter(({ id }) => id !== right);
          await later.desk.remove(copy!.id);
          await later.desk.removeForGood(copy!.id);
          expect(later.store.getState().document!.title).toBe("Right");
          expect(await database.get("projects", left)).toEqual(record);
          expect(await database.getAllKeys("meshes")).toHaveLength(1);
          kill(later);
        },
      ),
      { numRuns: 40 },
    );
  });

  it.each([
    ["no document", { whole: 7 }],
    ["no name", { stepName: null }],
    ["no size", { size: "large" }],
    ["a document without members", { whole: { ...smallScene(), members: 5 }, change: undefined }],
    ["a change that leads to no scene", { whole: undefined, change: { fields: [["points", { set: 5 }]] } }],
    ["a change that fits nothing", { whole: undefined, change: { at: 3, drop: 1, put: [] } }],
  ])("of the shown step (%s) costs that step, which is told; the one before is shown", async (_, damage) => {
    const { browser, tab, right } = await two();
    const database = await tab.door();
    const before = tab.store.temporal.getState().pastStates.at(-1)!;
    const record = (await database.get("steps", [right, 1]))!;
    kill(tab);
    await put(database, "steps", { ...record, ...damage });
    const later = await browser.tab(right);
    expect(later.id()).toBe(right);
    expect(later.store.getState().document).toEqual(before.document);
    expect(later.desk.state.getState().note).toMatch(/One step of this project could not be read/);
    lift(later, "two");
    expect(await later.desk.flush()).toBe(true);
    kill(later);
    const last = await browser.tab(right);
    expect(last.store.getState().stepName).toBe("two");
    expect(last.desk.state.getState().note).toBeNull();
  });

  it("of how the builder likes to look costs what cannot be used of it", async () => {
    const { browser, tab } = await two();
    const database = await tab.door();
    kill(tab);
    await put(database, "settings", { unit: "in", theme: 5, show: { hub: "solid" }, wheels: null }, "session");
    await put(database, "settings", { what: 1 }, "last open");
    const later = await browser.tab();
    expect(later.found).toBe(true);
    expect(later.store.getState()).toMatchObject({ unit: "in", theme: "daylight", wheels: "together" });
    expect(later.store.getState().show.chassis).toBe("solid");
  });
});

describe("a clock that is moved", () => {
  const at = (days: number) => ({ now: () => Date.UTC(2026, 0, 1) + days * DAY_ms });

  it("years ahead for a while takes nothing that was deleted; once it is right, two weeks count as ever", async () => {
    const browser = fakeBrowser();
    const tab = await browser.tab(null, at(0));
    await tab.desk.openNew(smallScene({ title: "Left" }), "left.json");
    const left = tab.id();
    await tab.desk.openNew(smallScene({ title: "Right" }), "right.json");
    await tab.desk.remove(left);
    kill(tab);
    const listAt = async (days: number): Promise<number> => {
      const later = await browser.tab(null, at(days));
      kill(later);
      return later.desk.state.getState().list.length;
    };
    expect(await listAt(2000)).toBe(2);
    expect(await listAt(2000.5)).toBe(2);
    for (const days of [1, 5, 13, 14.5]) expect(await listAt(days), `after ${days} days`).toBe(2);
    expect(await listAt(16)).toBe(1);
  });

  it("back by years while something is deleted does not make it long ago", async () => {
    const browser = fakeBrowser();
    const tab = await browser.tab(null, at(0));
    await tab.desk.openNew(smallScene({ title: "Left" }), "left.json");
    const left = tab.id();
    await tab.desk.openNew(smallScene({ title: "Right" }), "right.json");
    kill(tab);
    const behind = await browser.tab(null, at(-3000));
    await behind.desk.remove(left);
    kill(behind);
    for (const days of [0, 2, 4, 13]) {
      const later = await browser.tab(null, at(days));
      expect(later.desk.state.getState().list).toHaveLength(2);
      kill(later);
    }
  });

  it("back and forth between edits loses none of them", async () => {
    const browser = fakeBrowser();
    let days = 0;
    const now = () => at(days).now();
    const tab = await browser.tab(null, { now });
    await tab.desk.openNew(smallScene(), "small.json");
    for (const [i, moved] of [4000, -4000, 0, -1, 9000].entries()) {
      days = moved;
      lift(tab, `${i}`);
      expect(await tab.desk.flush()).toBe(true);
    }
    kill(tab);
    const later = await browser.tab(null, at(-5000));
    expect(later.store.getState().stepName).toBe("4");
    expect(later.store.temporal.getState().pastStates.map(({ stepName }) => stepName)).toEqual([
      "",
      "0",
      "1",
      "2",
      "3",
    ]);
  });
});
