import type { Scene } from "../../scene/scene.ts";
import type { LoadsRun } from "../runLoads.ts";
import type { ScreenRow, UnknownRow } from "./finding.ts";
import { screenBars } from "./screenBars.ts";
import { screenJoints } from "./screenJoints.ts";
import { unknownsOf } from "./unknowns.ts";

export interface Screening {
  /** Worst first. */
  readonly rows: readonly ScreenRow[];
  readonly unknown: readonly UnknownRow[];
}

/** What no row of the screening sees. */
export const NOT_COVERED =
  "fatigue, dents and wear, plates and thin walls that buckle, notches and heat of welding, crash, and the brakes themselves";

export const SCREENING_CAUTION = "A reason to stop or to go on to a competent engineer, not a licence to drive.";

/** Everything that the scene gives sizes for, at its worst over all sides, cases and travels of the run. Never an approval. */
export function screen(scene: Scene, run: LoadsRun): Screening {
  const states = run.sides.flatMap((side) => side.states);
  const rows = [...screenBars(scene, states), ...screenJoints(scene, states)];
  return { rows: rows.sort((a, b) => a.factor - b.factor), unknown: unknownsOf(scene, states) };
}
