import { describe, expect, it } from "vitest";
import type { Database } from "../../../src/app/projects/database.ts";
import { smallScene } from "../smallScene.ts";
import { fakeBrowser, kill, lift, until } from "./fakes.ts";

describe("a project", () => {
  it("comes back after a reload with the steps before and after it", async () => {
    const browser = fakeBrowser();
    const first = await browser.tab();
    expect(first.found).toBe(false);
    await first.desk.openNew(smallScene(), "small.json", new Map([["scan.stl", new Uint8Array([1, 2, 3])]]));
    for (const title of ["One", "Two", "Three"]) first.store.getState().edit(`title ${title}`, smallScene({ title }));
    first.store.getState().undo();
    first.store.getState().setTheme("garage");
    await first.desk.flush();
    kill(first);

    const second = await browser.tab();
    expect(second.found).toBe(true);
    expect(second.store.getState()).toMatchObject({ theme: "garage", stepName: "title Two", fileName: "small.json" });
    expect(second.store.getState().files.get("scan.stl")).toEqual(new Uint8Array([1, 2, 3]));
    second.store.getState().redo();
    expect(second.store.getState().document!.title).toBe("Three");
    second.store.getState().undo(3);
    expect(second.store.getState().document).toEqual(smallScene());
  });

  it("keeps thousands of steps with their names, whole", async () => {
    const browser = fakeBrowser();
    const first = await browser.tab();
    await first.desk.openNew(smallScene(), "small.json");
    for (let i = 1; i <= 2000; i++) {
      lift(first, `upper.out ${i} up`);
      if (i % 400 === 0) await first.desk.flush();
    }
    const last = first.store.getState().document;
    const past = first.store.temporal.getState().pastStates;
    await first.desk.flush();
    kill(first);

    const second = await browser.tab();
    expect(second.store.getState().document).toEqual(last);
    expect(second.store.temporal.getState().pastStates).toEqual(past);
    expect(second.store.getState().stepName).toBe("upper.out 2000 up");
    // steps share what they have in common, as they did before
    const bodies = new Set(second.store.temporal.getState().pastStates.map(({ document }) => document!.bodies));
    expect(bodies.size).toBe(1);
  });

  it("forgets undone steps once a new edit is made, in the database too", async () => {
    const browser = fakeBrowser();
    const first = await browser.tab();
    await first.desk.openNew(smallScene(), "small.json");
    for (let i = 1; i <= 8; i++) lift(first, `${i}`);
    await first.desk.flush();
    first.store.getState().undo(5);
    await first.desk.flush();
    lift(first, "another way");
    await first.desk.flush();
    const kept = await (await first.door()).getAll("steps");
    expect(kept.map(({ stepName }) => stepName)).toEqual(["", "1", "2", "3", "another way"]);
  });

  it("killed at any instant is the state before or after an edit, never between", async () => {
    for (let turns = 0; turns < 40; turns++) {
      const browser = fakeBrowser();
      const first = await browser.tab();
      await first.desk.openNew(smallScene(), "small.json");
      lift(first, "one");
      await first.desk.flush();
      const heights = [first, first].map((tab, i) => {
        if (i === 1) lift(tab, "two");
        return tab.store.getState().document!.points["upper.out"];
      });
      for (let i = 0; i < turns; i++) await Promise.resolve();
      kill(first);
      const second = await browser.tab();
      const { stepName, document } = second.store.getState();
      expect(["one", "two"]).toContain(stepName);
      expect(document!.points["upper.out"]).toEqual(heights[stepName === "one" ? 0 : 1]);
      expect(second.store.temporal.getState().pastStates).toHaveLength(stepName === "one" ? 1 : 2);
    }
  });
});

