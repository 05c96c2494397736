import { POSE_SIZE } from "../maths/pose.ts";
import type { Extent } from "./bound.ts";
import { farthestSquared } from "./placeBound.ts";

/** Where everything is with the hard point in one place, at each state that is asked. */
export interface PlacePoses {
  /** 12 numbers a frame, one frame after another, one state after another: frame f at state s begins at 12·(s·frames + f). */
  readonly poses: Float64Array;
  /** States before `first`, and `end` and later ones, do not exist in this place: the corner locks before it gets there. */
  readonly first: number;
  readonly end: number;
}

/** A body as it goes from place to place: where it is at each state, and how far its points have come at the most. */
export class PlaceBody {
  /** A box that holds the body as it is drawn, and as it was drawn before. */
  readonly extent: Extent;
  readonly stands: boolean;
  /** 12 a state: its pose at the place in hand; where that lacks the state, at the last place that had it. */
  readonly poses: Float64Array;
  /** Per state: no point has come farther than this in all, and from the last place to this one, mm. */
  readonly way_mm: Float64Array;
  readonly step_mm: Float64Array;
  /** No point has come farther than this in all, in any state. */
  farthestWay_mm = 0;
  /** How far points have come by being drawn elsewhere, in design axes; part of all ways. */
  redrawn_mm = 0;
  private readonly frame: number;
  private readonly seen: Uint8Array;
  /** Per state: one no later in which a body most often stands as in it, and whether this one did at the last place. */
  private readonly alike: Int32Array;
  private readonly wasAlike: Uint8Array;
  /** As it was drawn first. */
  private readonly drawnWithin: Extent;

  /** `frame`: which of a place's poses carries it; null: it stands as it is drawn. */
  constructor(extent: Extent, frame: number | null, alike: Int32Array) {
    const stateCount = alike.length;
    this.alike = alike;
    this.wasAlike = new Uint8Array(stateCount);
    this.drawnWithin = extent;
    this.extent = Float64Array.from(extent);
    this.stands = frame === null;
    this.frame = frame ?? -1;
    this.poses = new Float64Array(POSE_SIZE * stateCount);
    this.way_mm = new Float64Array(stateCount);
    this.step_mm = new Float64Array(stateCount);
    this.seen = new Uint8Array(stateCount);
    if (this.stands) for (let i = 0; i < this.poses.length; i += POSE_SIZE) this.poses.set(UPRIGHT, i);
  }

  /** The next place is the first, of the body as it was drawn first. */
  forget(): void {
    for (let k = 0; k < 6; k++) this.extent[k] = this.drawnWithin[k]!;
    this.farthestWay_mm = 0;
    this.redrawn_mm = 0;
    this.way_mm.fill(0);
    this.step_mm.fill(0);
    this.seen.fill(0);
    this.wasAlike.fill(0);
  }

  /** From here on the body is drawn within this box, every point of it at most so far from where it was drawn before. */
  redraw(extent: Extent, moved_mm: number): void {
    for (let k = 0; k < 3; k++) {
      this.extent[k] = Math.min(this.extent[k]!, extent[k]!);
      this.extent[k + 3] = Math.max(this.extent[k + 3]!, extent[k + 3]!);
    }
    this.redrawn_mm += moved_mm;
    this.farthestWay_mm += moved_mm;
    for (let state = 0; state < this.way_mm.length; state++) this.way_mm[state]! += moved_mm;
  }

  goTo(place: PlacePoses, frameCount: number): void {
    if (this.stands) return;
    const { extent, poses, way_mm, step_mm, seen, alike, wasAlike } = this;
    // a state that is passed over does not go along with its like
    wasAlike.fill(0, 0, place.first);
    wasAlike.fill(0, place.end);
    let farthest = 0;
    for (let state = place.first; state < place.end; state++) {
      const from = POSE_SIZE * (state * frameCount + this.frame);
      const to = POSE_SIZE * state;
      const like = alike[state]!;
      const twin = POSE_SIZE * (like * frameCount + this.frame);
      const isAlike = like < state && like >= place.first && isSameAt(place.poses, twin, place.poses, from);
      const stays = isAlike && wasAlike[state] === 1;
      wasAlike[state] = isAlike ? 1 : 0;
      if (seen[state] === 1) {
        // what the points carry nowhere stands still from place to place, most often the whole powertrain
        const step = stays
          ? step_mm[like]!
          : isSameAt(poses, to, place.poses, from)
            ? 0
            : Math.sqrt(farthestSquared(poses, to, place.poses, from, extent));
        step_mm[state] = step;
        way_mm[state] = way_mm[state]! + step;
        if (step > farthest) farthest = step;
      }
      seen[state] = 1;
      for (let k = 0; k < POSE_SIZE; k++) poses[to + k] = place.poses[from + k]!;
    }
    this.farthestWay_mm += farthest;
  }
}

function isSameAt(p: Float64Array, at: number, q: Float64Array, from: number): boolean {
  for (let k = 0; k < POSE_SIZE; k++) if (p[at + k] !== q[from + k]) return false;
  return true;
}

const UPRIGHT = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0];

/** The pose of b as a sees it at a state: inverse(pose of a) ∘ (pose of b). */
export function relativePose(a: PlaceBody, b: PlaceBody, state: number, out: Float64Array): void {
  const at = POSE_SIZE * state;
  const p = a.poses;
  const q = b.poses;
  if (a.stands) {
    for (let k = 0; k < POSE_SIZE; k++) out[k] = q[at + k]!;
    return;
  }
  const dx = q[at + 3]! - p[at + 3]!;
  const dy = q[at + 7]! - p[at + 7]!;
  const dz = q[at + 11]! - p[at + 11]!;
  for (let row = 0; row < 3; row++) {
    const x = p[at + row]!;
    const y = p[at + 4 + row]!;
    const z = p[at + 8 + row]!;
    const to = 4 * row;
    out[to] = x * q[at]! + y * q[at + 4]! + z * q[at + 8]!;
    out[to + 1] = x * q[at + 1]! + y * q[at + 5]! + z * q[at + 9]!;
    out[to + 2] = x * q[at + 2]! + y * q[at + 6]! + z * q[at + 10]!;
    out[to + 3] = x * dx + y * dy + z * dz;
  }
}
