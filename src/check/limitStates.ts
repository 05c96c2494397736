import { solveCorner } from "../kinematics/corner.ts";
import { powertrainPose } from "../kinematics/powertrain.ts";
import {
  NO_SHAFT,
  type OuterEnd,
  outerEnd,
  type Readings,
  readDamperLength,
  readShaft,
} from "../kinematics/readings.ts";
import { rocks } from "../kinematics/rock.ts";
import { innerJoint } from "../kinematics/shaft.ts";
import type { TravelRun } from "../kinematics/travel.ts";
import { poseOfTrack } from "../maths/pose.ts";
import type { PowertrainPose } from "../scene/scene.ts";
import { type JointHolds, jointHolds } from "./jointHolds.ts";
import type { StateAt } from "./result.ts";
import { recall } from "./shelf.ts";
import { credibleRange, type SideRun } from "./tracks.ts";

/** A reading held against its limit: `spare` below 0 means passed. */
export interface Held {
  readonly value: number;
  readonly limit: number;
  readonly spare: number;
}

/** What limits are held against in one state. */
export type Reading = Pick<Readings, "damper_mm" | "shaft_mm" | "innerAngle_deg" | "outerAngle_deg"> & {
  /** As jointHolds gives them; null: not read in this state, as nothing of them has changed. */
  readonly joints: readonly Held[] | null;
};
export type Holder = (reading: Reading) => Held | null;
export type HeldAt = Held & { readonly at: StateAt };

/** Of each holder the state with the least to spare, the ways from rest to the poses with them; null where it has nothing to hold. */
export function worstStates(
  sideRun: SideRun,
  poses: readonly PowertrainPose[],
  list: readonly Holder[],
): (HeldAt | null)[] {
  const worst: (HeldAt | null)[] = list.map(() => null);
  const joints = jointHolds(sideRun.corner);
  const hasRest = poses.some(({ id }) => id === "rest");
  const statesOf = new Map<string, readonly LimitState[]>();
  for (const pose of poses) {
    const range = credibleRange(pose, sideRun.run.from_mm, sideRun.run.to_mm);
    if (!range) continue;
    const states = recall(statesOf, range.join(" "), () => statesWithin(sideRun, range, joints));
    const inPose = worstAt(sideRun, pose, 1, states, list);
    const found = hasRest && rocks(pose) ? worstOnWay(sideRun, pose, states, list, inPose) : inPose;
    found.forEach((held, i) => {
      if (held) worst[i] = worseOf(worst[i]!, held, held.at);
    });
  }
  return worst;
}

/** One travel, and what of it hangs on no powertrain pose. */
interface LimitState {
  readonly travel_mm: number;
  readonly damper_mm: number | null;
  readonly joints: readonly Held[] | null;
  readonly outer: OuterEnd | null;
}

/**
 * Joints are read at every fifth knot and at the ends: between knots 5 mm apart the tilt of a 150 mm link strays by no more
 * than 0.01° from what they read (½ · 2.5² · 1/150², in radians).
 */
const JOINT_KNOTS = 5;

/** The ends of a range and every knot between them. */
function statesWithin(
  { corner, run }: SideRun,
  range: readonly [number, number],
  joints: JointHolds | null,
): LimitState[] {
  const { driveshaft, wheel } = corner.scene;
  const stateAt = (travel_mm: number, carrier: Float64Array, readsJoints: boolean): LimitState => ({
    travel_mm,
    damper_mm: readDamperLength(corner, carrier),
    joints: joints && readsJoints ? heldAt(run, joints, travel_mm, carrier) : null,
    outer: driveshaft && outerEnd(driveshaft, wheel, carrier),
  });
  const states = range.map((travel_mm) => stateAt(travel_mm, solveCorner(corner, travel_mm).pose, true));
  for (let knot = 0; knot < run.travel_mm.length; knot++) {
    const travel_mm = run.travel_mm[knot]!;
    if (travel_mm <= range[0] || travel_mm >= range[1]) continue;
    states.push(stateAt(travel_mm, poseOfTrack(run.carrier, knot), knot % JOINT_KNOTS === 0));
  }
  return states;
}

/** By the run, which both sides share as their joints read alike, and by the travel. */
const heldJoints = new WeakMap<TravelRun, Map<number, readonly Held[]>>();

function heldAt(run: TravelRun, joints: JointHolds, travel_mm: number, carrier: Float64Array): readonly Held[] {
  const known = heldJoints.get(run) ?? new Map<number, readonly Held[]>();
  heldJoints.set(run, known);
  return recall(known, travel_mm, () => joints.held(carrier));
}

/** The worst of these states with the powertrain at a share of its way to the pose. */
function worstAt(
  { corner: { scene, side } }: SideRun,
  pose: PowertrainPose,
  share: number,
  states: readonly LimitState[],
  list: readonly Holder[],
): (HeldAt | null)[] {
  const inner = scene.driveshaft && innerJoint(scene.driveshaft, side, powertrainPose(scene, pose.id, share));
  const worst: (HeldAt | null)[] = list.map(() => null);
  for (const { travel_mm, damper_mm, joints, outer } of states) {
    const reading = { damper_mm, joints, ...(inner && outer ? readShaft(inner, outer) : NO_SHAFT) };
    for (let i = 0; i < list.length; i++) {
      const held = list[i]!(reading);
      const last = worst[i];
      if (!held || (last && held.spare >= last.spare)) continue;
      worst[i] = { ...held, at: { travel_mm, pose: pose.id, ...(share === 1 ? {} : { share }) } };
    }
  }
  return worst;
}

/** Parts of the way from rest to a pose after which the shaft is read: what it does on so short a part is all but linear. */
const PARTS = 8;
/** Thirds by which the worst share is narrowed down, from two parts to below 1e-4. */
const NARROWINGS = 20;

/** The states with the least to spare from rest to the pose, rest left out. Nothing that is held but the shaft follows the engine. */
function worstOnWay(
  sideRun: SideRun,
  pose: PowertrainPose,
  states: readonly LimitState[],
  list: readonly Holder[],
  inPose: readonly (HeldAt | null)[],
): (HeldAt | null)[] {
  const ofShaft = states.map((state): LimitState => ({ ...state, damper_mm: null, joints: null }));
  let worst = [...inPose];
  for (let part = 1; part < PARTS; part++) {
    const found = worstAt(sideRun, pose, part / PARTS, ofShaft, list);
    worst = worst.map((held, i) => (found[i] ? worseOf(held, found[i]!, found[i]!.at) : held));
  }
  return worst.map((held, i) => {
    const state = ofShaft.find(({ travel_mm }) => travel_mm === held?.at.travel_mm);
    if (!held || !state) return held;
    const at = (share: number): HeldAt | null => {
      const [found] = worstAt(sideRun, pose, share, [state], [list[i]!]);
      return found ? { ...found, at: { ...held.at, share } } : null;
    };
    const { share = 1 } = held.at;
    // what is not read of the shaft is the same all the way
    if (!at(share)) return held;
    let [low, high] = [Math.max(0, share - 1 / PARTS), Math.min(1, share + 1 / PARTS)];
    for (let round = 0; round < NARROWINGS; round++) {
      const third = (high - low) / 3;
      if (at(low + third)!.spare < at(high - third)!.spare) high -= third;
      else low += third;
    }
    const narrowed = at((low + high) / 2)!;
    return narrowed.spare < held.spare ? narrowed : held;
  });
}

function worseOf(one: HeldAt | null, other: Held | null, at: StateAt): HeldAt | null {
  return other && (!one || other.spare < one.spare) ? { ...other, at } : one;
}
