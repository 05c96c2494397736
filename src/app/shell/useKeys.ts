import { useEffect } from "react";
import { stepChosen } from "../corner/stepChosen.ts";
import { saveSceneFile } from "../files/sceneFiles.ts";
import { isMeasuring, takeBack } from "../measure/measuring.ts";
import { toggleFree } from "../points/drag/dragStore.ts";
import type { App } from "../store/actions.ts";
import { canMakeCard } from "../store/canMakeCard.ts";
import type { Stand } from "../store/state.ts";
import { app } from "../store/useApp.ts";
import { closeTools, toggleTool, useTools } from "../tools/toolsStore.ts";
import { travelStep_mm } from "../words/travelStep.ts";
import { keepTriedMove } from "./keepTriedMove.ts";
import { showKeys } from "./keys.ts";

const STANDS: readonly Stand[] = ["behind", "left", "right", "above"];

type Act = (state: App, event: KeyboardEvent) => unknown;

const ACTS: Readonly<Record<string, Act>> = {
  ArrowUp: (state, event) => state.stepTravel(travelStep_mm(state.unit) * (event.shiftKey ? 10 : 1)),
  ArrowDown: (state, event) => state.stepTravel(-travelStep_mm(state.unit) * (event.shiftKey ? 10 : 1)),
  Home: (state) => state.setTravel("left", 0),
  "[": () => stepChosen(-1),
  "]": () => stepChosen(1),
  ",": (state) => state.stepPose(-1),
  ".": (state) => state.stepPose(1),
  f: (state) => isDraggable(state) && toggleFree("forward"),
  o: (state) => isDraggable(state) && toggleFree("out"),
  u: (state) => isDraggable(state) && toggleFree("up"),
  g: (state) => state.toggleGlassHeld(),
  s: (state) => canMakeCard(state) && state.setCardOpen(true),
  Enter: (state, event) => !isPressed(event) && keepTriedMove(state),
  m: () => toggleTool("measure"),
  c: () => toggleTool("section"),
  h: () => toggleTool("ghosts"),
  e: () => toggleTool("envelope"),
  l: () => toggleTool("loads"),
  r: () => toggleTool("gear"),
  t: () => toggleTool("studies"),
  Escape: (state) => {
    if (isMeasuring() && takeBack()) return;
    if (useTools.getState().open !== null) closeTools();
    else if (state.tried || state.triedEdit) state.putBack();
    else state.choosePair(null);
  },
};

/** The app's keys. They sleep while a field has the focus, while a dialog or menu is open, and where a control has used the press. */
export function useKeys(): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.altKey) return;
      if (isSave(event)) {
        // the browser's own would save the page, which is nothing to come back to
        event.preventDefault();
        void saveSceneFile();
        return;
      }
      if (isAsleep(event)) return;
      if (event.ctrlKey || event.metaKey) {
        undoKeys(event);
        return;
      }
      if (event.key === "?") {
        event.preventDefault();
        showKeys();
        return;
      }
      const stand = STANDS[Number(event.key) - 1];
      const act = stand
        ? (state: App) => state.setStand(stand)
        : ACTS[event.key.length === 1 ? event.key.toLowerCase() : event.key];
      if (!act || app.getState().document === null) return;
      if (event.key !== "Enter") event.preventDefault();
      act(app.getState(), event);
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, []);
}

function isSave(event: KeyboardEvent): boolean {
  return (event.ctrlKey || event.metaKey) && !event.shiftKey && event.key.toLowerCase() === "s";
}

function undoKeys(event: KeyboardEvent): void {
  if (event.key.toLowerCase() !== "z") return;
  event.preventDefault();
  if (event.shiftKey) app.getState().redo();
  else app.getState().undo();
}

function isDraggable(state: App): boolean {
  return state.place === "points" && state.heldPoint !== null;
}

/** Enter on a button presses that button. */
function isPressed({ target }: KeyboardEvent): boolean {
  return target instanceof Element && target.closest("button, a, [role=slider]") !== null;
}

function isAsleep(event: KeyboardEvent): boolean {
  const target = event.target;
  if (!(target instanceof Element)) return false;
  if (target.closest('input, textarea, select, [contenteditable="true"]')) return true;
  return document.querySelector('[role="dialog"], [role="alertdialog"], [role="menu"]') !== null;
}