describe("edits that come faster than they are saved", () => {
  const moments = async (count: number): Promise<void> => {
    for (let i = 0; i < count; i++) await Promise.resolve();
  };

  /** A database that counts saves begun and ended, and refuses those asked for. */
  async function counted() {
    const browser = fakeBrowser();
    const plain = await browser.tab();
    kill(plain);
    const seen = { begun: 0, ended: 0, mostAtOnce: 0, refuse: 0 };
    const begin = (database: Database): Database =>
      new Proxy(database, {
        get(target, key) {
          const value = Reflect.get(target, key);
          if (key !== "transaction") return typeof value === "function" ? value.bind(target) : value;
          return (...args: Parameters<Database["transaction"]>) => {
            const tx = target.transaction(...args);
            if (tx.mode !== "readwrite" || !tx.objectStoreNames.contains("steps")) return tx;
            // a refusal comes late, when more has been sent
            if (seen.refuse-- > 0) void moments(100).then(() => tx.abort());
            seen.begun++;
            seen.mostAtOnce = Math.max(seen.mostAtOnce, seen.begun - seen.ended);
            const end = () => void seen.ended++;
            tx.done.then(end, end);
            return tx;
          };
        },
      });
    const tab = await browser.tab(null, { door: async () => begin(await plain.door()) });
    await tab.desk.openNew(smallScene(), "small.json");
    lift(tab, "before");
    await tab.desk.flush();
    const edits = async (names: readonly string[]) => {
      for (const name of names) {
        lift(tab, name);
        // as one event of the page comes after the other
        await moments(20);
      }
    };
    const names = async () => (await (await plain.door()).getAll("steps")).map(({ stepName }) => stepName);
    return { tab, seen, edits, names };
  }

  it("are each on their way at once, and done in turn", async () => {
    const { tab, seen, edits, names } = await counted();
    const before = seen.begun;
    await edits(["one", "two", "three"]);
    expect(seen.begun).toBe(before + 3);
    expect(seen.mostAtOnce).toBe(3);
    await tab.desk.flush();
    expect(await names()).toEqual(["", "before", "one", "two", "three"]);
    expect(tab.store.getState()).toMatchObject({ saveTrouble: null, standing: "mine" });
  });

  it("wait for each other where there are many, and none is left out", async () => {
    const { tab, seen, edits, names } = await counted();
    const many = Array.from({ length: 40 }, (_, i) => `${i}`);
    await edits(many);
    expect(seen.mostAtOnce).toBeLessThanOrEqual(8);
    await tab.desk.flush();
    expect(await names()).toEqual(["", "before", ...many]);
  });

  it("are all still owed where the first is refused; none is kept without the ones before it", async () => {
    const { tab, seen, edits, names } = await counted();
    seen.refuse = 1;
    await edits(["one", "two", "three"]);
    await until(() => tab.store.getState().saveTrouble !== null);
    expect(await names()).toEqual(["", "before"]);
    expect(tab.store.getState()).toMatchObject({ standing: "mine", stepName: "three" });
    lift(tab, "four");
    expect(await tab.desk.flush()).toBe(true);
    expect(tab.store.getState().saveTrouble).toBeNull();
    expect(await names()).toEqual(["", "before", "one", "two", "three", "four"]);
  });
});

