import { createStore, set } from "idb-keyval";
import { describe, expect, it, vi } from "vitest";
import type { Database } from "../../../src/app/projects/database.ts";
import { takeOldWork } from "../../../src/app/projects/oldWork.ts";
import { smallScene } from "../smallScene.ts";
import { fakeBrowser, kill, lift, until } from "./fakes.ts";

/** A database that takes nothing any more in `store`, as a full disk: the browser ends the transaction. */
function fullIn(database: Database, store: "projects" | "steps" | "meshes"): Database {
  return new Proxy(database, {
    get(target, key) {
      const value = Reflect.get(target, key);
      if (key !== "transaction") return typeof value === "function" ? value.bind(target) : value;
      return (...args: Parameters<Database["transaction"]>) => {
        const tx = target.transaction(...args);
        if (tx.mode !== "readwrite") return tx;
        const objectStore = tx.objectStore.bind(tx);
        tx.objectStore = ((name: string) => {
          const found = objectStore(name as never);
          if (name !== store) return found;
          return new Proxy(found, {
            get: (inner, method) =>
              method === "put"
                ? () => Promise.reject(new DOMException("no room", "QuotaExceededError"))
                : typeof Reflect.get(inner, method) === "function"
                  ? (Reflect.get(inner, method) as () => unknown).bind(inner)
                  : Reflect.get(inner, method),
          });
        }) as unknown as typeof tx.objectStore;
        return tx;
      };
    },
  });
}

describe("a browser that keeps nothing more", () => {
  it.each(["projects", "steps", "meshes"] as const)(
    "whichever write is refused (%s), all stays as it was saved last, it is said, and saved once there is room",
    async (store) => {
      const browser = fakeBrowser();
      let isFull = false;
      const plain = await browser.tab();
      kill(plain);
      const tab = await browser.tab(null, {
        door: async () => (isFull ? fullIn(await plain.door(), store) : plain.door()),
      });
      await tab.desk.openNew(smallScene(), "small.json");
      lift(tab, "one");
      await tab.desk.flush();
      const kept = async () => {
        const database = await plain.door();
        return [await database.getAll("projects"), await database.getAll("steps"), await database.getAll("meshes")];
      };
      const before = await kept();
      isFull = true;
      lift(tab, "two");
      tab.store.getState().addFiles(new Map([["a.stl", new Uint8Array(4)]]));
      expect(await tab.desk.flush()).toBe(false);
      expect(tab.store.getState().saveTrouble).toMatch(/storage is full.*Save a file/);
      expect(await kept()).toEqual(before);
      expect(tab.store.getState().stepName).toBe("two");

      // leaving would lose the step: another project is not opened over it
      await tab.desk.openNew(smallScene({ title: "Other" }), "other.json");
      expect(tab.store.getState().document!.title).toBe("Small corner");
      expect(tab.desk.state.getState().note).toMatch(/not saved/);

      isFull = false;
      lift(tab, "three");
      await until(() => tab.store.getState().saveTrouble === null);
      expect(await tab.desk.flush()).toBe(true);
      expect((await (await plain.door()).getAll("steps")).map(({ stepName }) => stepName)).toEqual([
        "",
        "one",
        "two",
        "three",
      ]);
    },
  );

  it("because its disk is full: it is said so, and once there is room its log is begun anew, of which nothing stays", async () => {
    const browser = fakeBrowser();
    const plain = await browser.tab();
    kill(plain);
    let isFull = false;
    const door = async () => {
      if (isFull) throw new Error("Connection is closing because of: IO error: 000003.log: FILE_ERROR_NO_SPACE");
      return plain.door();
    };
    const tab = await browser.tab(null, { door });
    await tab.desk.openNew(smallScene(), "small.json");
    isFull = true;
    lift(tab, "one");
    expect(await tab.desk.flush()).toBe(false);
    expect(tab.store.getState().saveTrouble).toMatch(/storage is full.*Save a file/);
    isFull = false;
    const opened = vi.spyOn(indexedDB, "open");
    const deleted = vi.spyOn(indexedDB, "deleteDatabase");
    lift(tab, "two");
    expect(await tab.desk.flush()).toBe(true);
    await until(() => deleted.mock.calls.length > 0);
    expect(opened.mock.calls[0]![0]).toBe("elbowroom-fresh-log");
    const names = async () => (await indexedDB.databases()).map(({ name }) => name);
    await until(() => deleted.mock.results[0]!.value.readyState === "done");
    expect(await names()).not.toContain("elbowroom-fresh-log");
    expect((await (await plain.door()).getAll("steps")).map(({ stepName }) => stepName)).toEqual(["", "one", "two"]);
  });

  it("from the start: the page works, says so, and opening another scene is a step that can be undone", async () => {
    const browser = fakeBrowser();
    const tab = await browser.tab(null, { door: () => Promise.reject(new Error("private window")) });
    expect(tab.store.getState().saveTrouble).toContain("private window");
    await tab.desk.openNew(smallScene(), "small.json");
    lift(tab, "one");
    await tab.desk.openNew(smallScene({ title: "Other" }), "other.json");
    tab.store.getState().undo();
    expect(tab.store.getState()).toMatchObject({ stepName: "one" });
  });
});

