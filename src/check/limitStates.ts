import { solveCorner } from "../kinematics/corner.ts";
import { powertrainPose } from "../kinematics/powertrain.ts";
import { type Readings, readCorner, readShaft } from "../kinematics/readings.ts";
import { rocks } from "../kinematics/rock.ts";
import { poseOfTrack } from "../maths/pose.ts";
import type { PowertrainPose } from "../scene/scene.ts";
import type { StateAt } from "./result.ts";
import { credibleRange, type SideRun } from "./tracks.ts";

/** A reading held against its limit: `spare` below 0 means passed. */
export interface Held {
  readonly value: number;
  readonly limit: number;
  readonly spare: number;
}

type Reading = Pick<Readings, "damper_mm" | "shaft_mm" | "innerAngle_deg" | "outerAngle_deg">;
export type Holder = (reading: Reading) => Held | null;
export type HeldAt = Held & { readonly at: StateAt };

/** Of each holder the state with the least to spare, the ways from rest to the poses with them; null where it has nothing to hold. */
export function worstStates(
  sideRun: SideRun,
  poses: readonly PowertrainPose[],
  list: readonly Holder[],
): (HeldAt | null)[] {
  const worst: (HeldAt | null)[] = list.map(() => null);
  const hasRest = poses.some(({ id }) => id === "rest");
  for (const pose of poses) {
    const range = credibleRange(pose, sideRun.run.from_mm, sideRun.run.to_mm);
    if (!range) continue;
    const states = statesWithin(sideRun, range);
    const inPose = list.map(() => null as HeldAt | null);
    for (const { travel_mm, carrier } of states) {
      const reading = readCorner(sideRun.corner, carrier, pose.id);
      list.forEach((hold, i) => {
        inPose[i] = worseOf(inPose[i]!, hold(reading), { travel_mm, pose: pose.id });
      });
    }
    const found = hasRest && rocks(pose) ? worstOnWay(sideRun, pose, states, list, inPose) : inPose;
    found.forEach((held, i) => {
      if (held) worst[i] = worseOf(worst[i]!, held, held.at);
    });
  }
  return worst;
}

interface CarrierState {
  readonly travel_mm: number;
  readonly carrier: Float64Array;
}

/** The ends of a range and every knot between them. */
function statesWithin({ corner, run }: SideRun, range: readonly [number, number]): CarrierState[] {
  const states = range.map((travel_mm): CarrierState => ({ travel_mm, carrier: solveCorner(corner, travel_mm).pose }));
  for (let knot = 0; knot < run.travel_mm.length; knot++) {
    const travel_mm = run.travel_mm[knot]!;
    if (travel_mm > range[0] && travel_mm < range[1])
      states.push({ travel_mm, carrier: poseOfTrack(run.carrier, knot) });
  }
  return states;
}

/** Parts of the way from rest to a pose after which the shaft is read: what it does on so short a part is all but linear. */
const PARTS = 8;
/** Thirds by which the worst share is narrowed down, from two parts to below 1e-4. */
const NARROWINGS = 20;

/** The states with the least to spare from rest to the pose, rest left out. Nothing that is held but the shaft follows the engine. */
function worstOnWay(
  { corner }: SideRun,
  pose: PowertrainPose,
  states: readonly CarrierState[],
  list: readonly Holder[],
  inPose: readonly (HeldAt | null)[],
): (HeldAt | null)[] {
  const worst = [...inPose];
  for (let part = 1; part < PARTS; part++) {
    const share = part / PARTS;
    const powertrain = powertrainPose(corner.scene, pose.id, share);
    for (const { travel_mm, carrier } of states) {
      const reading: Reading = { damper_mm: null, ...readShaft(corner, carrier, powertrain) };
      list.forEach((hold, i) => {
        worst[i] = worseOf(worst[i]!, hold(reading), { travel_mm, pose: pose.id, share });
      });
    }
  }
  return worst.map((held, i) => {
    const state = states.find(({ travel_mm }) => travel_mm === held?.at.travel_mm);
    if (!held || !state) return held;
    const at = (share: number): HeldAt => {
      const reading = readShaft(corner, state.carrier, powertrainPose(corner.scene, pose.id, share));
      const found = list[i]!({ damper_mm: null, ...reading });
      return found ? { ...found, at: { ...held.at, share } } : held;
    };
    const { share = 1 } = held.at;
    let [low, high] = [Math.max(0, share - 1 / PARTS), Math.min(1, share + 1 / PARTS)];
    for (let round = 0; round < NARROWINGS; round++) {
      const third = (high - low) / 3;
      if (at(low + third).spare < at(high - third).spare) high -= third;
      else low += third;
    }
    const narrowed = at((low + high) / 2);
    return narrowed.spare < held.spare ? narrowed : held;
  });
}

function worseOf(one: HeldAt | null, other: Held | null, at: StateAt): HeldAt | null {
  return other && (!one || other.spare < one.spare) ? { ...other, at } : one;
}
