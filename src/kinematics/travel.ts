import { POSE_SIZE } from "../maths/pose.ts";
import { barLocks } from "./antiRollBar.ts";
import type { Corner } from "./corner.ts";

export interface TravelRange {
  readonly bump_mm: number;
  readonly droop_mm: number;
  /** Distance between knots, counted from ride height. */
  readonly step_mm: number;
}

/** The carrier through its travel. */
export interface TravelRun {
  /** Ascending, from −droop (or the lock) to bump (or the lock); always holds 0. */
  readonly travel_mm: Float64Array;
  /** 12 numbers a knot, left frame. */
  readonly carrier: Float64Array;
  /** Where the corner locks within the range, the one nearer to ride height; null: it runs through. */
  readonly bindsAt_mm: number | null;
  /** Range that was reached. */
  readonly from_mm: number;
  readonly to_mm: number;
}

/** Closeness to which the lock of the anti-roll bar is found. */
const BAR_LOCK_mm = 0.001;

/**
 * Runs the corner out from ride height both ways. Where it locks (its members, or the bar's drop link), the run ends
 * at the last travel it reaches, within 0.01 mm of the lock. Residuals of every pose are below 1e-9 mm.
 */
export function runTravel(corner: Corner, range: TravelRange): TravelRun {
  const up = oneWay(corner, range.bump_mm, range.step_mm);
  const down = oneWay(corner, -range.droop_mm, range.step_mm);
  const count = down.count + 1 + up.count;
  const travel_mm = new Float64Array(count);
  const carrier = new Float64Array(count * POSE_SIZE);
  for (let i = 0; i < down.count; i++) {
    const to = down.count - 1 - i;
    travel_mm[to] = down.travel_mm[i]!;
    carrier.set(down.carrier.subarray(i * POSE_SIZE, (i + 1) * POSE_SIZE), to * POSE_SIZE);
  }
  carrier.set(corner.ridePose, down.count * POSE_SIZE);
  travel_mm.set(up.travel_mm.subarray(0, up.count), down.count + 1);
  carrier.set(up.carrier.subarray(0, up.count * POSE_SIZE), (down.count + 1) * POSE_SIZE);
  return {
    travel_mm,
    carrier,
    bindsAt_mm: nearerToRide(up.bindsAt_mm, down.bindsAt_mm),
    from_mm: travel_mm[0]!,
    to_mm: travel_mm[count - 1]!,
  };
}

interface OneWay {
  readonly travel_mm: Float64Array;
  readonly carrier: Float64Array;
  readonly count: number;
  readonly bindsAt_mm: number | null;
}

function oneWay(corner: Corner, end_mm: number, step_mm: number): OneWay {
  const knots = knotsTo(end_mm, step_mm);
  const carrier = new Float64Array(knots.length * POSE_SIZE);
  const { solver } = corner;
  const { antiRollBar } = corner.scene;
  solver.reset();
  for (let i = 0; i < knots.length; i++) {
    const through = solver.moveTo(knots[i]!);
    const pose = carrier.subarray(i * POSE_SIZE, (i + 1) * POSE_SIZE);
    solver.writePose(pose);
    if (antiRollBar && barLocks(corner, pose)) {
      const free_mm = lastFree(corner, i === 0 ? 0 : knots[i - 1]!, solver.travel_mm, pose);
      knots[i] = free_mm;
      return { travel_mm: knots, carrier, count: free_mm === 0 ? 0 : i + 1, bindsAt_mm: free_mm };
    }
    if (!through) {
      const before = i === 0 ? 0 : knots[i - 1]!;
      const moved = solver.travel_mm !== before;
      knots[i] = solver.travel_mm;
      return { travel_mm: knots, carrier, count: moved ? i + 1 : i, bindsAt_mm: solver.travel_mm };
    }
  }
  return { travel_mm: knots, carrier, count: knots.length, bindsAt_mm: null };
}

/** Bisects for the last travel at which the drop link still reaches; leaves the carrier's pose there in `pose`. */
function lastFree(corner: Corner, from_mm: number, to_mm: number, pose: Float64Array): number {
  const { solver } = corner;
  let free_mm = from_mm;
  let locked_mm = to_mm;
  const trial = new Float64Array(POSE_SIZE);
  while (Math.abs(locked_mm - free_mm) > BAR_LOCK_mm) {
    const middle_mm = (free_mm + locked_mm) / 2;
    // from where the members themselves lock there may be no way back
    solver.reset();
    solver.moveTo(middle_mm);
    solver.writePose(trial);
    if (barLocks(corner, trial)) locked_mm = middle_mm;
    else free_mm = middle_mm;
  }
  solver.reset();
  solver.moveTo(free_mm);
  solver.writePose(pose);
  return free_mm;
}

/** Whole steps from ride height (left out) to the end, which is always the last. */
function knotsTo(end_mm: number, step_mm: number): Float64Array {
  const reach = Math.abs(end_mm);
  const knots: number[] = [];
  for (let k = 1; k * step_mm < reach - 1e-6; k++) knots.push(Math.sign(end_mm) * tidy(k * step_mm));
  if (reach > 0) knots.push(end_mm);
  return Float64Array.from(knots);
}

/** 3 × 0.1 is 0.3, not 0.30000000000000004. */
function tidy(value: number): number {
  return Math.round(value * 1e9) / 1e9;
}

function nearerToRide(a: number | null, b: number | null): number | null {
  if (a === null || b === null) return a ?? b;
  return Math.abs(b) < Math.abs(a) ? b : a;
}
