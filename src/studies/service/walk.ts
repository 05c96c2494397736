import type { ModelBody } from "../../check/model.ts";
import { acceptedWhy } from "../../check/pairRules.ts";
import { applyPose, composePoses, type Pose } from "../../maths/pose.ts";
import { mirror, type Vec3 } from "../../maths/vec3.ts";
import type { Side } from "../../scene/scene.ts";
import type { ServiceStep, SwingStep } from "../../scene/serviceRecords.ts";
import type { ServiceCar } from "./car.ts";
import { jointEnds } from "./held.ts";
import {
  angleOnLeg,
  freedBy,
  fromAxis,
  type Leg,
  legLength_mm,
  motionOnLeg,
  poseOnLeg,
  standing,
  turnThatFrees,
} from "./legs.ts";
import { stopOf } from "./stops.ts";
import type { Going, Meeting, Sweeps } from "./sweeps.ts";

/** What a path starts from. */
export interface WalkStart {
  readonly car: ServiceCar;
  readonly side: Side;
  readonly travel_mm: number;
  readonly parts: readonly string[];
  readonly removed: readonly string[];
  /** Whether directions and places of the steps are seen in the mirror. */
  readonly isMirrored: boolean;
}

/** A part that is in the way of a step. */
export interface Touch {
  readonly part: string;
  readonly key: string;
  /** What of the moving parts meets it. */
  readonly of: string;
  /** How far the step had got: mm along a straight one, degrees of a turn. */
  readonly got: number;
  readonly unit: "mm" | "deg";
  /** Where, car coordinates. */
  readonly where: Vec3;
}

export type Stop =
  | ({ readonly kind: "part"; readonly step: number } & Touch)
  | {
      /** The bush gives no more. */
      readonly kind: "bush";
      readonly step: number;
      /** Name of its joint; null: none of the corner's. */
      readonly joint: string | null;
      readonly needs_deg: number;
      readonly allows_deg: number;
      /** What a swing that frees a place gets and needs. */
      readonly frees: { readonly gets_mm: number; readonly needs_mm: number } | null;
    }
  /** Joints that still hold what shall swing. */
  | { readonly kind: "held"; readonly step: number; readonly joints: readonly string[] }
  /** No swing about that axis brings the place so far. */
  | { readonly kind: "unreachable"; readonly step: number; readonly most_mm: number; readonly needs_mm: number };

/** One step as it was gone. */
export interface WalkedStep {
  readonly kind: ServiceStep["kind"];
  /** mm of a straight step, degrees of the others. */
  readonly got: number;
  readonly of: number;
  /** What moves, by key. */
  readonly moves: readonly string[];
  readonly leg: Leg;
}

export interface Walk {
  readonly steps: readonly WalkedStep[];
  readonly stop: Stop | null;
  /** Every part that is in the way anywhere on the whole path; only those of the first stop unless all were asked for. */
  readonly inTheWay: readonly string[];
  /** The nearest that the moving parts come to any other on the way that is free, where that is below 5 mm. */
  readonly nearest: { readonly part: string; readonly step: number; readonly clearance_mm: number } | null;
  /** Accepted pairs that were left out of it. */
  readonly leftOut: readonly string[];
}

const NEAR_mm = 5;

/** "first": up to the first stop; "whole": on beyond it, for all that is in the way; "probe": only whether there is a stop. */
export type WalkMode = "first" | "whole" | "probe";

/**
 * Goes the steps one after another; between any two places of each the check's own bounds prove that no overlap deeper than 0.1 mm
 * goes unseen. Joints' surroundings and accepted pairs do not count, as in the check; what lies in each other or touches from a step's
 * start stops a part only where it gets deeper. Throws StudyStopped.
 */
