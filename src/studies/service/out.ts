import type { Vec3 } from "../../maths/vec3.ts";
import type { Side } from "../../scene/scene.ts";
import type { OutJob, ServiceStep, SwingStep } from "../../scene/serviceRecords.ts";
import { type ServiceCar, STATES, type StateName } from "./car.ts";
import type { Sweeps } from "./sweeps.ts";
import { type Walk, type WalkStart, walk } from "./walk.ts";
import { between_deg, LATTICE, waysAround } from "./ways.ts";

/** A straight way that is free all along. */
export interface FreeWay {
  /** Unit vector, as the job's own directions are written. */
  readonly way: Vec3;
  readonly length_mm: number;
  /** From the way that was asked, degrees; null: none was. */
  readonly off_deg: number | null;
}

/** What would let a part out that is stopped. */
export interface OutFreeing {
  /** Instead of the straight step that is stopped, the nearest to it first, at most three. */
  readonly ways: readonly FreeWay[];
  /** Parts that are in the way anywhere on the path: with all of these off too it is free. */
  readonly alsoOff: readonly string[];
  /** Joints whose bolt must be out too. */
  readonly boltsOut: readonly string[];
  /** With the arm swung first. */
  readonly swing: SwingFreeing | null;
}

export interface SwingFreeing {
  readonly member: string;
  readonly angle_deg: number;
  /** What its bush allows; null: not told. */
  readonly allows_deg: number | null;
  readonly joint: string | null;
}

export interface OutState {
  readonly state: StateName;
  readonly travel_mm: number;
  readonly fits: boolean;
  readonly walk: Walk;
  /** Null where it fits. */
  readonly free: OutFreeing | null;
}

/** The length of a straight way that is asked where a job has no steps: the part is then clear of where it was. */
const LEAST_WAY_mm = 100;
const MOST_WAYS = 3;
const MOST_SWING_deg = 40;
const SWING_STEP_deg = 2;
const SWING_END_deg = 0.1;

/** Whether the parts come out at ride height and at full droop, and what would free them. Throws StudyStopped. */
export function tryOut(car: ServiceCar, job: OutJob, side: Side, sweeps: Sweeps): OutState[] {
  const bodies = car.bodiesOf(job.parts, side);
  const isMirrored = side === "right" && bodies.some((body) => body.side === "right");
  return STATES.map((state): OutState => {
    const travel_mm = car.travelOf(state);
    const start: WalkStart = { car, side, travel_mm, parts: job.parts, removed: job.removed, isMirrored };
    if (job.steps.length === 0) {
      const length_mm = sizeOf(bodies.map(({ solid }) => solid.positions)) + LEAST_WAY_mm;
      const ways = LATTICE.flatMap((way): FreeWay[] =>
        isFree(start, [], straight(way, length_mm), [], sweeps) ? [{ way, length_mm, off_deg: null }] : [],
      );
      const nothing: Walk = { steps: [], stop: null, inTheWay: [], nearest: null, leftOut: [] };
      return { state, travel_mm, fits: ways.length > 0, walk: nothing, free: { ...NOTHING, ways } };
    }
    const found = walk(start, job.steps, sweeps);
    const fits = found.stop === null;
    return { state, travel_mm, fits, walk: found, free: fits ? null : freeing(start, job.steps, found, sweeps) };
  });
}

const NOTHING: OutFreeing = { ways: [], alsoOff: [], boltsOut: [], swing: null };

function straight(way: Vec3, length_mm: number): ServiceStep {
  return { kind: "straight", way, length_mm };
}

function sizeOf(positions: readonly Float32Array[]): number {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const each of positions) {
    for (let i = 0; i < each.length; i++) {
      low[i % 3] = Math.min(low[i % 3]!, each[i]!);
      high[i % 3] = Math.max(high[i % 3]!, each[i]!);
    }
  }
  return positions.length === 0 ? 0 : Math.ceil(Math.hypot(...low.map((each, k) => high[k]! - each)));
}

