import type { SweptStates } from "../clearance/envelope/envelope.ts";
import { poseOfMotion } from "../clearance/motion.ts";
import type { Motion } from "../clearance/types.ts";
import { bounds } from "../geometry/measure.ts";
import { composePoses, identityPose, invertPose, POSE_SIZE, type Pose } from "../maths/pose.ts";
import type { PowertrainPose, Scene, Side } from "../scene/scene.ts";
import type { ModelBody } from "./model.ts";
import { CheckShelf } from "./shelf.ts";
import { credibleRange, isMovedByPose, powertrainMotion, ridingTracks, type SideRun, shaftMotion } from "./tracks.ts";

/** Travel is looked at in steps of this to tell how far a body gets between two placements. */
const FINE_mm = 0.5;
/** Of the accuracy that is asked, what goes to the way between placements: along the travel alone, and with rocking too. */
const SHARE_FOR_STEPS = { one: 0.15, two: 0.4 } as const;
/** More placements than this take longer than anybody waits: they then lie farther apart. */
const MOST_POSES = 12_000;
/** An arc is longer than its chord by far less than this between placements. */
const ARC = 1.001;

interface Mounted {
  readonly mount: string;
  readonly side: Side;
}

/**
 * Placements of a body over all of the travel in every powertrain pose, on the way to each from rest too, as seen from another
 * body (`on`; null: the car), both wheels at the same travel. Close enough that `accuracy_mm` can be told of the room: at
 * every moment no point of the body is farther than `between_mm` from where one of them has it, by how far the corners of its
 * box get from each to the next (a rigid motion moves no point of a box farther than one of its corners).
 */
export function sweptStates(
  scene: Scene,
  runs: readonly SideRun[],
  body: ModelBody,
  on: ModelBody | null,
  accuracy_mm: number,
): SweptStates {
  const placing = placer(scene, runs, mountedOf(body, scene), on ? mountedOf(on, scene) : null);
  const corners = cornersOf(body);
  for (let ease = 1; ; ease *= 1.4) {
    const states = statesAt(scene, runs, placing, corners, accuracy_mm * ease);
    if (states.poses.length <= MOST_POSES * POSE_SIZE) return states;
  }
}

/** Whether `accuracy_mm` can be told by placements that are `between_mm` apart, or what can. */
export function accuracyFor({ between_mm }: SweptStates, accuracy_mm: number): number {
  return Math.max(accuracy_mm, between_mm / SHARE_FOR_STEPS.two);
}

function mountedOf({ mount, side }: ModelBody, scene: Scene): Mounted {
  return { mount, side: side === "both" ? scene.sides[0]! : side };
}

interface Placer {
  readonly usesTravel: boolean;
  readonly usesPose: boolean;
  at(poseId: string, share: number): (travel_mm: number, out: Pose) => void;
}

function placer(scene: Scene, runs: readonly SideRun[], body: Mounted, on: Mounted | null): Placer {
  const riding = ridingTracks(runs, new CheckShelf());
  const motionOf = ({ mount, side }: Mounted, poseId: string, share: number): Motion | null => {
    if (mount === "chassis") return null;
    if (mount === "powertrain") return powertrainMotion(scene, poseId, share);
    if (mount === "driveshaft") return shaftMotion(runs.find((run) => run.side === side)!, poseId, share);
    return riding.get(side)!.get(mount) ?? null;
  };
  const both = on ? [body, on] : [body];
  return {
    usesTravel: both.some(({ mount }) => mount !== "chassis" && mount !== "powertrain"),
    usesPose: both.some(({ mount }) => isMovedByPose(mount)),
    at(poseId, share) {
      const motion = motionOf(body, poseId, share);
      const other = on && motionOf(on, poseId, share);
      const [mine, its, back] = [identityPose(), identityPose(), identityPose()];
      return (travel_mm, out) => {
        if (motion) poseOfMotion(motion, travel_mm, mine);
        if (!other) {
          out.set(mine);
          return;
        }
        composePoses(invertPose(poseOfMotion(other, travel_mm, its), back), mine, out);
      };
    },
  };
}