export function walk(start: WalkStart, steps: readonly ServiceStep[], sweeps: Sweeps, mode: WalkMode = "first"): Walk {
  const { car, side, travel_mm, parts, removed } = start;
  const present = car.without(removed);
  const poses = new Map<string, Pose>(present.map((body) => [body.key, car.poseOf(body, travel_mm)]));
  const own = new Set(car.bodiesOf(parts, side).map(({ key }) => key));
  const gone: WalkedStep[] = [];
  const inTheWay = new Set<string>();
  const leftOut = new Set<string>();
  let stop: Stop | null = null;
  let nearest: Walk["nearest"] = null;

  for (const [i, step] of steps.entries()) {
    sweeps.poll();
    const movers = present.filter((body) => (step.kind === "swing" ? swings(start, step, body) : own.has(body.key)));
    const moving = new Set(movers.map(({ key }) => key));
    const { leg, of, most, stop: barred } = legOf(start, step, movers, poses);
    const held = step.kind === "swing" ? jointEnds(car, side, step, removed) : [];
    let stopHere: Stop | null =
      held.length > 0 ? { kind: "held", step: i, joints: held } : barred && { ...barred, step: i };
    const length_mm = legLength_mm(leg);
    const told = (at_mm: number): number => (leg.kind === "straight" ? at_mm : Math.abs(angleOnLeg(leg, at_mm)));
    let got_mm = held.length > 0 && mode !== "whole" ? 0 : length_mm;
    const unit = leg.kind === "straight" ? "mm" : "deg";
    const meetings = got_mm > 0 ? meetingsOf(start, movers, present, moving, leg, poses, leftOut) : [];
    for (const meeting of meetings) {
      const found = stopOf(sweeps, meeting, length_mm, meeting.within_mm, mode !== "first");
      const { id, key } = meeting.b.body;
      if (found === null) {
        if (mode !== "first") continue;
        const near = sweeps.below(meeting, 0, length_mm, nearest?.clearance_mm ?? NEAR_mm);
        // what is fitted from the start is near by design
        if (near === null || near.clearance_mm <= 0) continue;
        nearest = { part: id, step: i, clearance_mm: near.clearance_mm };
        continue;
      }
      inTheWay.add(id);
      if (stopHere?.kind === "part" && found.at_mm >= got_mm) continue;
      got_mm = Math.min(got_mm, found.at_mm);
      const { where } = found;
      if (stopHere?.kind !== "held")
        stopHere = { kind: "part", step: i, part: id, key, of: meeting.a.body.id, got: told(got_mm), unit, where };
      if (mode === "probe") break;
    }
    stop ??= stopHere;
    gone.push({ kind: step.kind, got: Math.min(told(got_mm), most), of, moves: [...moving], leg });
    if (stop !== null && mode !== "whole") break;
    const after = poseOnLeg(leg, length_mm);
    for (const { key } of movers) poses.set(key, composePoses(after, poses.get(key)!));
  }
  return { steps: gone, stop, inTheWay: [...inTheWay].sort(), nearest, leftOut: [...leftOut].sort() };
}

interface PartsMeeting extends Meeting {
  readonly a: Going & { readonly body: ModelBody };
  readonly b: Going & { readonly body: ModelBody };
  readonly within_mm: number;
}

/** Every moving body against every other that is there; pairs that the scene accepts go to `leftOut`. */
function meetingsOf(
  { car }: WalkStart,
  movers: readonly ModelBody[],
  present: readonly ModelBody[],
  moving: ReadonlySet<string>,
  leg: Leg,
  poses: ReadonlyMap<string, Pose>,
  leftOut: Set<string>,
): PartsMeeting[] {
  const others = present
    .filter(({ key }) => !moving.has(key))
    .map((body) => ({ body, motion: standing(poses.get(body.key)!) }));
  return movers.flatMap((mover) => {
    const a = { body: mover, motion: motionOnLeg(leg, poses.get(mover.key)!) };
    return others.flatMap((b): PartsMeeting[] => {
      const other = b.body;
      if (other.id === mover.id && other.side === mover.side) return [];
      if (car.slideInEachOther(mover, other)) return [];
      if (acceptedWhy(car.scene.clearances, mover, other) !== null) {
        leftOut.add(`${mover.id} / ${other.id}`);
        return [];
      }
      const within_mm = (mover.within_mm ?? 0) + (other.within_mm ?? 0);
      return [{ a, b, excuses: car.excusesOf(mover, other), within_mm }];
    });
  });
}

/** Whether a swing carries the body: what is one with the member, on its side. */
function swings({ car, side }: WalkStart, { member }: SwingStep, body: ModelBody): boolean {
  return body.side === side && car.clusterOf(body.mount) === car.clusterOf(member);
}

type PlannedStop = Omit<Extract<Stop, { kind: "bush" }>, "step"> | Omit<Extract<Stop, { kind: "unreachable" }>, "step">;