describe("a browser that throws work away", () => {
  it("between two visits: the next one is told what there was", async () => {
    const browser = fakeBrowser();
    const tab = await browser.tab();
    await tab.desk.openNew(smallScene({ title: "Rear left" }), "rear.json");
    lift(tab);
    await tab.desk.flush();
    kill(tab);
    const evicted = fakeBrowser();
    const later = await evicted.tab(null, { mark: browser.mark });
    expect(later.found).toBe(false);
    expect(later.desk.state.getState().gone).toMatchObject({ projects: 1, title: "Rear left" });
    await later.desk.openSample(smallScene(), "1-sample.json");
    expect(browser.mark.read()).toMatchObject({ title: "Rear left" });
    later.desk.acceptGone();
    expect(later.desk.state.getState().gone).toBeNull();
    expect(browser.mark.read()).toBeNull();
  });

  it("a sample that nothing was done to is not missed", async () => {
    const browser = fakeBrowser();
    const tab = await browser.tab();
    await tab.desk.openSample(smallScene(), "1-sample.json");
    kill(tab);
    const later = await fakeBrowser().tab(null, { mark: browser.mark });
    expect(later.desk.state.getState().gone).toBeNull();
  });

  it("under an open page: the page writes its project anew, steps and all, and says what has gone", async () => {
    const browser = fakeBrowser();
    const tab = await browser.tab();
    await tab.desk.openNew(smallScene(), "small.json", new Map([["a.stl", new Uint8Array(4)]]));
    lift(tab, "one");
    tab.store.getState().setUnit("in");
    await tab.desk.flush();
    const database = await tab.door();
    for (const store of ["projects", "steps", "meshes", "settings"] as const) await database.clear(store);
    lift(tab, "two");
    expect(await tab.desk.flush()).toBe(true);
    expect(tab.desk.state.getState().gone).not.toBeNull();
    kill(tab);
    const later = await browser.tab();
    expect(later.store.getState()).toMatchObject({ stepName: "two", unit: "in" });
    expect(later.store.getState().files.size).toBe(1);
    later.store.getState().undo(2);
    expect(later.store.getState().document).toEqual(smallScene());
  });
});

describe("steps that cannot be read", () => {
  it("are left out and told; the project stands, and is whole again after the next edit", async () => {
    const browser = fakeBrowser();
    const tab = await browser.tab();
    await tab.desk.openNew(smallScene(), "small.json");
    for (let i = 1; i <= 60; i++) lift(tab, `${i}`);
    await tab.desk.flush();
    const now = tab.store.getState().document;
    const database = await tab.door();
    await database.delete("steps", [tab.id(), 3]);
    kill(tab);
    const later = await browser.tab();
    expect(later.store.getState().document).toEqual(now);
    expect(later.desk.state.getState().note).toMatch(/steps of this project could not be read/);
    lift(later, "61");
    await later.desk.flush();
    const past = later.store.temporal.getState().pastStates;
    kill(later);
    const last = await browser.tab();
    expect(last.store.temporal.getState().pastStates).toEqual(past);
    expect(last.desk.state.getState().note).toBeNull();
  });
});

describe("work of a version without projects", () => {
  it("becomes a project with its steps, its mesh files and the session, once; the old record stays", async () => {
    const old = createStore(`old ${crypto.randomUUID()}`, "work");
    const step = (title: string) => ({ document: smallScene({ title }), fileName: "small.json", stepName: title });
    const work = {
      version: 1,
      saved_ms: 1_700_000_000_000,
      now: step("Two"),
      past: [step("One")],
      future: [step("Four"), step("Three")],
    };
    await set("document", work, old);
    await set("put aside 2026-01-01T00:00:00.000Z", { ...work, now: step("Aside") }, old);
    await set("session", { unit: "in", theme: "garage", cautionsRead: true }, old);
    const browser = fakeBrowser();
    const takeOld = (database: Database, now_ms: number) => takeOldWork(database, now_ms, old);
    const tab = await browser.tab(null, { takeOld });
    expect(tab.found).toBe(true);
    expect(
      tab.desk.state
        .getState()
        .list.map(({ title }) => title)
        .sort(),
    ).toEqual(["Aside", "Two"]);
    expect(tab.store.getState()).toMatchObject({ unit: "in", theme: "garage", stepName: "Two", cautionsRead: true });
    tab.store.getState().redo(2);
    expect(tab.store.getState().document!.title).toBe("Four");
    tab.store.getState().undo(3);
    expect(tab.store.getState().document!.title).toBe("One");
    await tab.desk.flush();
    kill(tab);
    const again = await browser.tab(null, { takeOld });
    expect(again.desk.state.getState().list).toHaveLength(2);
  });
});
