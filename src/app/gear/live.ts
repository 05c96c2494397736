import { type BarReading, readBar } from "../../kinematics/antiRollBar.ts";
import { solveCorner } from "../../kinematics/corner.ts";
import { type Derivatives, derivativesAt } from "../../kinematics/derivatives.ts";
import { type Readings, readCorner } from "../../kinematics/readings.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import { itsLoads } from "../loads/shownLoads.ts";
import { liveCorner } from "../store/corners.ts";

/** Where one wheel and the engine are shown. */
export interface ShownAt {
  readonly travel_mm: number;
  readonly pose: string;
  readonly share: number;
}

/** One wheel's readings as it is shown; solved on the main thread in microseconds. */
export function readingsHere(scene: Scene, side: Side, { travel_mm, pose, share }: ShownAt): Readings {
  const { corner } = liveCorner(scene, side);
  return readCorner(corner, solveCorner(corner, travel_mm).pose, pose, share);
}

export function barHere(scene: Scene, side: Side, travel_mm: number): BarReading | null {
  const { corner } = liveCorner(scene, side);
  return readBar(corner, solveCorner(corner, travel_mm).pose);
}

/** `full`: the shown scene with what is set aside of it (fullScene). */
export function derivativesHere(full: Scene, scene: Scene, side: Side, travel_mm: number): Derivatives {
  const corner = { ...liveCorner(scene, side).corner, scene: full };
  return derivativesAt(corner, solveCorner(corner, travel_mm).pose);
}

/** The shown scene with the records that what is drawn leaves out. Throws InputError for loads that cannot be. */
export function fullScene(scene: Scene, document: SceneDocument): Scene {
  const { vehicle } = document;
  return {
    ...scene,
    loads: itsLoads(document),
    vehicle: vehicle ? { ...vehicle, rearBrakeShare: vehicle.rearBrakeShare ?? null } : null,
  };
}
