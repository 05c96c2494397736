import { afterEach, describe, expect, it, vi } from "vitest";
import { keepSaved } from "../../src/app/store/autosave.ts";
import type { Saved, Storage } from "../../src/app/store/storage.ts";
import { createAppStore } from "../../src/app/store/store.ts";
import { withPoint } from "../../src/scene/points.ts";
import { smallScene } from "./smallScene.ts";

/** A browser's storage in memory: what was saved is a copy, as a database keeps it. */
function memory(): Storage & { kept: Saved } {
  const storage = {
    kept: { work: null, session: {}, files: new Map() } as Saved,
    read: async () => structuredClone(storage.kept),
    saveWork: async (work: Saved["work"]) => {
      storage.kept = { ...storage.kept, work: structuredClone(work) };
    },
    saveSession: async (session: Saved["session"]) => {
      storage.kept = { ...storage.kept, session };
    },
    saveFiles: async (files: Saved["files"]) => {
      storage.kept = { ...storage.kept, files: structuredClone(files) };
    },
  };
  return storage;
}

function edited(times: number) {
  const store = createAppStore();
  store.getState().openDocument(smallScene(), "small.json");
  for (let i = 1; i <= times; i++) {
    const document = store.getState().document!;
    const [x, y, z] = document.points["upper.out"] as [number, number, number];
    store.getState().edit(`upper.out ${i} up`, withPoint(document, "upper.out", [x, y, z + 0.1]));
  }
  return store;
}

afterEach(() => vi.useRealTimers());

describe("undo", () => {
  it("twenty edits and twenty undos give the original points exactly", () => {
    const store = edited(20);
    for (let i = 0; i < 20; i++) store.getState().undo();
    expect(store.getState().document).toEqual(smallScene());
    store.getState().undo();
    expect(store.getState().document).toEqual(smallScene());
  });

  it("has no limit, and every step its name", () => {
    const store = edited(500);
    expect(store.getState().stepName).toBe("upper.out 500 up");
    store.getState().undo();
    expect(store.getState().stepName).toBe("upper.out 499 up");
    expect(store.temporal.getState().futureStates.at(-1)?.stepName).toBe("upper.out 500 up");
    store.getState().redo();
    expect(store.getState().stepName).toBe("upper.out 500 up");
  });

  it("leaves the look at the car alone", () => {
    const store = edited(1);
    store.getState().setUnit("in");
    store.getState().setShow("arms", "glass");
    store.getState().undo();
    expect(store.getState().unit).toBe("in");
    expect(store.getState().show.arms).toBe("glass");
  });

  it("opening another scene is a step: undoing it brings the edited one back", () => {
    const store = edited(3);
    const mine = store.getState().document;
    store.getState().openDocument(smallScene({ title: "Another" }), "another.json");
    expect(store.getState().stepName).toBe("open Another");
    store.getState().undo();
    expect(store.getState().document).toBe(mine);
    expect(store.getState().fileName).toBe("small.json");
  });

  it("a new edit after undoing forgets what was undone", () => {
    const store = edited(2);
    store.getState().undo();
    store.getState().edit("title", { ...store.getState().document!, title: "New" });
    store.getState().redo();
    expect(store.getState().document!.title).toBe("New");
  });

  it("a tried move is no step until it is kept", () => {
    const store = edited(1);
    const before = store.getState().document;
    store.getState().tryMove({ point: "toe.in", to: [-150, 330, 231], meaning: "cut" });
    expect(store.getState().document).toBe(before);
    store.getState().putBack();
    expect(store.temporal.getState().pastStates).toHaveLength(1);
    store.getState().tryMove({ point: "toe.in", to: [-150, 330, 231], meaning: "cut" });
    store.getState().keepMove("toe.in 6 up");
    expect(store.getState().document!.points["toe.in"]).toEqual([-150, 330, 231]);
    expect(store.temporal.getState().pastStates).toHaveLength(2);
  });
});

describe("a reload", () => {
  it("loses neither the document nor the steps before and after it", async () => {
    vi.useFakeTimers();
    const storage = memory();
    const first = createAppStore();
    await keepSaved(first, storage);
    first.getState().openDocument(smallScene(), "small.json");
    for (const title of ["One", "Two", "Three"]) first.getState().edit(`title ${title}`, smallScene({ title }));
    first.getState().undo();
    first.getState().setTheme("garage");
    await vi.advanceTimersByTimeAsync(1000);

    const second = createAppStore();
    await keepSaved(second, storage);
    expect(second.getState().document!.title).toBe("Two");
    expect(second.getState().theme).toBe("garage");
    expect(second.getState().stepName).toBe("title Two");
    second.getState().redo();
    expect(second.getState().document!.title).toBe("Three");
    for (let i = 0; i < 3; i++) second.getState().undo();
    expect(second.getState().document).toEqual(smallScene());
  });

  it("says when it was saved, and says in place why it is not", async () => {
    vi.useFakeTimers({ now: new Date(2026, 0, 5, 14, 2) });
    const storage = memory();
    const store = createAppStore();
    await keepSaved(store, storage);
    store.getState().openDocument(smallScene(), "small.json");
    await vi.advanceTimersByTimeAsync(1000);
    expect(new Date(store.getState().saved_ms!).getHours()).toBe(14);

    storage.saveWork = async () => {
      throw new DOMException("no room", "QuotaExceededError");
    };
    store.getState().edit("title", smallScene({ title: "Later" }));
    await vi.advanceTimersByTimeAsync(1000);
    expect(store.getState().saveTrouble).toContain("storage is full");
    expect(store.getState().document!.title).toBe("Later");
  });

  it("starts clean where the storage cannot be read, and says so", async () => {
    const storage = memory();
    storage.read = async () => {
      throw new Error("private window");
    };
    const store = createAppStore();
    await keepSaved(store, storage);
    expect(store.getState().ready).toBe(true);
    expect(store.getState().saveTrouble).toContain("private window");
  });
});
