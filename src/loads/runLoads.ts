import { type Corner, compileCorner } from "../kinematics/corner.ts";
import { powertrainPose } from "../kinematics/powertrain.ts";
import { runTravel } from "../kinematics/travel.ts";
import { poseOfTrack } from "../maths/pose.ts";
import type { Vec3 } from "../maths/vec3.ts";
import type { LoadCase } from "../scene/loadRecords.ts";
import type { Scene, Side } from "../scene/scene.ts";
import { barTorque_Nmm, casesOf, dropLink_N, staticLoad_N, torqueOf, wheelForce_N } from "./cases.ts";
import type { CornerLoads, TorquePath } from "./forces.ts";
import { standCorner } from "./stand.ts";

/** Which state a value belongs to. */
export interface LoadedAt {
  readonly side: Side;
  readonly case: string;
  readonly travel_mm: number;
}

export interface LoadedState {
  readonly at: LoadedAt;
  readonly loads: CornerLoads;
}

/** One case as it falls on one wheel. */
export interface CaseOnSide {
  readonly id: string;
  readonly force_N: Vec3;
  readonly torque: TorquePath;
  readonly roll_deg: number;
}

export interface SideLoads {
  readonly side: Side;
  readonly static_N: number | null;
  readonly cases: readonly CaseOnSide[];
  /** Ascending travel, in each every case in order. */
  readonly states: readonly LoadedState[];
  readonly bindsAt_mm: number | null;
  /** Travels at which the damper has no lever on the wheel: no finite force holds it there. */
  readonly withoutLever_mm: readonly number[];
}

export interface LoadsRun {
  readonly usualCases: boolean;
  readonly pose: string;
  readonly sides: readonly SideLoads[];
  /** The worst of all states. */
  readonly residual_N: number;
  readonly residual_Nmm: number;
}

/**
 * All load cases at whole steps of the travel, on every side, with the powertrain in one pose. Throws InputError for a
 * scene without damper, a case that needs a mass or a roll that is not there, an unknown pose, and as compileCorner does.
 */
export function runLoads(scene: Scene, poseId = "rest"): LoadsRun {
  const cases = casesOf(scene);
  // refuses a pose that the scene does not have, even where no shaft asks for it
  powertrainPose(scene, poseId);
  const corners = scene.sides.map((side) => compileCorner(scene, side));
  // the carrier is solved in the left frame for either side
  const run = corners[0] && runTravel(corners[0], scene.travel);
  const sides = run ? corners.map((corner) => loadSide(corner, run, cases, poseId)) : [];
  const states = sides.flatMap((side) => side.states);
  return {
    usualCases: scene.loads.cases === null,
    pose: poseId,
    sides,
    residual_N: states.reduce((worst, { loads }) => Math.max(worst, loads.residual_N), 0),
    residual_Nmm: states.reduce((worst, { loads }) => Math.max(worst, loads.residual_Nmm), 0),
  };
}

function loadSide(
  corner: Corner,
  run: ReturnType<typeof runTravel>,
  cases: readonly LoadCase[],
  poseId: string,
): SideLoads {
  const { scene, side } = corner;
  const onSide = cases.map((one): CaseOnSide => {
    const force_N = wheelForce_N(one, scene, side);
    return { id: one.id, force_N, torque: torqueOf(one, scene, force_N), roll_deg: one.roll_deg };
  });
  const barTorques = cases.map(({ roll_deg }) => barTorque_Nmm(corner, roll_deg));
  const states: LoadedState[] = [];
  const withoutLever_mm: number[] = [];
  for (const [knot, travel_mm] of run.travel_mm.entries()) {
    const carrier = poseOfTrack(run.carrier, knot);
    const stand = standCorner(corner, carrier, poseId);
    if (!stand) {
      withoutLever_mm.push(travel_mm);
      continue;
    }
    for (const [i, { id, force_N, torque }] of onSide.entries()) {
      const loads = stand.balance({ force_N, torque, dropLink_N: dropLink_N(corner, carrier, barTorques[i]!) });
      states.push({ at: { side, case: id, travel_mm }, loads });
    }
  }
  return {
    side,
    static_N: staticLoad_N(scene, side),
    cases: onSide,
    states,
    bindsAt_mm: run.bindsAt_mm,
    withoutLever_mm,
  };
}
