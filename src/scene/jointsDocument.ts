import { above, choice, direction, list, name, number, record } from "./values.ts";

export const JOINT_KINDS = ["rod end", "ball joint", "bush"] as const;

const limit_deg = above(0, 180, "degrees");

/** How a joint of the corner is made, and how far it may tilt and turn. Nothing is drawn or checked for clearance from it. */
const joint = record({
  /** "upper.inboard", "damper.top"; the driveshaft's joints have limits of their own. */
  joint: name,
  kind: choice(JOINT_KINDS),
  /** Of the bolt or stud, as drawn; left out: the bush axis, inboard line or own axis of its member. */
  axis: direction.optional(),
  /** How far its two halves may lean against each other, as the maker says. */
  tilt_deg: limit_deg.optional(),
  /** How far a bonded bush may be wound up from where it was tightened, at ride height. */
  twist_deg: limit_deg.optional(),
  /** By how much its bracket may stand crooked, in the worst direction. */
  crooked_deg: number(0, 45, "degrees").optional(),
});

export const joints = list(joint, 0, 200);

/** What the side view needs to know of the car as a whole. */
export const vehicle = record({
  wheelbase_mm: above(0, 20_000, "mm"),
  /** Height of the whole car's centre of gravity above the ground, at ride height. */
  cgHeight_mm: above(0, 5000, "mm"),
  /** Share of the braking force at the rear wheels. */
  rearBrakeShare: number(0, 1).optional(),
});
