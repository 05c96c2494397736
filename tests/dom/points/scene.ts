import { usePointsLook } from "../../../src/app/points/pointsStore.ts";
import { blankState } from "../../../src/app/store/blank.ts";
import { shownDocument } from "../../../src/app/store/tried.ts";
import { app } from "../../../src/app/store/useApp.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { document as fixture } from "../../buildlog/fixture.ts";

/** The fixture's corner with a bracket that hangs on the upper link's mount, and a datum of the builder's own. */
export function corner(over: Partial<SceneDocument> = {}): SceneDocument {
  return fixture(undefined, {
    datums: [{ id: "left-rail", at: [100, 300, 200] }],
    bodies: [
      {
        id: "upper-bracket",
        on: "chassis",
        shape: { kind: "box", size_mm: [10, 10, 10], at: { from: "upper.in", by: [0, 0, -20] } },
      },
    ],
    ...over,
  });
}

/** Opens a scene in a fresh store, with what the engine would resolve at once. */
export function openCorner(document: SceneDocument = corner()): void {
  app.setState({ ...blankState(), ready: true });
  app.getState().openDocument(document, "wren-rear.json");
  usePointsLook.setState({ datumId: null, meaning: null, typed: "place", list: "points", tableOpen: false });
  app.setState({ scene: resolveScene(document) });
  app.temporal.getState().clear();
}

/** What the engine does at once when the document or the tried move changes. */
export function resolveShown(): void {
  app.setState({ scene: resolveScene(shownDocument(app.getState())!) });
}
