import type { JointExcuse, Rock, SweepPair, SweepVariant } from "../clearance/types.ts";
import { type Joint, listJoints } from "../kinematics/joints.ts";
import { mirror, type Vec3 } from "../maths/vec3.ts";
import type { PowertrainPose, Scene, Side } from "../scene/scene.ts";
import type { ModelBody } from "./model.ts";
import { canMeet, requiredClearance, rigidCluster } from "./pairRules.ts";
import { rocksOf } from "./rock.ts";
import { credibleRange, type SideRun, type Tracks, tracksOf } from "./tracks.ts";

/** One pair of bodies to sweep, with what the verdict needs to know of it. */
export interface PlannedPair {
  readonly side: Side | "both";
  readonly first: ModelBody;
  readonly second: ModelBody;
  /** A part of one corner against a bracket of the other side. */
  readonly acrossCar: boolean;
  readonly sweep: SweepPair;
}

/**
 * Every pair that is checked: bodies of one corner among themselves and against all that stands on chassis and powertrain
 * (the other side's brackets too), and chassis against powertrain once. The two corners are not held against each other.
 */
export function planPairs(
  scene: Scene,
  bodies: readonly ModelBody[],
  runs: readonly SideRun[],
  poses: readonly PowertrainPose[],
): PlannedPair[] {
  const pairs: PlannedPair[] = [];
  const standing = bodies.filter(({ mount }) => mount === "chassis" || mount === "powertrain");
  const corners = bodies.filter((body) => !standing.includes(body));
  for (const sideRun of runs) {
    const stage = setStage(scene, sideRun, poses);
    const moving = corners.filter((body) => body.side === sideRun.side);
    for (const [i, first] of moving.entries()) {
      for (const second of [...moving.slice(i + 1), ...standing]) {
        addPair(pairs, scene, stage, sideRun.side, first, second);
      }
    }
  }
  const [anyRun] = runs;
  if (anyRun) {
    const stage = setStage(scene, anyRun, poses);
    for (const [i, first] of standing.entries()) {
      for (const second of standing.slice(i + 1)) addPair(pairs, scene, stage, "both", first, second);
    }
  }
  return pairs;
}

/** What is the same for all pairs of a side. */
interface Stage {
  readonly joints: readonly Joint[];
  readonly variants: readonly {
    readonly pose: string;
    readonly tracks: Tracks;
    readonly range: readonly [number, number];
    readonly rock: ((first: ModelBody, second: ModelBody) => Rock) | null;
  }[];
  readonly side: Side;
  readonly clusterOf: (mount: string) => string;
}

function setStage(scene: Scene, sideRun: SideRun, poses: readonly PowertrainPose[]): Stage {
  const { run, side } = sideRun;
  // a pose that is asked for alone has no rest beside it to come from
  const hasRest = poses.some(({ id }) => id === "rest");
  const variants = poses.flatMap((pose) => {
    const range = credibleRange(pose, run.from_mm, run.to_mm);
    if (!range) return [];
    const tracks = tracksOf(sideRun, pose.id);
    return [{ pose: pose.id, tracks, range, rock: hasRest ? rocksOf(sideRun, pose, tracks) : null }];
  });
  return { joints: listJoints(scene, side), variants, side, clusterOf: rigidCluster(scene) };
}

function addPair(
  pairs: PlannedPair[],
  scene: Scene,
  stage: Stage,
  side: Side | "both",
  one: ModelBody,
  other: ModelBody,
): void {
  if (one.id === other.id || !canMeet(scene, one, other)) return;
  const [first, second] = one.id < other.id ? [one, other] : [other, one];
  const dependsOnPose = [first, second].some(({ mount }) => mount === "powertrain" || mount === "driveshaft");
  const variants: SweepVariant[] = [];
  for (const { pose, tracks, range, rock } of stage.variants) {
    // a pair that the powertrain does not move is the same in every pose: the first, at rest, tells it
    if (!dependsOnPose && variants.length > 0) continue;
    const a = tracks.get(first.mount);
    const b = tracks.get(second.mount);
    if (!a || !b) throw new Error(`no motion for ${a ? second.mount : first.mount}`);
    const way = rock ? { rock: rock(first, second) } : {};
    variants.push({ pose, a, b, from_mm: range[0], to_mm: range[1], ...way });
  }
  pairs.push({
    side,
    first,
    second,
    acrossCar: side !== "both" && [first, second].some((body) => body.side !== side && body.side !== "both"),
    sweep: {
      a: first.key,
      b: second.key,
      required_mm: requiredClearance(scene.clearances, first, second),
      excuses: excusesOf(scene, stage, first, second),
      variants,
    },
  });
}

/** Near the joints that the two mounts share, surfaces do not count. */
function excusesOf(scene: Scene, stage: Stage, first: ModelBody, second: ModelBody): JointExcuse[] {
  const [a, b] = [stage.clusterOf(first.mount), stage.clusterOf(second.mount)];
  const inCar = (p: Vec3): Vec3 => (stage.side === "left" ? p : mirror(p));
  const radius_mm = scene.clearances.jointRadius_mm;
  return stage.joints.flatMap(({ between, at, atFirst }): JointExcuse[] => {
    const [one, other] = between.map(stage.clusterOf);
    if (one === a && other === b) return [{ centreInA: inCar(atFirst), centreInB: inCar(at), radius_mm }];
    if (one === b && other === a) return [{ centreInA: inCar(at), centreInB: inCar(atFirst), radius_mm }];
    return [];
  });
}
