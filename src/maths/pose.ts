import { cross, dot, length, normalise, scale, squareTo, subtract, type Vec3 } from "./vec3.ts";

/**
 * A rigid motion p → R·p + t as 12 numbers, row by row: [R00 R01 R02 tx, R10 R11 R12 ty, R20 R21 R22 tz].
 * A body's pose takes its points from where they are drawn (design position, car axes) to where they are now.
 * Tracks of n poses are one Float64Array of 12·n.
 */
export type Pose = Float64Array;

export const POSE_SIZE = 12;

export function identityPose(): Pose {
  return Float64Array.of(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0);
}

export function translationPose(by: Vec3): Pose {
  return Float64Array.of(1, 0, 0, by[0], 0, 1, 0, by[1], 0, 0, 1, by[2]);
}

/** The pose at `index` of a track, as a view on the same memory. */
export function poseOfTrack(track: Float64Array, index: number): Pose {
  return track.subarray(index * POSE_SIZE, (index + 1) * POSE_SIZE);
}

export function applyPose(pose: Pose, p: Vec3): Vec3 {
  const [x, y, z] = p;
  return [
    pose[0]! * x + pose[1]! * y + pose[2]! * z + pose[3]!,
    pose[4]! * x + pose[5]! * y + pose[6]! * z + pose[7]!,
    pose[8]! * x + pose[9]! * y + pose[10]! * z + pose[11]!,
  ];
}

/** Turns a direction; the translation does not act on it. */
export function turnByPose(pose: Pose, d: Vec3): Vec3 {
  const [x, y, z] = d;
  return [
    pose[0]! * x + pose[1]! * y + pose[2]! * z,
    pose[4]! * x + pose[5]! * y + pose[6]! * z,
    pose[8]! * x + pose[9]! * y + pose[10]! * z,
  ];
}

/** The pose that acts as `second` after `first`: p → second(first(p)). `out` may be neither input. */
export function composePoses(second: Pose, first: Pose, out: Pose = new Float64Array(POSE_SIZE)): Pose {
  for (let row = 0; row < 3; row++) {
    const a = second[row * 4]!;
    const b = second[row * 4 + 1]!;
    const c = second[row * 4 + 2]!;
    for (let column = 0; column < 4; column++) {
      out[row * 4 + column] = a * first[column]! + b * first[4 + column]! + c * first[8 + column]!;
    }
    out[row * 4 + 3]! += second[row * 4 + 3]!;
  }
  return out;
}

export function invertPose(pose: Pose, out: Pose = new Float64Array(POSE_SIZE)): Pose {
  const [x, y, z] = [pose[3]!, pose[7]!, pose[11]!];
  for (let row = 0; row < 3; row++) {
    const a = pose[row]!;
    const b = pose[4 + row]!;
    const c = pose[8 + row]!;
    out[row * 4] = a;
    out[row * 4 + 1] = b;
    out[row * 4 + 2] = c;
    out[row * 4 + 3] = -(a * x + b * y + c * z);
  }
  return out;
}

/** Rotation by `angle_rad` (right hand) about the line through `about` along the unit vector `axis` (Rodrigues). */
export function rotationPose(axis: Vec3, angle_rad: number, about: Vec3 = [0, 0, 0]): Pose {
  const [x, y, z] = axis;
  const c = Math.cos(angle_rad);
  const s = Math.sin(angle_rad);
  // 1 − cos without the cancellation at small angles
  const v = 2 * Math.sin(angle_rad / 2) ** 2;
  const pose = Float64Array.of(
    c + x * x * v,
    x * y * v - z * s,
    x * z * v + y * s,
    0,
    y * x * v + z * s,
    c + y * y * v,
    y * z * v - x * s,
    0,
    z * x * v - y * s,
    z * y * v + x * s,
    c + z * z * v,
    0,
  );
  return turnAbout(pose, about);
}

/** Intrinsic X, then Y, then Z by degrees: R = Rx·Ry·Rz, about `about`. */
export function turnPose(turn_deg: Vec3, about: Vec3 = [0, 0, 0]): Pose {
  const rad = Math.PI / 180;
  const x = rotationPose([1, 0, 0], turn_deg[0] * rad);
  const y = rotationPose([0, 1, 0], turn_deg[1] * rad);
  const z = rotationPose([0, 0, 1], turn_deg[2] * rad);
  return turnAbout(composePoses(x, composePoses(y, z)), about);
}

/** The least rotation that takes the direction `from` to the direction `to`, about `about`; opposite ones turn about any square axis. */
export function leastTurnPose(from: Vec3, to: Vec3, about: Vec3 = [0, 0, 0]): Pose {
  const a = normalise(from);
  const b = normalise(to);
  const axis = cross(a, b);
  const sine = length(axis);
  const cosine = dot(a, b);
  if (sine === 0) return rotationPose(squareTo(a), cosine < 0 ? Math.PI : 0, about);
  return rotationPose(scale(axis, 1 / sine), Math.atan2(sine, cosine), about);
}

/** To the last bit. */
export function isSamePose(one: Pose, other: Pose): boolean {
  for (let i = 0; i < POSE_SIZE; i++) if (one[i] !== other[i]) return false;
  return true;
}

/** The same motion seen in the mirror of the car's centre plane: M·pose·M with M = diag(1, −1, 1). */
export function mirrorPose(pose: Pose, out: Pose = new Float64Array(POSE_SIZE)): Pose {
  for (let i = 0; i < POSE_SIZE; i++) {
    const row = i >> 2;
    const column = i & 3;
    out[i] = (row === 1) !== (column === 1) ? -pose[i]! : pose[i]!;
  }
  return out;
}

function turnAbout(pose: Pose, about: Vec3): Pose {
  const moved = subtract(about, turnByPose(pose, about));
  pose[3] = moved[0];
  pose[7] = moved[1];
  pose[11] = moved[2];
  return pose;
}
