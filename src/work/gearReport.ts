import { limitsOf } from "../check/limits.ts";
import type { LimitVerdict } from "../check/result.ts";
import { runSides } from "../check/tracks.ts";
import { type RollState, rollAxle } from "../kinematics/roll.ts";
import { type BoltPull, boltPulls } from "../loads/boltPull.ts";
import { casesOf } from "../loads/cases.ts";
import { runLoads } from "../loads/runLoads.ts";
import type { Scene, Side } from "../scene/scene.ts";
import { type JointsStudy, jointsStudy } from "../studies/runningGear/joints.ts";
import { type ShaftStudy, shaftStudy } from "../studies/runningGear/shaft.ts";
import { type SpringStudy, springStudy } from "../studies/runningGear/spring.ts";
import { type TravelEnds, travelEnds } from "../studies/runningGear/travelEnds.ts";

/** Driveshaft, damper, spring, bar and joints of one side over the travel. */
export interface SideGear {
  readonly side: Side;
  /** null: the scene has no driveshaft. */
  readonly shaft: ShaftStudy | null;
  readonly spring: SpringStudy;
  readonly ends: TravelEnds;
  readonly joints: JointsStudy;
  /** null where the scene does not tell what the forces hang on. */
  readonly pulls: readonly BoltPull[] | null;
  /** Every limit that the scene states, as the check judges them. */
  readonly limits: readonly LimitVerdict[];
}

export interface GearReport {
  readonly sides: readonly SideGear[];
  /** The axle at whole degrees of roll from 0, as far as its wheels reach. */
  readonly roll: readonly RollState[];
}

/** Rolls of the table: a road car's body leans by less in any bend (common practice, no source). */
const ROLLS_deg = [0, 1, 2, 3, 4, 5];

/** What there is to tell of the running gear. `spare_mm`: plunge wanted at each end of the driveshafts. Throws InputError as runLoads does. */
export function gearReport(scene: Scene, spare_mm: number): GearReport {
  const runs = runSides(scene);
  const pulls = pullsOf(scene);
  return {
    sides: runs.map((run) => ({
      side: run.side,
      shaft: shaftStudy(scene, run, spare_mm),
      spring: springStudy(scene, run),
      ends: travelEnds(scene, run.side),
      joints: jointsStudy(scene, run),
      pulls: pulls?.filter(({ at }) => at.side === run.side) ?? null,
      limits: limitsOf(scene, run, scene.powertrain.poses),
    })),
    roll: ROLLS_deg.flatMap((roll_deg) => rollAxle(runs[0]!.corner, roll_deg) ?? []),
  };
}

function pullsOf(scene: Scene): BoltPull[] | null {
  const { damper, joints, loads, sides } = scene;
  const isWeighed = sides.every((side) => loads.cornerMass_kg[side] !== null);
  const countsStatic = casesOf(scene).some(({ timesStatic }) => timesStatic.some((times) => times !== 0));
  if (!damper || joints.length === 0 || (countsStatic && !isWeighed)) return null;
  return runLoads(scene).sides.flatMap(({ side, states }) => boltPulls(scene, side, states));
}
