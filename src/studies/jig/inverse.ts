import { readCorner } from "../../kinematics/readings.ts";
import { add, length, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { withBoltedUp } from "../../scene/points.ts";
import { resolveScene } from "../../scene/resolve.ts";
import { cornerAtRide, DIRECTIONS, type MountRates, mountRates, mountsOf } from "./sensitivity.ts";

/** Angles that are wanted at ride height; what is left out may be any. */
export interface WantedAngles {
  readonly toe_deg?: number;
  readonly camber_deg?: number;
}

export interface MountCorrection {
  readonly point: string;
  /** The smallest move from where the mount is now, car coordinates of the left side, mm. */
  readonly by: Vec3;
  readonly toe_deg: number;
  readonly camber_deg: number;
}

const ROUNDS = 30;
const CLOSE_deg = 1e-9;
/** A mount is not sent farther than this, mm. */
const FARTHEST_mm = 200;

/**
 * Where a mount must go for toe and camber at ride height to be right, every part as it is: the smallest move, by Newton steps with the exact
 * derivative (least norm: d = Gᵀ(GGᵀ)⁻¹(wanted − now + G·d)). Null where no move of this mount alone gets there. Throws InputError for a
 * name that is no mount of a member.
 */
export function correctMount(document: SceneDocument, point: string, wanted: WantedAngles): MountCorrection | null {
  const scene = resolveScene(document);
  const mount = mountsOf(document, scene).find((each) => each.point === point);
  const start = scene.points.get(point);
  if (!mount || !start) {
    const known = mountsOf(document, scene).map((each) => each.point);
    throw new InputError("missing-point", { path: "mount" }, `no member is held at "${point}"`, known.join(", "));
  }
  const keys = (["toe_deg", "camber_deg"] as const).filter((key) => wanted[key] !== undefined);
  if (keys.length === 0)
    throw new InputError("wrong-value", { path: "mount" }, "no angle is wanted", "toe, camber or both");
  const from = start.boltedUpAt ?? start.at;
  let by: Vec3 = [0, 0, 0];
  for (let round = 0; round < ROUNDS; round++) {
    const state = angledAt(withBoltedUp(document, point, add(from, by)));
    if (!state) return null;
    const { corner, pose, toe_deg, camber_deg } = state;
    const readings = { toe_deg, camber_deg };
    const missing = keys.map((key) => wanted[key]! - readings[key]);
    if (missing.every((value) => Math.abs(value) < CLOSE_deg)) return { point, by, toe_deg, camber_deg };
    const rates = mountRates(corner, mount, pose);
    const next = rates && leastMove(rates, keys, missing, by);
    if (!next || length(subtract(next, by)) > FARTHEST_mm || length(next) > FARTHEST_mm) return null;
    by = next;
  }
  return null;
}

function angledAt(document: SceneDocument) {
  try {
    const { corner, pose } = cornerAtRide(resolveScene(document));
    const { toe_deg, camber_deg } = readCorner(corner, pose, "rest");
    return { corner, pose, toe_deg, camber_deg };
  } catch (error) {
    if (error instanceof InputError && error.code === "out-of-reach") return null;
    throw error;
  }
}

/** Null where the mount does not move the angles, or moves both only together. */
function leastMove(
  rates: MountRates,
  keys: readonly ("toe_deg" | "camber_deg")[],
  missing: readonly number[],
  by: Vec3,
): Vec3 | null {
  const rows = keys.map((key) => DIRECTIONS.map((direction) => rates[direction][key]) as unknown as Vec3);
  const right = rows.map((row, i) => missing[i]! + row[0] * by[0] + row[1] * by[1] + row[2] * by[2]);
  const product = (a: Vec3, b: Vec3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const [first, second] = rows as [Vec3, Vec3?];
  const squared = product(first, first);
  if (!(squared > FEEBLE ** 2)) return null;
  if (!second) return first.map((value) => (value * right[0]!) / squared) as unknown as Vec3;
  const across = product(first, second);
  const other = product(second, second);
  const determinant = squared * other - across * across;
  if (!(determinant > FEEBLE ** 2 * squared)) return null;
  const a = (other * right[0]! - across * right[1]!) / determinant;
  const b = (squared * right[1]! - across * right[0]!) / determinant;
  return first.map((value, k) => a * value + b * second[k]!) as unknown as Vec3;
}

/** A mount that turns an angle by less than this, degrees per mm, does not set it. */
const FEEBLE = 1e-5;
