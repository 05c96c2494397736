import { curveTravels } from "../../check/curves.ts";
import { type HeldAt, type Holder, worstStates } from "../../check/limitStates.ts";
import { limitsOf } from "../../check/limits.ts";
import type { LimitVerdict, StateAt } from "../../check/result.ts";
import { credibleRange, type SideRun } from "../../check/tracks.ts";
import { solveCorner } from "../../kinematics/corner.ts";
import { powertrainPose } from "../../kinematics/powertrain.ts";
import { lineAngle_deg, outerEnd } from "../../kinematics/readings.ts";
import { innerJoint } from "../../kinematics/shaft.ts";
import { greatestLag_deg, type Unevenness, unevenness } from "../../kinematics/universalJoint.ts";
import { distance, normalise, subtract } from "../../maths/vec3.ts";
import type { Driveshaft, Scene, Side } from "../../scene/scene.ts";

/** Least plunge to spare at either end: common practice, no source. */
export const USUAL_SPARE_mm = 3;

/** The shaft in one state. */
export interface ShaftState {
  readonly at: StateAt;
  /** Between the joint centres. */
  readonly shaft_mm: number;
  /** Longer than at ride height with the engine at rest: the joint pulled out. */
  readonly plunge_mm: number;
  readonly innerAngle_deg: number;
  readonly outerAngle_deg: number;
  /** Inner less outer angle. */
  readonly difference_deg: number;
}

/** The most extreme value of one reading over all states, with the travel and engine that bring it. */
export interface Extreme {
  readonly value: number;
  readonly at: StateAt;
}

/** Which shaft to order: all changes are of the length as it is, the joints as they are. */
export interface ShaftOrder {
  /** Plunge that the states use, and what the joint has; null: not told. */
  readonly used_mm: number;
  readonly stroke_mm: number | null;
  readonly spareWanted_mm: number;
  /** Equal spare at both ends; null where the joint's ends are not told. */
  readonly change_mm: number | null;
  /** Changes that leave the wanted spare at both ends, [least, most]; null: there are none, or the ends are not told. */
  readonly changeRange_mm: readonly [number, number] | null;
  /** The bar's own length at that change and range; null where it is not told. */
  readonly bar_mm: number | null;
  readonly barRange_mm: readonly [number, number] | null;
}

/** How unevenly single universal joints turn the wheel. */
export interface CrossJoints {
  readonly inner: boolean;
  readonly outer: boolean;
  readonly atRide: Unevenness;
  readonly worst: Unevenness & { readonly at: StateAt };
  /** How far the driven end of each cross runs ahead and behind at ride height, degrees. */
  readonly lag_deg: { readonly inner: number | null; readonly outer: number | null };
}

export interface ShaftStudy {
  readonly side: Side;
  readonly ride: ShaftState;
  readonly shortest: Extreme;
  readonly longest: Extreme;
  readonly innerAngle: Extreme;
  readonly outerAngle: Extreme;
  /** Of inner and outer angle, whichever is greater. */
  readonly difference: Extreme;
  /** Verdicts of the check on lengths and angles. */
  readonly limits: readonly LimitVerdict[];
  readonly order: ShaftOrder;
  /** null: both joints run true. */
  readonly crosses: CrossJoints | null;
  /** At the scene's steps in every powertrain pose: plunge against angle. */
  readonly plot: readonly ShaftState[];
}

/** One side's driveshaft over the travel, every powertrain pose and the ways to them from rest; null without one. */
export function shaftStudy(scene: Scene, sideRun: SideRun, spareWanted_mm = USUAL_SPARE_mm): ShaftStudy | null {
  const { driveshaft, powertrain } = scene;
  if (!driveshaft) return null;
  const { side } = sideRun;
  const [shortest, longest, innerAngle, outerAngle, difference] = worstStates(sideRun, powertrain.poses, [
    least(({ shaft_mm }) => shaft_mm),
    most(({ shaft_mm }) => shaft_mm),
    most(({ innerAngle_deg }) => innerAngle_deg),
    most(({ outerAngle_deg }) => outerAngle_deg),
    most(({ innerAngle_deg, outerAngle_deg }) =>
      innerAngle_deg === null || outerAngle_deg === null ? null : Math.abs(innerAngle_deg - outerAngle_deg),
    ),
  ]).map(extremeOf);
  const rideLength_mm = stateAt(sideRun, driveshaft, { travel_mm: 0, pose: "rest" }, 0).shaft_mm;
  const read = (at: StateAt) => stateAt(sideRun, driveshaft, at, rideLength_mm);
  const plot = statesOf(scene, sideRun).map(read);
  return {
    side,
    ride: read({ travel_mm: 0, pose: "rest" }),
    shortest: shortest!,
    longest: longest!,
    innerAngle: innerAngle!,
    outerAngle: outerAngle!,
    difference: difference!,
    limits: limitsOf(scene, sideRun, powertrain.poses).filter(({ what }) => SHAFT_LIMITS.includes(what)),
    order: orderOf(driveshaft, side, [shortest!.value, longest!.value], spareWanted_mm),
    crosses: crossesOf(sideRun, driveshaft, plot),
    plot,
  };
}

