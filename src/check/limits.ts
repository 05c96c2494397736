import { type Corner, solveCorner } from "../kinematics/corner.ts";
import { readCorner } from "../kinematics/readings.ts";
import type { Pose } from "../maths/pose.ts";
import type { PowertrainPose, Scene } from "../scene/scene.ts";
import { jointHolds } from "./jointHolds.ts";
import { type Held, type Holder, type Reading, worstStates } from "./limitStates.ts";
import type { LimitName, LimitVerdict, StateAt } from "./result.ts";
import type { SideRun } from "./tracks.ts";

/** Closeness to which the travel where a limit is passed is told. */
const PASSED_MM = 0.001;

/**
 * Every limit the scene states, each with its worst value over all travels, the given powertrain poses of one side and the
 * ways to them from rest. Of the two ends of one length the one with less to spare comes first.
 */
export function limitsOf(scene: Scene, sideRun: SideRun, poses: readonly PowertrainPose[]): LimitVerdict[] {
  const limits: LimitVerdict[] = [];
  const list = limitHolders(sideRun.corner);
  const worst = worstStates(
    sideRun,
    poses,
    list.map(({ hold }) => hold),
  );
  const told = list.map((limit, i) => ({ ...limit, held: worst[i]! }));
  const { corner } = sideRun;
  const read = readingsOf(corner);
  for (const { what, joint, hold, held } of lessSpareFirst(told)) {
    if (!held) continue;
    const { value, limit, spare, at } = held;
    limits.push({
      side: sideRun.side,
      what,
      ...(joint === undefined ? {} : { joint }),
      verdict: spare < 0 ? "clash" : "clear",
      value,
      limit,
      at,
      passedAt_mm:
        spare < 0
          ? passedAt(sideRun, (travel_mm) => hold(read(solveCorner(corner, travel_mm).pose, at))?.spare ?? 0, at)
          : null,
    });
  }
  const { bindsAt_mm } = sideRun.run;
  if (bindsAt_mm !== null) {
    limits.push({
      side: sideRun.side,
      what: "binds",
      verdict: "clash",
      value: bindsAt_mm,
      limit:
        bindsAt_mm > 0 || (bindsAt_mm === 0 && sideRun.run.to_mm === 0) ? scene.travel.bump_mm : -scene.travel.droop_mm,
      at: { travel_mm: bindsAt_mm, pose: "rest" },
      passedAt_mm: bindsAt_mm,
    });
  }
  return limits;
}

/** The two ends of one length stand next to each other in the list. */
function lessSpareFirst<Told extends Named & { readonly held: Held | null }>(told: readonly Told[]): Told[] {
  const spare = ({ held }: Told) => held?.spare ?? Number.POSITIVE_INFINITY;
  const sorted = [...told];
  for (let i = 1; i < sorted.length; i++) {
    const [one, other] = [sorted[i - 1]!, sorted[i]!];
    if (limitName(one) === limitName(other) && spare(other) < spare(one)) [sorted[i - 1], sorted[i]] = [other, one];
  }
  return sorted;
}

interface Named {
  readonly what: LimitName;
  readonly joint?: string;
}

/** "shaft-length", "joint-tilt upper.inboard". */
export function limitName({ what, joint }: Named): string {
  return joint === undefined ? what : `${what} ${joint}`;
}

export interface LimitHolder extends Named {
  readonly hold: Holder;
}

/** What the scene holds of one corner against limits. */
export function limitHolders(corner: Corner): LimitHolder[] {
  const { damper, driveshaft } = corner.scene;
  const list: LimitHolder[] = [];
  const add = (what: LimitName, of: (reading: Reading) => number | null, least: number | null, most: number | null) => {
    if (least !== null)
      list.push({ what, hold: (reading) => heldAgainst(of(reading), least, (value) => value - least) });
    if (most !== null) list.push({ what, hold: (reading) => heldAgainst(of(reading), most, (value) => most - value) });
  };
  if (driveshaft) {
    const { shortest_mm, longest_mm, angleLimit_deg } = driveshaft.inner[corner.side];
    add("shaft-length", ({ shaft_mm }) => shaft_mm, shortest_mm, longest_mm);
    add("inner-angle", ({ innerAngle_deg }) => innerAngle_deg, null, angleLimit_deg);
    add("outer-angle", ({ outerAngle_deg }) => outerAngle_deg, null, driveshaft.outerAngleLimit_deg);
  }
  if (damper) {
    const { closed_mm, open_mm, stopSolid_mm, strapTight_mm, springSolid_mm, springAtRide_mm } = damper;
    const length = ({ damper_mm }: Reading) => damper_mm;
    add("damper-length", length, closed_mm, open_mm);
    add("stop", length, stopSolid_mm, null);
    add("strap", length, null, strapTight_mm);
    if (springSolid_mm !== null && springAtRide_mm !== null)
      list.push(coilBind(corner, springAtRide_mm, springSolid_mm));
  }
  jointHolds(corner)?.limits.forEach(({ what, joint }, i) => {
    list.push({ what, joint, hold: ({ joints }) => joints?.[i] ?? null });
  });
  return list;
}

function heldAgainst(value: number | null, limit: number, spareOf: (value: number) => number): Held | null {
  return value === null ? null : { value, limit, spare: spareOf(value) };
}

/** The spring, so long at ride height, against its length with the turns touching: both its seats ride with the damper's halves. */
export function coilBind(corner: Corner, atRide_mm: number, solid_mm: number): LimitHolder {
  const shorter_mm = readCorner(corner, corner.ridePose, "rest").damper_mm! - atRide_mm;
  return {
    what: "coil-bind",
    hold: ({ damper_mm }) =>
      heldAgainst(damper_mm === null ? null : damper_mm - shorter_mm, solid_mm, (value) => value - solid_mm),
  };
}

/** What limits are held against, at any carrier pose (left frame) and powertrain pose of a corner. */
export function readingsOf(corner: Corner): (carrier: Pose, at: Pick<StateAt, "pose" | "share">) => Reading {
  const joints = jointHolds(corner);
  return (carrier, { pose, share }) => ({
    ...readCorner(corner, carrier, pose, share),
    joints: joints?.held(carrier) ?? null,
  });
}

/** Goes out from ride height towards the worst state and bisects for where the spare runs out; 0 when it has none there. */
function passedAt({ run }: SideRun, spareAt: (travel_mm: number) => number, at: StateAt): number {
  if (spareAt(0) < 0) return 0;
  const outward = [...run.travel_mm].filter((travel_mm) => travel_mm * at.travel_mm > 0);
  if (at.travel_mm < 0) outward.reverse();
  let good_mm = 0;
  let passed_mm = at.travel_mm;
  for (const travel_mm of outward) {
    if (spareAt(travel_mm) < 0) {
      passed_mm = travel_mm;
      break;
    }
    good_mm = travel_mm;
  }
  while (Math.abs(passed_mm - good_mm) > PASSED_MM) {
    const middle_mm = (good_mm + passed_mm) / 2;
    if (spareAt(middle_mm) < 0) passed_mm = middle_mm;
    else good_mm = middle_mm;
  }
  return passed_mm;
}