function statesAt(
  scene: Scene,
  runs: readonly SideRun[],
  placing: Placer,
  corners: Float64Array,
  accuracy_mm: number,
): SweptStates {
  const { travel_mm } = runs[0]!.run;
  const [first, last] = [travel_mm[0]!, travel_mm[travel_mm.length - 1]!];
  const isTwo = placing.usesPose && placing.usesTravel;
  const step_mm = accuracy_mm * (isTwo ? SHARE_FOR_STEPS.two : 2 * SHARE_FOR_STEPS.one);
  const variants = placing.usesPose ? scene.powertrain.poses : scene.powertrain.poses.slice(0, 1);
  const found: Float64Array[] = [];
  let between_mm = 0;
  for (const pose of variants) {
    const range = credibleRange(pose, first, last);
    if (!range) continue;
    const variant = variantStates(placing, pose, placing.usesTravel ? range : [0, 0], corners, step_mm);
    found.push(variant.poses);
    between_mm = Math.max(between_mm, variant.between_mm);
  }
  const poses = new Float64Array(found.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of found) {
    poses.set(part, at);
    at += part.length;
  }
  return { poses, between_mm };
}

function variantStates(
  placing: Placer,
  pose: PowertrainPose,
  [from_mm, to_mm]: readonly [number, number],
  corners: Float64Array,
  step_mm: number,
): SweptStates {
  const fineCount = Math.max(1, Math.ceil((to_mm - from_mm) / FINE_mm));
  const fine = Array.from({ length: fineCount + 1 }, (_, i) => from_mm + ((to_mm - from_mm) * i) / fineCount);
  const [a, b] = [identityPose(), identityPose()];
  // how many shares of the way from rest: by the farthest that rocking takes a corner anywhere in the travel
  let shareCount = 0;
  if (pose.id !== "rest") {
    const [rest, rocked] = [placing.at(pose.id, 0), placing.at(pose.id, 1)];
    let most = 0;
    for (const travel of fine) {
      rest(travel, a);
      rocked(travel, b);
      most = Math.max(most, farthest(corners, a, b));
    }
    shareCount = Math.max(1, Math.ceil((most * ARC) / step_mm));
  }
  const shares = Array.from({ length: shareCount + 1 }, (_, j) => (shareCount === 0 ? 1 : j / shareCount));
  const placers = shares.map((share) => placing.at(pose.id, share));
  const ways = placers.map((place) => wayAlong(place, fine, corners));

  // a placement wherever at some share a corner has come a step farther since the last
  const kept = [0];
  let gone_mm = 0;
  let travelGap_mm = 0;
  for (let i = 1; i < fine.length; i++) {
    const next = Math.max(...ways.map((way) => way[i - 1]!));
    if (gone_mm > 0 && gone_mm + next > step_mm) {
      kept.push(i - 1);
      gone_mm = 0;
    }
    gone_mm += next;
    travelGap_mm = Math.max(travelGap_mm, gone_mm);
  }
  if (kept.at(-1) !== fine.length - 1) kept.push(fine.length - 1);

  const poses = new Float64Array(kept.length * shares.length * POSE_SIZE);
  let at = 0;
  let shareGap_mm = 0;
  for (const i of kept) {
    for (const [j, place] of placers.entries()) {
      place(fine[i]!, b);
      if (j > 0) shareGap_mm = Math.max(shareGap_mm, farthest(corners, a, b));
      poses.set(b, at);
      a.set(b);
      at += POSE_SIZE;
    }
  }
  return { poses, between_mm: (ARC * (travelGap_mm + shareGap_mm)) / 2 };
}

/** How far the box's farthest corner gets from each travel to the next. */
function wayAlong(place: (travel_mm: number, out: Pose) => void, travels: readonly number[], corners: Float64Array) {
  const [before, now] = [identityPose(), identityPose()];
  const way = new Float64Array(Math.max(0, travels.length - 1));
  for (const [i, travel] of travels.entries()) {
    place(travel, now);
    if (i > 0) way[i - 1] = farthest(corners, before, now);
    before.set(now);
  }
  return way;
}

function cornersOf({ solid }: ModelBody): Float64Array {
  const { min, max } = bounds(solid);
  const corners = new Float64Array(24);
  for (let c = 0; c < 8; c++) {
    for (let k = 0; k < 3; k++) corners[3 * c + k] = ((c >> k) & 1 ? max : min)[k]!;
  }
  return corners;
}

/** The farthest that any of the points is between two poses, mm. */
function farthest(points: Float64Array, a: Pose, b: Pose): number {
  let most = 0;
  for (let i = 0; i < points.length; i += 3) {
    let square = 0;
    for (let row = 0; row < POSE_SIZE; row += 4) {
      const off =
        (a[row]! - b[row]!) * points[i]! +
        (a[row + 1]! - b[row + 1]!) * points[i + 1]! +
        (a[row + 2]! - b[row + 2]!) * points[i + 2]! +
        a[row + 3]! -
        b[row + 3]!;
      square += off * off;
    }
    most = Math.max(most, square);
  }
  return Math.sqrt(most);
}