const SHAFT_LIMITS: readonly string[] = ["shaft-length", "inner-angle", "outer-angle"];

type Read = (reading: Parameters<Holder>[0]) => number | null;

function least(of: Read): Holder {
  return (reading) => {
    const value = of(reading);
    return value === null ? null : { value, limit: 0, spare: value };
  };
}

function most(of: Read): Holder {
  return (reading) => {
    const value = of(reading);
    return value === null ? null : { value, limit: 0, spare: -value };
  };
}

function extremeOf(held: HeldAt | null): Extreme {
  if (!held) throw new Error("a driveshaft has a length in every state");
  return { value: held.value, at: held.at };
}

function stateAt({ corner, side }: SideRun, driveshaft: Driveshaft, at: StateAt, ride_mm: number): ShaftState {
  const { inner, outer } = endsAt({ corner, side }, driveshaft, at);
  const line = subtract(outer.at, inner.at);
  const shaft_mm = distance(inner.at, outer.at);
  const innerAngle_deg = lineAngle_deg(line, inner.axis);
  const outerAngle_deg = lineAngle_deg(line, outer.spin);
  return {
    at,
    shaft_mm,
    plunge_mm: shaft_mm - ride_mm,
    innerAngle_deg,
    outerAngle_deg,
    difference_deg: innerAngle_deg - outerAngle_deg,
  };
}

function endsAt({ corner, side }: Pick<SideRun, "corner" | "side">, driveshaft: Driveshaft, at: StateAt) {
  const inner = innerJoint(driveshaft, side, powertrainPose(corner.scene, at.pose, at.share));
  return { inner, outer: outerEnd(driveshaft, corner.scene.wheel, solveCorner(corner, at.travel_mm).pose) };
}

/** Pose by pose at the scene's steps from ride height and at the ends, where the pose is credible. */
function statesOf({ powertrain, travel }: Scene, { run }: SideRun): StateAt[] {
  return powertrain.poses.flatMap((pose) => {
    const range = credibleRange(pose, run.from_mm, run.to_mm);
    if (!range) return [];
    const travels = curveTravels(travel, run).filter((travel_mm) => travel_mm > range[0] && travel_mm < range[1]);
    const [from_mm, to_mm] = range;
    return [...new Set([from_mm, ...travels, to_mm])].map((travel_mm): StateAt => ({ travel_mm, pose: pose.id }));
  });
}
/**
 * A shaft longer by δ moves both ends of the joint's reach by δ: it works where shortest + δ leaves the wanted spare below
 * the least length, and longest + δ above the greatest.
 */
function orderOf(
  { inner }: Driveshaft,
  side: Side,
  [least_mm, most_mm]: readonly [number, number],
  spareWanted_mm: number,
): ShaftOrder {
  const { shortest_mm, longest_mm, bar_mm } = inner[side];
  const used_mm = most_mm - least_mm;
  if (shortest_mm === null || longest_mm === null) {
    const unknown = { stroke_mm: null, change_mm: null, changeRange_mm: null, bar_mm: null, barRange_mm: null };
    return { used_mm, spareWanted_mm, ...unknown };
  }
  const from_mm = most_mm + spareWanted_mm - longest_mm;
  const to_mm = least_mm - spareWanted_mm - shortest_mm;
  const change_mm = (from_mm + to_mm) / 2;
  const works = from_mm <= to_mm;
  return {
    used_mm,
    stroke_mm: longest_mm - shortest_mm,
    spareWanted_mm,
    change_mm,
    changeRange_mm: works ? [from_mm, to_mm] : null,
    bar_mm: bar_mm === null ? null : bar_mm + change_mm,
    barRange_mm: works && bar_mm !== null ? [bar_mm + from_mm, bar_mm + to_mm] : null,
  };
}

function crossesOf(sideRun: SideRun, driveshaft: Driveshaft, plot: readonly ShaftState[]): CrossJoints | null {
  const isCross = { inner: driveshaft.innerJoint === "universal", outer: driveshaft.outerJoint === "universal" };
  if (!isCross.inner && !isCross.outer) return null;
  const uneven = (at: StateAt): Unevenness => {
    const { inner, outer } = endsAt(sideRun, driveshaft, at);
    return unevenness(inner.axis, normalise(subtract(outer.at, inner.at)), outer.spin, isCross);
  };
  const rest: StateAt = { travel_mm: 0, pose: "rest" };
  const all = [rest, ...plot.map(({ at }) => at)].map((at) => ({ ...uneven(at), at }));
  const spread = ({ fastest, slowest }: Unevenness) => fastest - slowest;
  const [ride] = all;
  const { innerAngle_deg, outerAngle_deg } = stateAt(sideRun, driveshaft, rest, 0);
  return {
    ...isCross,
    atRide: { fastest: ride!.fastest, slowest: ride!.slowest },
    worst: all.reduce((worst, one) => (spread(one) > spread(worst) ? one : worst)),
    lag_deg: {
      inner: isCross.inner ? greatestLag_deg(innerAngle_deg) : null,
      outer: isCross.outer ? greatestLag_deg(outerAngle_deg) : null,
    },
  };
}
