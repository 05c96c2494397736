import { applyPose, POSE_SIZE, poseOfTrack } from "../maths/pose.ts";
import { cross, dot, length, mirror, subtract, type Vec3 } from "../maths/vec3.ts";
import type { Driveshaft, PowertrainPose, Scene, Side } from "../scene/scene.ts";
import { placedPose } from "./powertrain.ts";
import { drawnShaftLine, innerJoint } from "./shaft.ts";

/**
 * Bounds for the points of a body at one travel while the powertrain rocks from rest (share 0) to a pose (share 1):
 * the largest speed a unit of share, mm, and the largest acceleration a unit of share squared, mm.
 */
export interface RockReach {
  readonly speed_mm: number;
  readonly bend_mm: number;
}

export function rocks({ angle_deg, shift_mm }: PowertrainPose): boolean {
  return angle_deg !== 0 || length(shift_mm) > 0;
}

/** Distance of a point, with the powertrain in its place at rest, from the axis of the pose. */
export function axisDistance({ about, axis }: PowertrainPose, placed: Vec3): number {
  return length(cross(axis, subtract(placed, about)));
}

/**
 * Of a body on the powertrain whose points lie at most `farthest_mm` from the axis: p(s) = about + R(sθ)(p − about) + s·shift,
 * so |p'| = |θ·axis × R(sθ)(p − about) + shift| ≤ θ·farthest + |shift| and |p″| ≤ θ²·farthest. Exact in the share.
 */
export function powertrainReach({ angle_deg, shift_mm }: PowertrainPose, farthest_mm: number): RockReach {
  const angle = (Math.abs(angle_deg) * Math.PI) / 180;
  return { speed_mm: angle * farthest_mm + length(shift_mm), bend_mm: angle * angle * farthest_mm };
}

/** Past this turn from the drawn line, rad, a least turn may spin as fast as it likes. */
const MOST_TURN = Math.PI / 2;
/** Motions between two knots are screws: what a share does there strays from what it does at the knots by far less than this. */
const BETWEEN_KNOTS = 1.01;

/**
 * Of a body on the driveshaft whose points lie at most `farthest_mm` from the outer joint, over the carrier poses of
 * `atRest`. With the outer joint o held, the inner joint c(s) at |c'| ≤ V, |c″| ≤ C (powertrainReach)
 * and the least length ℓ = min |o − c|, the direction u of the shaft has
 *
 *   |u'| ≤ w = V/ℓ,   |u″| ≤ a = C/ℓ + √2·w²,
 *
 * the second because across u it is (−c″ − 2ℓ'u')/ℓ with 2·|ℓ'|·ℓ|u'| ≤ ℓ'² + ℓ²u'² ≤ V², and −|u'|² along u. The body
 * turns by the least rotation R from the drawn direction d to u. With φ the largest angle between d and u and τ = tan(φ/2):
 *
 * - R turns at |u'|/cos(φ/2) at most: its rate is φ'e + α'(d − u) with α the azimuth of u about d and e square to d and u,
 *   so that its square is φ'² + 4α'²sin²(φ/2), against |u'|² = φ'² + α'²sin²φ.
 * - Rx = (d·u)x + v × x + v(v·x)/(1 + d·u) with v = d × u (Rodrigues), differentiated twice, with |v| = sin φ, |v'| ≤ w,
 *   |v″| ≤ a, |(d·u)'| ≤ w·sin φ, |(d·u)″| ≤ a and sin φ/(1 + cos φ) = τ, stays below
 *   |x|·((1 + (1 + τ)²)·a + (1 + 9τ²)·w²).
 *
 * Every point is o + Rx with |x| ≤ farthest. Both are Infinity where the inner joint may come so near to the outer one, or
 * the shaft turn so far from where it is drawn, that this says nothing.
 */
export function shaftReach(pose: PowertrainPose, atRest: ShaftAtRest, farthest_mm: number): RockReach {
  const { inner: rest, shortest_mm, turn } = atRest;
  const inner = powertrainReach(pose, axisDistance(pose, rest));
  const least_mm = shortest_mm - inner.speed_mm;
  const w = inner.speed_mm / least_mm;
  const angle = turn + w;
  if (!(least_mm > 0 && angle < MOST_TURN)) {
    return { speed_mm: Number.POSITIVE_INFINITY, bend_mm: Number.POSITIVE_INFINITY };
  }
  const a = inner.bend_mm / least_mm + Math.SQRT2 * w * w;
  const t = Math.tan(angle / 2);
  const bend = (1 + (1 + t) ** 2) * a + (1 + 9 * t * t) * w * w;
  return {
    speed_mm: (BETWEEN_KNOTS * farthest_mm * w) / Math.cos(angle / 2),
    bend_mm: BETWEEN_KNOTS * farthest_mm * bend,
  };
}

/** The driveshaft over some carrier poses, the powertrain at rest. */
export interface ShaftAtRest {
  /** The inner joint, car coordinates. */
  readonly inner: Vec3;
  readonly shortest_mm: number;
  /** The largest turn from the drawn line, rad. */
  readonly turn: number;
}

/** `carriers`: 12 numbers a pose, left frame. */
export function shaftAtRest(scene: Scene, driveshaft: Driveshaft, side: Side, carriers: Float64Array): ShaftAtRest {
  const drawn = drawnShaftLine(driveshaft);
  const inner = innerJoint(driveshaft, side, placedPose(scene)).at;
  let shortest_mm = Number.POSITIVE_INFINITY;
  let turn = 0;
  for (let knot = 0; knot < carriers.length / POSE_SIZE; knot++) {
    const line = subtract(applyPose(poseOfTrack(carriers, knot), driveshaft.outer), inner);
    shortest_mm = Math.min(shortest_mm, length(line));
    turn = Math.max(turn, Math.atan2(length(cross(drawn, line)), dot(drawn, line)));
  }
  // a pose's axis is told in car coordinates for both sides
  return { inner: side === "left" ? inner : mirror(inner), shortest_mm, turn };
}
