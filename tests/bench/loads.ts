import { LuDecomposition } from "ml-matrix";
import { compileCorner } from "../../src/kinematics/corner.ts";
import { runTravel } from "../../src/kinematics/travel.ts";
import { casesOf, torqueOf, wheelForce_N } from "../../src/loads/cases.ts";
import { runLoads } from "../../src/loads/runLoads.ts";
import { screen } from "../../src/loads/screen/screen.ts";
import { standCorner } from "../../src/loads/stand.ts";
import { worstLoads } from "../../src/loads/worst.ts";
import { poseOfTrack } from "../../src/maths/pose.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { FreeBodies } from "../loads/freeBodies.ts";
import { SCENE_FILES } from "../scenes/files.ts";
import { figure, runRounds, tableLines } from "./rounds.ts";

type Say = (line: string) => void;

const ROUNDS = 7;
/** Each job so often in one round: the processor's clock ticks coarsely. */
const REPEATS = 5;

/**
 * Each scene's cases (the usual ones where it has none) at every step of its travel on both sides: everything that the verb
 * `loads` works out, and the equations alone beside the same parts' equations put down one by one and solved by ml-matrix.
 */
export async function benchLoads(say: Say): Promise<void> {
  const rows = [
    ["scene", "states", "all, ms", "equations, ms", "ml-matrix, ms", "ml-matrix / ours", "worst left over, N"],
  ];
  for (const { name, scene: drawn } of SCENE_FILES) {
    const scene: Scene = { ...drawn, loads: { ...drawn.loads, cornerMass_kg: { left: 285, right: 270 } } };
    const run = runLoads(scene);
    const states = run.sides.reduce((sum, side) => sum + side.states.length, 0);
    const times = (job: () => void) => () => {
      for (let i = 0; i < REPEATS; i++) job();
    };
    const spent = await runRounds(
      [
        { name: "all", run: times(() => everything(scene)) },
        { name: "ours", run: times(() => equations(scene, ours)) },
        { name: "theirs", run: times(() => equations(scene, theirs)) },
      ],
      ROUNDS,
    );
    const of = (job: string) => spent.get(job)!.median / REPEATS;
    const [all, own, other] = [of("all"), of("ours"), of("theirs")];
    rows.push([
      name.replace(/\.json$/, ""),
      String(states),
      figure(all),
      figure(own),
      figure(other),
      figure(other / own),
      run.residual_N.toExponential(1),
    ]);
  }
  tableLines(rows).forEach(say);
}

function everything(scene: Scene): void {
  const run = runLoads(scene);
  worstLoads(run.sides.flatMap(({ states }) => states));
  screen(scene, run);
}

type Solve = (scene: Scene, knots: ReturnType<typeof knotsOf>) => void;

function equations(scene: Scene, solve: Solve): void {
  solve(scene, knotsOf(scene));
}

/** The travels of both sides, and the cases; a torque through a shaft is taken along the spin axis, as the peer does. */
function knotsOf(scene: Scene) {
  const bare = { ...scene, driveshaft: null };
  return scene.sides.map((side) => {
    const corner = compileCorner(bare, side);
    const run = runTravel(corner, scene.travel);
    const loads = casesOf(scene).map((one) => {
      const force_N = wheelForce_N(one, scene, side);
      return { force_N, torque: torqueOf(one, scene, force_N), dropLink_N: 0 };
    });
    return { corner, run, loads };
  });
}

function ours(_: Scene, sides: ReturnType<typeof knotsOf>): void {
  for (const { corner, run, loads } of sides) {
    for (let knot = 0; knot < run.travel_mm.length; knot++) {
      const stand = standCorner(corner, poseOfTrack(run.carrier, knot));
      for (const load of loads) stand?.balance(load);
    }
  }
}

function theirs(scene: Scene, sides: ReturnType<typeof knotsOf>): void {
  for (const { corner, run, loads } of sides) {
    for (let knot = 0; knot < run.travel_mm.length; knot++) {
      const system = new FreeBodies(corner, poseOfTrack(run.carrier, knot), scene.wheel.centre);
      const factors = new LuDecomposition(system.matrix);
      for (const load of loads) system.forces(factors.solve(system.rightSide(load)));
    }
  }
}
