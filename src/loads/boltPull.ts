import { compileCorner, solveCorner } from "../kinematics/corner.ts";
import { boltReader } from "../kinematics/jointTilt.ts";
import type { Scene, Side } from "../scene/scene.ts";
import { boltShare } from "./boltAxis.ts";
import type { LoadedAt, LoadedState } from "./runLoads.ts";

/** How a joint is pulled against its bolt, in the state that pulls it most along the bolt. */
export interface BoltPull {
  readonly joint: string;
  /** Shear planes as the scene tells them of the joint's bolt: 1 overhung, 2 held on both sides; null: not told. */
  readonly planes: number | null;
  readonly along_N: number;
  readonly across_N: number;
  /** Between pull and bolt, 0 to 90: 90 is square to it, all shear. */
  readonly angle_deg: number;
  readonly at: LoadedAt;
}

/** Of every joint that the scene's joints tell of and that passes a force in these states of one side. */
export function boltPulls(scene: Scene, side: Side, states: readonly LoadedState[]): BoltPull[] {
  const corner = compileCorner(scene, side);
  const carriers = new Map<number, Float64Array>();
  const carrierAt = (travel_mm: number): Float64Array => {
    const carrier = carriers.get(travel_mm) ?? solveCorner(corner, travel_mm).pose;
    carriers.set(travel_mm, carrier);
    return carrier;
  };
  return scene.joints.flatMap((fit): BoltPull[] => {
    const bolt = boltReader(corner, fit);
    const planes = scene.loads.bolts.find(({ joint }) => joint === fit.joint)?.planes ?? null;
    let worst: BoltPull | null = null;
    for (const { at, loads } of states) {
      const force = loads.joints.find(({ id }) => id === fit.joint)?.force_N;
      if (!force) continue;
      const { along_N, across_N } = boltShare(force, bolt(carrierAt(at.travel_mm)), side);
      if (worst && along_N <= worst.along_N) continue;
      const angle_deg = (Math.atan2(across_N, along_N) * 180) / Math.PI;
      worst = { joint: fit.joint, planes, along_N, across_N, angle_deg, at };
    }
    return worst ? [worst] : [];
  });
}
