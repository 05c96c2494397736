import type { Scene } from "../scene/scene.ts";
import { type LoadsRun, runLoads, type SideLoads } from "./runLoads.ts";
import { type Screening, screen } from "./screen/screen.ts";
import { type WorstLoad, worstLoads } from "./worst.ts";

export interface SideReport extends Omit<SideLoads, "states"> {
  readonly worst: readonly WorstLoad[];
}

/** What is told of a run without its states, which are many. */
export interface LoadsReport extends Omit<LoadsRun, "sides"> {
  readonly sides: readonly SideReport[];
  readonly screening: Screening;
}

/** All cases over the travel, the worst of every part of each side, and the screening. Throws InputError as runLoads does. */
export function reportLoads(scene: Scene, poseId: string): LoadsReport {
  const { sides, ...run } = runLoads(scene, poseId);
  return {
    ...run,
    sides: sides.map(({ states, ...side }) => ({ ...side, worst: worstLoads(states) })),
    screening: screen(scene, { ...run, sides }),
  };
}
