import { drawnPart } from "../../scene/aside.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { withBoltedUp, withPoint } from "../../scene/points.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Scene } from "../../scene/scene.ts";
import type { AppState, TriedMove } from "./state.ts";

/** The document as it would be if the move were kept. */
export function withTried(document: SceneDocument, tried: TriedMove): SceneDocument {
  return tried.meaning === "cut"
    ? withPoint(document, tried.point, tried.to)
    : withBoltedUp(document, tried.point, tried.to);
}

let last: { document: SceneDocument; tried: TriedMove; shown: SceneDocument } | null = null;

type Shown = Pick<AppState, "document" | "tried"> & Partial<Pick<AppState, "triedEdit">>;

/** The document that is shown: the tried move or edit applied. The same inputs give the same object. */
export function shownDocument({ document, tried, triedEdit = null }: Shown): SceneDocument | null {
  if (document && triedEdit) return triedEdit.document;
  if (!document || !tried) return document;
  if (last?.document !== document || last.tried !== tried) {
    last = { document, tried, shown: withTried(document, tried) };
  }
  return last.shown;
}

/** What is drawn and checked of the shown document: measures and loads change nothing of it. */
export function drawnDocument(state: Shown): SceneDocument | null {
  const shown = shownDocument(state);
  return shown && drawnPart(shown);
}

const resolved = new WeakMap<SceneDocument, Scene>();

/** The kept document's scene while a move is tried; null while none is. */
export function keptScene({
  document,
  tried,
  fileName,
}: Pick<AppState, "document" | "tried" | "fileName">): Scene | null {
  return document && tried ? keptSceneOf(document, fileName) : null;
}

/** The document's own scene, whatever is tried; the same document gives the same object. Throws InputError. */
export function keptSceneOf(document: SceneDocument, fileName = ""): Scene {
  let scene = resolved.get(document);
  if (!scene) {
    scene = resolveScene(document, fileName);
    resolved.set(document, scene);
  }
  return scene;
}
