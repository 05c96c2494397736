import { InputError } from "../scene/error.ts";
import { resolveScene } from "../scene/resolve.ts";
import { curvesTable, rollTable } from "../studies/runningGear/curvesTable.ts";
import { loadScene } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import { stepsOf } from "./numbers.ts";
import type { VerbOptions, VerbOutcome } from "./verb.ts";

/** `curves`: one row a travel and side, or one a body roll, comma-separated; empty where the scene has no such part. */
export async function runCurves(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { document } = await loadScene(path);
  const rolls = options.roll === undefined ? null : stepsOf("roll", options.roll, 45);
  try {
    const scene = resolveScene(withTravel(document, options.travel), path);
    const output = rolls ? rollTable(scene, rolls) : curvesTable(scene, options.pose ?? "rest");
    return { output, status: 0 };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}
