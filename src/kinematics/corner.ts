import { POSE_SIZE, type Pose } from "../maths/pose.ts";
import { InputError } from "../scene/error.ts";
import type { Scene, Side } from "../scene/scene.ts";
import { barLocks } from "./antiRollBar.ts";
import { CarrierEquations, EQUATION_COUNT, FREEDOM_COUNT } from "./equations.ts";
import { describeMovement, freeMovement } from "./looseness.ts";
import { carrierRider, memberRider, type Rider } from "./rider.ts";
import { CarrierSolver, type SolveOutcome } from "./solver.ts";

/**
 * One corner made ready for solving. It is written and solved in the left frame for either side; `side` says which
 * inner shaft joint it takes and how its poses are handed out. Holds a workspace: one corner, one thread.
 */
export interface Corner {
  readonly scene: Scene;
  readonly side: Side;
  readonly solver: CarrierSolver;
  /** The carrier at ride height in the left frame: identity unless mounts were moved with every part keeping its length. */
  readonly ridePose: Pose;
  /** How "carrier" or a member moves. Throws InputError "missing-id" for any other name. */
  rider(on: string): Rider;
}

/**
 * Throws InputError: "constraints" when the members do not take five freedoms, "still-moves" when they do but leave the
 * wheel loose at its height (or fix its height), "zero-length" for a member without extent, "out-of-reach" when the parts
 * or the anti-roll bar's drop link cannot follow the mounts to where they were moved.
 */
export function compileCorner(scene: Scene, side: Side): Corner {
  const equations = new CarrierEquations(scene);
  requireHeld(equations);
  const solver = new CarrierSolver(equations);
  const reached = solver.boltUp();
  if (reached < 1) {
    throw new InputError(
      "out-of-reach",
      { path: "points" },
      `the parts keep their lengths and lock after ${Math.floor(reached * 100)} % of the way to the moved mounts`,
      "mounts that the parts can reach, or parts cut to suit",
    );
  }
  const ridePose = new Float64Array(POSE_SIZE);
  solver.writePose(ridePose);
  const corner = { scene, side, solver, ridePose, rider: ridersOf(scene) };
  if (barLocks(corner, ridePose)) {
    throw new InputError(
      "out-of-reach",
      { path: "antiRollBar" },
      "the drop link keeps its length and does not reach its pickup where the mounts were moved to",
      "mounts that it can reach, or a drop link cut to suit",
    );
  }
  return corner;
}

function ridersOf(scene: Scene): (on: string) => Rider {
  const { centre } = scene.wheel;
  const riders = new Map([["carrier", carrierRider(centre)]]);
  for (const [index, member] of scene.members.entries())
    riders.set(member.id, memberRider(member, centre, `members[${index}]`));
  return (on) => {
    const rider = riders.get(on);
    if (rider) return rider;
    const wanted = `one of ${[...riders.keys()].join(", ")}`;
    throw new InputError("missing-id", { path: "members" }, `nothing on the corner is called "${on}"`, wanted);
  };
}

/** Solves one travel from ride height by continuation. */
export function solveCorner(corner: Corner, travel_mm: number): SolveOutcome {
  return corner.solver.solve(travel_mm);
}

function requireHeld(equations: CarrierEquations): void {
  const jacobian = new Float64Array(EQUATION_COUNT * FREEDOM_COUNT);
  const upright = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
  const centre = Float64Array.from(equations.wheelCentre);
  equations.evaluate(upright, centre, new Float64Array(EQUATION_COUNT), jacobian);
  const movement = freeMovement(jacobian, equations.wheelCentre);
  if (!movement) return;
  throw new InputError(
    "still-moves",
    { path: "members" },
    `the members take five freedoms, yet at ride height the wheel can still ${describeMovement(movement)}`,
    "members that hold this movement and leave the travel free",
  );
}