interface PlannedLeg {
  readonly leg: Leg;
  /** What is asked of the step, mm or degrees, and the most of it that a bush allows. */
  readonly of: number;
  readonly most: number;
  readonly stop: PlannedStop | null;
}

function legOf(
  start: WalkStart,
  step: ServiceStep,
  movers: readonly ModelBody[],
  poses: ReadonlyMap<string, Pose>,
): PlannedLeg {
  const { isMirrored } = start;
  const seen = (p: Vec3): Vec3 => (isMirrored ? mirror(p) : p);
  // the image of a turn about an axis is the turn the other way about the axis's image
  const turned = (axis: Vec3): Vec3 => (isMirrored ? [-axis[0], axis[1], -axis[2]] : axis);
  if (step.kind === "straight") {
    const { length_mm } = step;
    const leg: Leg = { kind: "straight", way: seen(step.way), length_mm };
    return { leg, of: length_mm, most: length_mm, stop: null };
  }
  if (step.kind === "turn") {
    const [about, axis] = [seen(step.about), turned(step.axis)];
    const leg = turnLeg(movers, poses, about, axis, step.angle_deg);
    const of = Math.abs(step.angle_deg);
    return { leg, of, most: of, stop: null };
  }
  // a swing's own side is that of the corner, whose right one is an image
  const isRight = start.side === "right";
  const inCar = (p: Vec3): Vec3 => (isRight ? mirror(p) : p);
  const about = inCar(step.about);
  const axis: Vec3 = isRight ? [-step.axis[0], step.axis[1], -step.axis[2]] : step.axis;
  let angle_deg = 0;
  let frees: { place: Vec3; way: Vec3; mm: number } | null = null;
  if (step.by.kind === "angle") angle_deg = step.by.angle_deg;
  else {
    const carried = start.car.poseOf({ mount: step.member, side: start.side }, start.travel_mm);
    const place = applyPose(carried, inCar(step.by.at));
    const way = inCar(step.by.way);
    frees = { place, way, mm: step.by.mm };
    const needs_deg = turnThatFrees(place, about, axis, way, step.by.mm);
    if (needs_deg === null) {
      const leg = turnLeg(movers, poses, about, axis, 0);
      return {
        leg,
        of: 0,
        most: 0,
        stop: { kind: "unreachable", most_mm: mostFreed(place, about, axis, way), needs_mm: step.by.mm },
      };
    }
    angle_deg = needs_deg;
  }
  const needs_deg = Math.abs(angle_deg);
  const isLoose = step.joint !== null && start.removed.includes(step.joint);
  const allows_deg = step.allows_deg === null || isLoose ? Number.POSITIVE_INFINITY : step.allows_deg;
  const most = Math.min(needs_deg, allows_deg);
  const leg = turnLeg(movers, poses, about, axis, Math.sign(angle_deg) * most);
  if (needs_deg <= allows_deg) return { leg, of: needs_deg, most, stop: null };
  const gets = frees && {
    gets_mm: freedBy(frees.place, about, axis, frees.way, Math.sign(angle_deg) * most),
    needs_mm: frees.mm,
  };
  return { leg, of: needs_deg, most, stop: { kind: "bush", joint: step.joint, needs_deg, allows_deg, frees: gets } };
}

function mostFreed(place: Vec3, about: Vec3, axis: Vec3, way: Vec3): number {
  let most = 0;
  for (let angle_deg = -180; angle_deg < 180; angle_deg++) {
    most = Math.max(most, freedBy(place, about, axis, way, angle_deg));
  }
  return most;
}

function turnLeg(
  movers: readonly ModelBody[],
  poses: ReadonlyMap<string, Pose>,
  about: Vec3,
  axis: Vec3,
  angle_deg: number,
): Leg {
  let reach_mm = 0;
  for (const { key, solid } of movers) {
    const pose = poses.get(key)!;
    const { positions } = solid;
    for (let i = 0; i < positions.length; i += 3) {
      const at = applyPose(pose, [positions[i]!, positions[i + 1]!, positions[i + 2]!]);
      reach_mm = Math.max(reach_mm, fromAxis(at, about, axis));
    }
  }
  return { kind: "turn", about, axis, angle_deg, reach_mm };
}
