import { describe, expect, it } from "vitest";
import { createAppStore } from "../../src/app/store/store.ts";
import { withPoint } from "../../src/scene/points.ts";
import { smallScene } from "./smallScene.ts";

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

  it("goes back and forth several steps at once", () => {
    const store = edited(30);
    store.getState().undo(12);
    expect(store.getState().stepName).toBe("upper.out 18 up");
    store.getState().redo(7);
    expect(store.getState().stepName).toBe("upper.out 25 up");
    store.getState().undo(99);
    expect(store.getState().document).toEqual(smallScene());
  });

  it("refuses every change while another tab has the project, and counts what it refused", () => {
    const store = edited(2);
    const before = store.getState().document;
    store.setState({ standing: "watched" });
    store.getState().edit("title", smallScene({ title: "Mine" }));
    store.getState().undo();
    store.getState().acceptPair("rail", "upper", "meant to touch");
    store.getState().addFiles(new Map([["a.stl", new Uint8Array(1)]]));
    expect(store.getState().document).toBe(before);
    expect(store.getState().files.size).toBe(0);
    expect(store.getState().refusedEdits).toBe(4);
  });
});
