import type { TemporalState } from "zundo";
import { t } from "../text/text.ts";
import { nameWithin } from "../words/names.ts";
import { withAccepted, withoutAccepted } from "./accept.ts";
import type { DocumentActions, GetApp, SetApp } from "./actions.ts";
import type { DocumentState } from "./state.ts";
import { withTried } from "./tried.ts";

type History = () => TemporalState<DocumentState>;

/** What belonged to the look at the former document. */
const LET_GO = { tried: null, triedEdit: null, resultBefore: null } as const;
const OTHER_SCENE = {
  ...LET_GO,
  heldPart: null,
  heldPoint: null,
  glassParts: [],
  chosenPair: null,
  travel_mm: { left: 0, right: 0 },
  pose: "rest",
  result: null,
  bodies: [],
  scene: null,
  stale: false,
  trailing: false,
  partial: false,
} as const;

export function documentActions(set: SetApp, get: GetApp, history: History): DocumentActions {
  /** Undoing past the opening of a scene comes back to another one: nothing of the look at this one carries over. */
  const through = (step: () => void): void => {
    const before = get().fileName;
    step();
    set(get().fileName === before ? LET_GO : OTHER_SCENE);
  };
  /** A project that another tab has is looked at here, not changed. */
  const mayEdit = (): boolean => {
    if (get().standing === "mine") return true;
    set({ refusedEdits: get().refusedEdits + 1 });
    return false;
  };
  return {
    openDocument(document, fileName, files = new Map()) {
      if (!mayEdit()) return;
      const first = get().document === null;
      if (first) history().pause();
      const stepName = first ? "" : t("store.steps.open", { title: document.title || fileName });
      set({ ...OTHER_SCENE, document, fileName, stepName, files: new Map([...get().files, ...files]) });
      if (first) history().resume();
    },
    showDocument(step, files, look) {
      set({ ...(look === "keep" ? LET_GO : OTHER_SCENE), ...step, files });
    },
    addFiles(files) {
      if (mayEdit()) set({ files: new Map([...get().files, ...files]) });
    },
    edit(stepName, document) {
      if (mayEdit()) set({ ...LET_GO, document, stepName });
    },
    bringIn(stepName, document, files) {
      if (mayEdit()) set({ ...LET_GO, document, stepName, files: new Map([...get().files, ...files]) });
    },
    editAside(stepName, change) {
      const { document, triedEdit } = get();
      if (!document || !mayEdit()) return;
      const tried = triedEdit && { ...triedEdit, document: change(triedEdit.document) };
      set({ document: change(document), triedEdit: tried, stepName });
    },
    undo(steps = 1) {
      if (history().pastStates.length > 0 && mayEdit()) through(() => history().undo(steps));
    },
    redo(steps = 1) {
      if (history().futureStates.length > 0 && mayEdit()) through(() => history().redo(steps));
    },
    tryMove(tried) {
      set({ tried, triedEdit: null });
    },
    tryEdit(triedEdit) {
      set({ triedEdit, tried: null });
    },
    keepEdit() {
      const { triedEdit } = get();
      if (triedEdit && mayEdit()) set({ ...LET_GO, document: triedEdit.document, stepName: triedEdit.stepName });
    },
    keepMove(stepName) {
      const { document, tried } = get();
      if (document && tried && mayEdit()) set({ ...LET_GO, document: withTried(document, tried), stepName });
    },
    putBack() {
      set(LET_GO);
    },
    acceptPair(a, b, why) {
      const { document, scene } = get();
      if (!document || !mayEdit()) return;
      const stepName = t("store.steps.leaveOut", { a: nameWithin(a, scene), b: nameWithin(b, scene) });
      set({ ...LET_GO, chosenPair: null, document: withAccepted(document, a, b, why), stepName });
    },
    countPair(a, b) {
      const { document, scene } = get();
      if (!document || !mayEdit()) return;
      const stepName = t("store.steps.count", { a: nameWithin(a, scene), b: nameWithin(b, scene) });
      set({ ...LET_GO, document: withoutAccepted(document, a, b), stepName });
    },
  };
}
