import { jointHolds } from "../../check/jointHolds.ts";
import type { Held, Holder } from "../../check/limitStates.ts";
import { limitHolders, limitName } from "../../check/limits.ts";
import type { LimitName } from "../../check/result.ts";
import type { Corner } from "../../kinematics/corner.ts";
import { memberLengths } from "../../kinematics/joints.ts";
import { powertrainPose } from "../../kinematics/powertrain.ts";
import {
  NO_SHAFT,
  outerEnd,
  type Readings,
  readCorner,
  readDamperLength,
  readShaft,
} from "../../kinematics/readings.ts";
import { type InnerJoint, innerJoint } from "../../kinematics/shaft.ts";
import { poseOfTrack } from "../../maths/pose.ts";
import { InputError } from "../../scene/error.ts";
import { shortQuote } from "../../scene/path.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import type { PlaceState, SolvedPlace } from "./placeCorner.ts";

export type Range = readonly [least: number, most: number];

/** What has to hold in a place beside the scene's own clearances and limits. What is left out is not asked. */
export interface PlaceLimits {
  /** Most that toe may be, at any travel, from toe at ride height as the corner is now. */
  readonly toeChange_deg?: number;
  /** Range that camber has to keep to at every travel. */
  readonly camber_deg?: Range;
  /** Most that half the track may be, at any travel, from what it is at ride height now. */
  readonly halfTrackChange_mm?: number;
  readonly damperRatio?: Range;
  /** By the member's id: range of its lengths between two joints that it names (memberLengths). */
  readonly memberLength_mm?: Readonly<Record<string, Range>>;
}

/** One limit of a corner in a place. */
export interface PlaceLimit {
  readonly side: Side | "both";
  /** A limit of the check, with its joint where it has one, or toe-change, camber, half-track-change, damper-ratio, or member-length and the member's id. */
  readonly what: string;
}

/** A limit that is passed, at the state where by most. `limit` is the bound that is passed. */
export interface PassedLimit {
  /** Its number in the list of limits. */
  readonly limit: number;
  readonly value: number;
  readonly bound: number;
  /** −1: at every state. */
  readonly state: number;
}

type WheelHolder = (readings: Readings) => Held;

/** The limits of a study, held against one place after another. */
export class LimitHolders {
  readonly limits: readonly PlaceLimit[];
  private readonly asked: PlaceLimits;
  private readonly leaveOut: readonly string[];
  private readonly ofWheel: readonly (readonly [what: string, hold: WheelHolder])[];
  private readonly sides: readonly Side[];
  private readonly sceneLimits: ReadonlyMap<Side, readonly string[]>;

  /** `corners`: of every side, as they are; `now`: readings at ride height. Throws InputError for limits of members or parts that are not there. */
  constructor(corners: readonly Corner[], now: Readings, asked: PlaceLimits, leaveOut: readonly string[]) {
    const { scene } = corners[0]!;
    this.asked = asked;
    this.leaveOut = leaveOut;
    this.sides = scene.sides;
    for (const id of Object.keys(asked.memberLength_mm ?? {})) {
      const measured = memberLengths(scene).filter(({ lengths }) => lengths.length > 0);
      if (measured.some((member) => member.id === id)) continue;
      const known = measured.map((member) => member.id).join(", ");
      throw new InputError(
        "missing-id",
        { path: "memberLength_mm" },
        `no member ${shortQuote(id)} has a length`,
        known,
      );
    }
    if (asked.damperRatio && !scene.damper) {
      throw new InputError("missing-id", { path: "damperRatio" }, "the scene has no damper", "a scene with a damper");
    }
    this.ofWheel = wheelHolders(asked, now);
    this.sceneLimits = new Map(corners.map((corner) => [corner.side, [...holdersByName(corner, leaveOut).keys()]]));
    this.limits = [
      ...Object.keys(asked.memberLength_mm ?? {}).map((id) => ({ side: "both" as const, what: `member-length ${id}` })),
      ...this.ofWheel.map(([what]) => ({ side: "both" as const, what })),
      ...scene.sides.flatMap((side) => this.sceneLimits.get(side)!.map((what) => ({ side, what }))),
    ];
  }

  /** The first limit of the list that is passed anywhere; null: all hold. */
  passed(place: SolvedPlace, states: readonly PlaceState[]): PassedLimit | null {
    let first = 0;
    for (const [id, range] of Object.entries(this.asked.memberLength_mm ?? {})) {
      const held = memberLengths(place.scene)
        .find((member) => member.id === id)!
        .lengths.map(({ mm }) => within(mm, range))
        .reduce(worse);
      if (held.spare < 0) return { limit: first, value: held.value, bound: held.limit, state: -1 };
      first++;
    }
    return this.passedByWheel(place, states, first) ?? this.passedOfScene(place, states, first + this.ofWheel.length);
  }

