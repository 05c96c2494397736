import { add, cross, distance, dot, length, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";

/** A driveshaft in one state, left frame: joint centres, unit axis of the inner joint, unit spin axis of the wheel. */
export interface ShaftLine {
  readonly inner: Vec3;
  readonly innerAxis: Vec3;
  readonly outer: Vec3;
  readonly spin: Vec3;
}

/** What the shaft passes for a torque of 1 N·mm about its own axis, right hand from inner to outer end. */
export interface ShaftForces {
  /** Force and couple of the shaft on the hub at the outer joint (per mm, and N·mm per N·mm). */
  readonly onHub: Vec3;
  readonly coupleOnHub: Vec3;
  /** Couple of the inner joint on the shaft; its force is `onHub`. */
  readonly coupleOnShaft: Vec3;
  /** Angles of the joints, radians. */
  readonly innerAngle: number;
  readonly outerAngle: number;
}

/**
 * A shaft between two constant-velocity joints, the inner one plunging along its axis without friction. The balls of such
 * a joint lie in the plane that halves its angle β, so a couple passes square to that plane: T/cos(β/2) in all, of which
 * T·tan(β/2), the secondary couple, bends the shaft and turns hub and differential across their axes (Seherr-Thoss,
 * Schmelz, Aucktor, Universal Joints and Driveshafts, chapter 4; from memory). Where the secondary couples of both ends
 * do not cancel, a pair of forces across the shaft balances them; the plunging joint takes no force along its axis.
 */
export function shaftForces({ inner, innerAxis, outer, spin }: ShaftLine): ShaftForces {
  const along = normalise(subtract(outer, inner));
  const length_mm = distance(inner, outer);
  const near = sameWay(innerAxis, along);
  const far = sameWay(spin, along);
  const halfInner = normalise(add(near, along));
  const halfOuter = normalise(add(far, along));
  // along the shaft both couples give the same torque, 1
  const coupleOnShaft = scale(halfInner, 1 / dot(halfInner, along));
  const coupleOnHub = scale(halfOuter, 1 / dot(halfOuter, along));
  // on the shaft: L·along × P + coupleOnShaft − coupleOnHub = 0 with P the hub's force on it, so P across is (c × along)/L
  const left = subtract(coupleOnHub, coupleOnShaft);
  const across = scale(cross(left, along), 1 / length_mm);
  const force = add(across, scale(along, -dot(across, near) / dot(along, near)));
  return {
    onHub: scale(force, -1),
    coupleOnHub,
    coupleOnShaft,
    innerAngle: Math.atan2(length(cross(near, along)), dot(near, along)),
    outerAngle: Math.atan2(length(cross(far, along)), dot(far, along)),
  };
}

/** Joint angles are between lines: the axis is taken the way that the shaft runs. */
function sameWay(axis: Vec3, along: Vec3): Vec3 {
  return dot(axis, along) < 0 ? scale(axis, -1) : axis;
}
