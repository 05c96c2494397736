import type { CornerLoads } from "../../loads/forces.ts";
import { add, length, scale, type Vec3 } from "../../maths/vec3.ts";
import { partOfJoint } from "../../scene/jointNames.ts";

/** The wheel's contact among the arrows. */
export const GROUND = "ground";

/** A force drawn in the car: from where it acts, as long as it is large. */
export interface Arrow {
  /** A joint, or GROUND. */
  readonly id: string;
  readonly tail: Vec3;
  readonly tip: Vec3;
  readonly force_N: number;
}

/** The longest arrow at ride height is between these two, mm of the car. */
const LONGEST_mm = 420;
/** Forces smaller than this are rounding. */
const NOTHING_N = 1e-6;

/** Every force of one state; what is nothing has no arrow. */
export function arrowsOf({ ground, joints }: CornerLoads, mm_per_N: number): Arrow[] {
  const all = [{ id: GROUND, ...ground }, ...joints];
  return all.flatMap(({ id, at, force_N }) => {
    const size = length(force_N);
    if (size < NOTHING_N) return [];
    return [{ id, tail: at, tip: add(at, scale(force_N, mm_per_N)), force_N: size }];
  });
}

/**
 * Length of an arrow for a newton: the largest of 1, 2 and 5 times a power of ten with which no force of the states is
 * longer than LONGEST_mm. In steps, so that arrows of two states can mostly be compared.
 */
export function arrowScale(states: readonly (CornerLoads | null)[]): number {
  const forces = states.flatMap((state) => (state ? [state.ground, ...state.joints] : []));
  const largest_N = forces.reduce((most, { force_N }) => Math.max(most, length(force_N)), 0);
  return largest_N < NOTHING_N ? 1 : roundDown(LONGEST_mm / largest_N);
}

/** The largest of 1, 2 and 5 times a power of ten that is not above the value. */
export function roundDown(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const digit = [5, 2, 1].find((each) => each * power <= value * (1 + 1e-12)) ?? 1;
  return digit * power;
}

/** Whether the arrow is the picked one, or at a joint of the picked part. */
export function isPicked({ id }: Pick<Arrow, "id">, picked: string | null): boolean {
  return picked !== null && (id === picked || (id !== GROUND && partOfJoint(id) === picked));
}

interface Flat {
  readonly x: number;
  readonly y: number;
}

const HEAD_px = 15;
const HALF_HEAD_px = 6;
/** Seen shorter than this an arrow has no head. */
const LEAST_px = 5;

/** Shaft and head of an arrow in the picture as paths; the head shrinks with a short arrow. */
export function arrowPaths(tail: Flat, tip: Flat): { readonly shaft: string; readonly head: string } {
  const [dx, dy] = [tip.x - tail.x, tip.y - tail.y];
  const seen = Math.hypot(dx, dy);
  if (seen < LEAST_px) return { shaft: `M${px(tail.x)} ${px(tail.y)}L${px(tip.x)} ${px(tip.y)}`, head: "" };
  const [ux, uy] = [dx / seen, dy / seen];
  const head = Math.min(HEAD_px, seen * 0.6);
  const half = HALF_HEAD_px * (head / HEAD_px);
  const [bx, by] = [tip.x - ux * head, tip.y - uy * head];
  return {
    shaft: `M${px(tail.x)} ${px(tail.y)}L${px(bx)} ${px(by)}`,
    head: `M${px(tip.x)} ${px(tip.y)}L${px(bx - uy * half)} ${px(by + ux * half)}L${px(bx + uy * half)} ${px(by - ux * half)}Z`,
  };
}

function px(value: number): string {
  return value.toFixed(1);
}

/** Distance of a place of the picture from the stretch between two others. */
export function awayFromStretch(at: Flat, from: Flat, to: Flat): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, ((at.x - from.x) * dx + (at.y - from.y) * dy) / square));
  return Math.hypot(at.x - from.x - share * dx, at.y - from.y - share * dy);
}