  private passedByWheel(place: SolvedPlace, states: readonly PlaceState[], first: number): PassedLimit | null {
    if (this.ofWheel.length === 0) return null;
    const worst: (PassedLimit & { spare: number })[] = [];
    for (const [index, { travel, pose }] of states.entries()) {
      if (pose !== "rest") break;
      const readings = readCorner(place.corners[0]!, poseOfTrack(place.carrier, travel), "rest");
      this.ofWheel.forEach(([, hold], i) => {
        const { value, limit, spare } = hold(readings);
        if (worst[i] && !(spare < worst[i].spare)) return;
        worst[i] = { limit: first + i, value, bound: limit, state: index, spare };
      });
    }
    return firstPassed(worst);
  }

  private passedOfScene(place: SolvedPlace, states: readonly PlaceState[], first: number) {
    const { scene, corners } = place;
    const atStates = readStates(place, states);
    let at = first;
    for (const [s, side] of this.sides.entries()) {
      const names = this.sceneLimits.get(side)!;
      const held = holdersByName(corners[s]!, this.leaveOut);
      const worst: (PassedLimit & { spare: number })[] = [];
      const inner = innerJoints(scene, side);
      const all = names.map((name, i) => ({ i, name, holders: held.get(name) ?? [] }));
      // the rest reads alike on both sides and in all poses
      const ofShaft = all.filter(({ name }) => HANGS_ON_POWERTRAIN.has(name));
      for (const [index, { pose }] of states.entries()) {
        const asked = s === 0 && pose === "rest" ? all : ofShaft;
        if (asked.length === 0) continue;
        const { outer, damper_mm, joints } = atStates[index]!;
        const joint = inner?.(pose);
        const reading = { damper_mm, joints, ...(joint && outer ? readShaft(joint, outer) : NO_SHAFT) };
        for (const { i, holders } of asked) {
          for (const hold of holders) {
            const found = hold(reading);
            if (!found || (worst[i] && !(found.spare < worst[i].spare))) continue;
            worst[i] = { limit: at + i, value: found.value, bound: found.limit, state: index, spare: found.spare };
          }
        }
      }
      const passed = firstPassed(worst);
      if (passed) return passed;
      at += names.length;
    }
    return null;
  }
}

const HANGS_ON_POWERTRAIN: ReadonlySet<string> = new Set<LimitName>(["shaft-length", "inner-angle", "outer-angle"]);

/** What both sides share at each state; what hangs on travel alone is read with the powertrain at rest. */
function readStates({ scene, corners, carrier }: SolvedPlace, states: readonly PlaceState[]) {
  const corner = corners[0]!;
  const { driveshaft, wheel } = scene;
  const joints = jointHolds(corner);
  return states.map(({ travel, pose }) => {
    const left = poseOfTrack(carrier, travel);
    const atRest = pose === "rest";
    return {
      damper_mm: atRest ? readDamperLength(corner, left) : null,
      joints: atRest && joints ? joints.held(left) : null,
      outer: driveshaft && outerEnd(driveshaft, wheel, left),
    };
  });
}

/** Both ends of one length are one limit here. */
function holdersByName(corner: Corner, leaveOut: readonly string[]): Map<string, Holder[]> {
  const byName = new Map<string, Holder[]>();
  for (const limit of limitHolders(corner)) {
    const name = limitName(limit);
    if (leaveOut.includes(limit.what) || leaveOut.includes(name)) continue;
    byName.set(name, [...(byName.get(name) ?? []), limit.hold]);
  }
  return byName;
}

function firstPassed(worst: readonly (PassedLimit & { spare: number })[]): PassedLimit | null {
  // a list with gaps: what holds nothing at any state has none
  const found = worst.find((held) => held && held.spare < 0);
  if (!found) return null;
  const { spare: _spare, ...passed } = found;
  return passed;
}

function wheelHolders(asked: PlaceLimits, now: Readings): [string, WheelHolder][] {
  const list: [string, WheelHolder][] = [];
  const { toeChange_deg, camber_deg, halfTrackChange_mm, damperRatio } = asked;
  if (toeChange_deg !== undefined)
    list.push(["toe-change", ({ toe_deg }) => atMost(toe_deg - now.toe_deg, toeChange_deg)]);
  if (camber_deg) list.push(["camber", (readings) => within(readings.camber_deg, camber_deg)]);
  if (halfTrackChange_mm !== undefined)
    list.push(["half-track-change", ({ halfTrack_mm }) => atMost(halfTrack_mm - now.halfTrack_mm, halfTrackChange_mm)]);
  if (damperRatio) list.push(["damper-ratio", (readings) => within(readings.damperRatio!, damperRatio)]);
  return list;
}

function innerJoints(scene: Scene, side: Side): ((pose: string) => InnerJoint) | null {
  const { driveshaft } = scene;
  if (!driveshaft) return null;
  const known = new Map<string, InnerJoint>();
  return (pose) => {
    const found = known.get(pose) ?? innerJoint(driveshaft, side, powertrainPose(scene, pose));
    known.set(pose, found);
    return found;
  };
}

/** Of a change either way. */
function atMost(change: number, most: number): Held {
  return { value: change, limit: Math.sign(change || 1) * most, spare: most - Math.abs(change) };
}

function within(value: number, [least, most]: Range): Held {
  return value - least <= most - value
    ? { value, limit: least, spare: value - least }
    : { value, limit: most, spare: most - value };
}

function worse(one: Held, other: Held): Held {
  return other.spare < one.spare ? other : one;
}
