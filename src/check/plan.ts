import type { JointExcuse, SweepPair, SweepVariant } from "../clearance/types.ts";
import { listJoints } from "../kinematics/joints.ts";
import type { Poll } from "../maths/poll.ts";
import { mirror, type Vec3 } from "../maths/vec3.ts";
import type { PowertrainPose, Scene, Side } from "../scene/scene.ts";
import type { ModelBody } from "./model.ts";
import { meetingRule, requiredClearance, rigidCluster } from "./pairRules.ts";
import { type RockOf, rockMaker } from "./rock.ts";
import { type CheckShelf, recall } from "./shelf.ts";
import { credibleRange, isMovedByPose, ridingTracks, type SideRun, type Tracks, tracksOf } from "./tracks.ts";

/** One pair of bodies to sweep, with what the verdict needs to know of it. */
export interface PlannedPair {
  readonly side: Side | "both";
  readonly first: ModelBody;
  readonly second: ModelBody;
  /** A part of one corner against a bracket of the other side. */
  readonly acrossCar: boolean;
  /** What the parts want of each other; the sweep asks for `within_mm` more. */
  readonly required_mm: number;
  /** How far the two surfaces may be from the checked ones, together, what they give among it. */
  readonly within_mm: number;
  readonly give_mm: number;
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
  shelf: CheckShelf,
  poll?: Poll,
): PlannedPair[] {
  const pairs: PlannedPair[] = [];
  const add = pairMaker(scene, pairs);
  const standing = bodies.filter(({ mount }) => mount === "chassis" || mount === "powertrain");
  const corners = bodies.filter((body) => !standing.includes(body));
  const riding = ridingTracks(runs, shelf);
  const stages = runs.map((sideRun) => setStage(scene, sideRun, riding.get(sideRun.side)!, poses, shelf));
  for (const stage of stages) {
    const moving = corners.filter((body) => body.side === stage.side);
    for (const [i, first] of moving.entries()) {
      poll?.();
      for (const second of moving.slice(i + 1)) add(stage, stage.side, first, second);
      for (const second of standing) add(stage, stage.side, first, second);
    }
  }
  const [anyStage] = stages;
  if (anyStage) {
    for (const [i, first] of standing.entries()) {
      poll?.();
      for (const second of standing.slice(i + 1)) add(anyStage, "both", first, second);
    }
  }
  return pairs;
}

/** What is the same for all pairs of a side. */
interface Stage {
  readonly side: Side;
  between(first: ModelBody, second: ModelBody): Meeting;
}

interface StageVariant {
  readonly pose: string;
  readonly tracks: Tracks;
  readonly range: readonly [number, number];
  readonly rock: RockOf | null;
}

/** How two bodies meet; one object for all pairs of which it is the same. */
type Meeting = Pick<SweepPair, "excuses" | "variants">;

function setStage(
  scene: Scene,
  sideRun: SideRun,
  riding: Tracks,
  poses: readonly PowertrainPose[],
  shelf: CheckShelf,
): Stage {
  const { run, side } = sideRun;
  // a pose that is asked for alone has no rest beside it to come from
  const rockOf = poses.some(({ id }) => id === "rest") ? rockMaker(sideRun, shelf) : () => null;
  const variants = poses.flatMap((pose): StageVariant[] => {
    const range = credibleRange(pose, run.from_mm, run.to_mm);
    if (!range) return [];
    const tracks = tracksOf(sideRun, riding, pose.id, shelf);
    return [{ pose: pose.id, tracks, range, rock: rockOf(pose, tracks) }];
  });
  const excusesOf = excuser(scene, side);
  const known = new Map<string, Map<string, Meeting>>();
  const between = (first: ModelBody, second: ModelBody): Meeting => {
    const ofFirst = recall(known, movingName(first), newMap);
    let found = ofFirst.get(movingName(second));
    if (!found) {
      found = { excuses: excusesOf(first.mount, second.mount), variants: variantsOf(variants, first, second) };
      ofFirst.set(movingName(second), found);
    }
    return found;
  };
  return { side, between };
}

const newMap = () => new Map<string, Meeting>();

/** On its way between the poses each body has bounds of its own; otherwise all of a mount move alike. */
function movingName({ mount, key }: ModelBody): string {
  return isMovedByPose(mount) ? key : mount;
}

function variantsOf(variants: readonly StageVariant[], first: ModelBody, second: ModelBody): SweepVariant[] {
  // a pair that the powertrain does not move is the same in every pose: the first, at rest, tells it
  const told = isMovedByPose(first.mount) || isMovedByPose(second.mount) ? variants : variants.slice(0, 1);
  return told.map(({ pose, tracks, range: [from_mm, to_mm], rock }) => {
    const a = tracks.get(first.mount);
    const b = tracks.get(second.mount);
    if (!a || !b) throw new Error(`no motion for ${a ? second.mount : first.mount}`);
    const way = rock ? { rock: rock(first, second) } : {};
    return { pose, a, b, from_mm, to_mm, ...way };
  });
}

type PairMaker = (stage: Stage, side: Side | "both", one: ModelBody, other: ModelBody) => void;

function pairMaker(scene: Scene, pairs: PlannedPair[]): PairMaker {
  const canMeet = meetingRule(scene);
  const requiredOf = requiredClearance(scene.clearances);
  return (stage, side, one, other) => {
    if (one.id === other.id || !canMeet(one, other)) return;
    const [first, second] = one.id < other.id ? [one, other] : [other, one];
    const { excuses, variants } = stage.between(first, second);
    const required_mm = requiredOf(first, second);
    const give_mm = (first.give_mm ?? 0) + (second.give_mm ?? 0);
    const within_mm = (first.within_mm ?? 0) + (second.within_mm ?? 0) + give_mm;
    pairs.push({
      side,
      first,
      second,
      acrossCar: side !== "both" && (isAcross(first, side) || isAcross(second, side)),
      required_mm,
      within_mm,
      give_mm,
      sweep: { a: first.key, b: second.key, required_mm: required_mm + within_mm, excuses, variants },
    });
  };
}

function isAcross(body: ModelBody, side: Side): boolean {
  return body.side !== side && body.side !== "both";
}

/** Tells where, near the joints that two mounts share, the surfaces of bodies on them do not count. */
export function excuser(scene: Scene, side: Side): (first: string, second: string) => JointExcuse[] {
  const clusterOf = rigidCluster(scene);
  const inCar = (p: Vec3): Vec3 => (side === "left" ? p : mirror(p));
  const radius_mm = scene.clearances.jointRadius_mm;
  const joints = listJoints(scene, side).map(({ between: [one, other], at, atFirst }) => ({
    one: clusterOf(one),
    other: clusterOf(other),
    at: inCar(at),
    atFirst: inCar(atFirst),
  }));
  return (first, second) => {
    const [a, b] = [clusterOf(first), clusterOf(second)];
    const excuses: JointExcuse[] = [];
    for (const { one, other, at, atFirst } of joints) {
      if (one === a && other === b) excuses.push({ centreInA: atFirst, centreInB: at, radius_mm });
      else if (one === b && other === a) excuses.push({ centreInA: at, centreInB: atFirst, radius_mm });
    }
    return excuses;
  };
}