describe("several projects", () => {
  async function two() {
    const browser = fakeBrowser();
    const tab = await browser.tab();
    await tab.desk.openNew(smallScene({ title: "Left" }), "left.json");
    const left = tab.id();
    lift(tab, "left up");
    await tab.desk.openNew(smallScene({ title: "Right" }), "right.json");
    return { browser, tab, left, right: tab.id() };
  }
  const titles = (tab: Awaited<ReturnType<typeof two>>["tab"]) =>
    tab.desk.state
      .getState()
      .list.filter(({ deleted_ms }) => deleted_ms === null)
      .map(({ title }) => title)
      .sort();

  it("each keep their own steps", async () => {
    const { tab, left } = await two();
    expect(tab.store.temporal.getState().pastStates).toHaveLength(0);
    await tab.desk.open(left);
    expect(tab.store.getState()).toMatchObject({ stepName: "left up", fileName: "left.json" });
    tab.store.getState().undo();
    expect(tab.store.getState().document!.title).toBe("Left");
  });

  it("are told with title, time, points, parts and steps", async () => {
    const { tab, left } = await two();
    const record = tab.desk.state.getState().list.find(({ id }) => id === left)!;
    expect(record).toMatchObject({ title: "Left", points: 6, parts: 5, steps: 2 });
    expect(record.changed_ms).toBeGreaterThan(Date.now() - 60_000);
    expect(record.bytes).toBeGreaterThan(JSON.stringify(smallScene()).length);
  });

  it("are renamed as a step, the open one and another", async () => {
    const { browser, tab, left, right } = await two();
    await tab.desk.rename(right, "Right rear");
    expect(tab.store.getState()).toMatchObject({ stepName: "rename to Right rear" });
    await tab.desk.rename(left, "Left rear");
    expect(titles(tab)).toEqual(["Left rear", "Right rear"]);
    kill(tab);
    const again = await browser.tab(left);
    expect(again.store.getState().document!.title).toBe("Left rear");
    again.store.getState().undo();
    expect(again.store.getState()).toMatchObject({ stepName: "left up" });
    expect(again.store.getState().document!.title).toBe("Left");
  });

  it("are duplicated with their steps; the copy goes its own way", async () => {
    const { tab, left } = await two();
    await tab.desk.duplicate(left);
    await tab.desk.duplicate(left);
    expect(titles(tab)).toEqual(["Left", "Left, copy", "Left, copy 2", "Right"]);
    const copy = tab.desk.state.getState().list.find(({ title }) => title === "Left, copy")!;
    await tab.desk.open(copy.id);
    lift(tab, "copy up");
    await tab.desk.flush();
    tab.store.getState().undo(2);
    expect(tab.store.getState().stepName).toBe("left up");
    await tab.desk.open(left);
    expect(tab.store.getState().stepName).toBe("left up");
    expect(tab.store.temporal.getState().futureStates).toEqual([]);
  });

  it("are deleted and put back with all they had; the next one opens meanwhile", async () => {
    const { browser, tab, left, right } = await two();
    await tab.desk.open(left);
    await tab.desk.remove(left);
    expect(titles(tab)).toEqual(["Right"]);
    expect(tab.id()).toBe(right);
    kill(tab);
    const later = await browser.tab();
    await later.desk.putBack(left);
    expect(titles(later)).toEqual(["Left", "Right"]);
    await later.desk.open(left);
    expect(later.store.getState().stepName).toBe("left up");
  });

  it("that were deleted go for good when asked, or after two weeks; mesh files go with the last that names them", async () => {
    const { browser, tab, left, right } = await two();
    await tab.desk.openNew(smallScene({ title: "Scan" }), "scan.json", new Map([["a.stl", new Uint8Array(9)]]));
    const scan = tab.id();
    await tab.desk.duplicate(scan);
    const meshes = async () => (await (await tab.door()).getAllKeys("meshes")).length;
    expect(await meshes()).toBe(1);
    await tab.desk.remove(scan);
    await tab.desk.removeForGood(scan);
    expect(await meshes()).toBe(1);
    await tab.desk.removeForGood(right);
    expect(titles(tab)).toEqual(["Left", "Right", "Scan, copy"]);
    const copy = tab.desk.state.getState().list.find(({ title }) => title === "Scan, copy")!;
    await tab.desk.remove(copy.id);
    await tab.desk.remove(left);
    kill(tab);
    const soon = await browser.tab(null, { now: () => Date.now() + 13 * 86_400_000 });
    expect(soon.desk.state.getState().list).toHaveLength(3);
    kill(soon);
    // due now, and gone the next day: a clock may have been wrong
    const due = await browser.tab(null, { now: () => Date.now() + 15 * 86_400_000 });
    expect(due.desk.state.getState().list).toHaveLength(3);
    kill(due);
    const late = await browser.tab(null, { now: () => Date.now() + 16.1 * 86_400_000 });
    expect(late.desk.state.getState().list.map(({ title }) => title)).toEqual(["Right"]);
    const database = await late.door();
    expect(await database.getAllKeys("meshes")).toEqual([]);
    expect(new Set((await database.getAll("steps")).map(({ project }) => project))).toEqual(new Set([right]));
  });

  it("begun from a sample that nothing was done to is opened again, not made twice", async () => {
    const { tab } = await two();
    await tab.desk.openSample(smallScene({ title: "Sample" }), "1-sample.json");
    const sample = tab.id();
    await tab.desk.openSample(smallScene({ title: "Other" }), "2-other.json");
    await tab.desk.openSample(smallScene({ title: "Sample" }), "1-sample.json");
    expect(tab.id()).toBe(sample);
    lift(tab);
    await tab.desk.openSample(smallScene({ title: "Sample" }), "1-sample.json");
    expect(tab.id()).not.toBe(sample);
    expect(titles(tab)).toEqual(["Left", "Other", "Right", "Sample", "Sample"]);
  });
});
