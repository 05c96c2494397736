import { solveCorner } from "../kinematics/corner.ts";
import { readCorner } from "../kinematics/readings.ts";
import type { PowertrainPose, Scene, Side } from "../scene/scene.ts";
import { type Held, type Holder, worstStates } from "./limitStates.ts";
import type { LimitName, LimitVerdict, StateAt } from "./result.ts";
import type { SideRun } from "./tracks.ts";

/** Closeness to which the travel where a limit is passed is told. */
const PASSED_MM = 0.001;

/**
 * Every limit the scene states, each with its worst value over all travels, the given powertrain poses of one side and the
 * ways to them from rest.
 */
export function limitsOf(scene: Scene, sideRun: SideRun, poses: readonly PowertrainPose[]): LimitVerdict[] {
  const limits: LimitVerdict[] = [];
  const list = holders(scene, sideRun.side);
  const worst = worstStates(
    sideRun,
    poses,
    list.map(([, hold]) => hold),
  );
  for (const [i, [what, hold]] of list.entries()) {
    const held = worst[i];
    if (!held) continue;
    const { value, limit, spare, at } = held;
    limits.push({
      side: sideRun.side,
      what,
      verdict: spare < 0 ? "clash" : "clear",
      value,
      limit,
      at,
      passedAt_mm: spare < 0 ? passedAt(sideRun, hold, at) : null,
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

/** What the scene holds of one side against limits. */
export function holders(scene: Scene, side: Side): [LimitName, Holder][] {
  const { damper, driveshaft } = scene;
  const list: [LimitName, Holder][] = [];
  if (driveshaft) {
    const { shortest_mm, longest_mm, angleLimit_deg } = driveshaft.inner[side];
    list.push(["shaft-length", ({ shaft_mm }) => between(shaft_mm, shortest_mm, longest_mm)]);
    list.push(["inner-angle", ({ innerAngle_deg }) => between(innerAngle_deg, null, angleLimit_deg)]);
    list.push(["outer-angle", ({ outerAngle_deg }) => between(outerAngle_deg, null, driveshaft.outerAngleLimit_deg)]);
  }
  if (damper) {
    list.push(["damper-length", ({ damper_mm }) => between(damper_mm, damper.closed_mm, damper.open_mm)]);
    list.push(["stop", ({ damper_mm }) => between(damper_mm, damper.stopSolid_mm, null)]);
  }
  return list;
}

/** Against the nearer of two bounds. */
function between(value: number | null, least: number | null, most: number | null): Held | null {
  if (value === null) return null;
  const low = least === null ? null : { value, limit: least, spare: value - least };
  const high = most === null ? null : { value, limit: most, spare: most - value };
  if (low && high) return low.spare <= high.spare ? low : high;
  return low ?? high;
}

/** Goes out from ride height towards the worst state and bisects for where the spare runs out; 0 when it has none there. */
function passedAt({ corner, run }: SideRun, hold: Holder, at: StateAt): number {
  const spareAt = (travel_mm: number) =>
    hold(readCorner(corner, solveCorner(corner, travel_mm).pose, at.pose, at.share))?.spare ?? 0;
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
