import { createWorkshop } from "../../work/client.ts";
import { keepSaved } from "./autosave.ts";
import { type Engine, startEngine } from "./engine.ts";
import { startPatches } from "./patchEngine.ts";
import { openSample, SAMPLES } from "./samples.ts";
import { browserStorage } from "./storage.ts";
import { app } from "./useApp.ts";

let running: Engine | null = null;

/** Brings back the saved work, or opens the first sample scene, and starts what computes. */
export async function begin(): Promise<void> {
  await keepSaved(app, browserStorage());
  const workshop = createWorkshop();
  running = startEngine(app, workshop);
  startPatches(app, workshop);
  const first = SAMPLES[0];
  if (app.getState().document === null && first) await openSample(first);
}

export function stopCheck(): void {
  running?.stopCheck();
}

export function checkAgain(): void {
  running?.checkAgain();
}