function isFree(
  start: WalkStart,
  before: readonly ServiceStep[],
  step: ServiceStep,
  after: readonly ServiceStep[],
  sweeps: Sweeps,
): boolean {
  return walk(start, [...before, step, ...after], sweeps, "probe").stop === null;
}

function freeing(start: WalkStart, steps: readonly ServiceStep[], { stop }: Walk, sweeps: Sweeps): OutFreeing {
  if (stop === null) return NOTHING;
  if (stop.kind === "held") return { ...NOTHING, boltsOut: stop.joints };
  if (stop.kind === "bush") return { ...NOTHING, boltsOut: stop.joint === null ? [] : [stop.joint] };
  if (stop.kind === "unreachable") return NOTHING;
  const all = walk(start, steps, sweeps, "whole").inTheWay;
  const works = (removed: readonly string[]): boolean =>
    walk({ ...start, removed: [...start.removed, ...removed] }, steps, sweeps, "probe").stop === null;
  // what stops last may be hidden behind a bush that allows no more: only what is proved free is told
  const alsoOff = works(all) ? all : [];
  const step = steps[stop.step]!;
  const before = steps.slice(0, stop.step);
  const after = steps.slice(stop.step + 1);
  const ways: FreeWay[] = [];
  if (step.kind === "straight") {
    for (const way of waysAround(step.way)) {
      if (ways.length >= MOST_WAYS) break;
      const { length_mm } = step;
      if (isFree(start, before, straight(way, length_mm), after, sweeps)) {
        ways.push({ way, length_mm, off_deg: between_deg(way, step.way) });
      }
    }
  }
  return { ways, alsoOff, boltsOut: [], swing: swingThatFrees(start, steps, stop.part, sweeps) };
}

/**
 * The least swing of the one-piece arm that lets the parts by, where what stops them is on it: looked for every 2°, and the one
 * that is told is gone through with the whole path.
 */
function swingThatFrees(
  start: WalkStart,
  steps: readonly ServiceStep[],
  part: string,
  sweeps: Sweeps,
): SwingFreeing | null {
  const { car, side } = start;
  const stopper = car.bodies.find(({ id, ...body }) => id === part && body.side === side);
  if (!stopper || car.clusterOf(stopper.mount) !== "carrier") return null;
  const member = car.scene.members.find(({ kind }) => kind === "ball" || kind === "hinge");
  if (!member) return null;
  const place = steps.findIndex((step) => step.kind === "swing");
  const old = steps[place] as SwingStep | undefined;
  const base: Omit<SwingStep, "by"> = old ?? {
    kind: "swing",
    member: member.id,
    about: member.kind === "ball" ? member.atMounted : member.kind === "hinge" ? member.frontMounted : [0, 0, 0],
    axis: [0, 0, 1],
    allows_deg: null,
    joint: `${member.id}.${member.kind === "ball" ? "at" : "front"}`,
  };
  const swung = (angle_deg: number): boolean => {
    const swing: SwingStep = { ...base, allows_deg: null, by: { kind: "angle", angle_deg } };
    const others = old ? steps.with(place, swing) : [swing, ...steps];
    const { stop } = walk(start, others, sweeps, "probe");
    return stop === null;
  };
  for (let angle = SWING_STEP_deg; angle <= MOST_SWING_deg; angle += SWING_STEP_deg) {
    for (const sense of [-1, 1]) {
      if (!swung(sense * angle)) continue;
      let [low, high] = [angle - SWING_STEP_deg, angle];
      while (high - low > SWING_END_deg) {
        const middle = (low + high) / 2;
        if (swung(sense * middle)) high = middle;
        else low = middle;
      }
      const { allows_deg, joint } = base;
      return { member: base.member, angle_deg: sense * high, allows_deg, joint };
    }
  }
  return null;
}
