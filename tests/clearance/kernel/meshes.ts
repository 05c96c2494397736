import type { Solid } from "../../../src/geometry/solid.ts";
import { type Pose, rotationPose } from "../../../src/maths/pose.ts";
import { normalise, type Vec3 } from "../../../src/maths/vec3.ts";

/** Same seed, same numbers (mulberry32, public domain): evenly spread over [0, 1). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function randomPoint(random: () => number, size: number): Vec3 {
  return [(random() * 2 - 1) * size, (random() * 2 - 1) * size, (random() * 2 - 1) * size];
}

/** A turn by up to `angle_deg` about a random axis, and a shift by up to `shift` each way. */
export function randomPose(random: () => number, angle_deg: number, shift: number): Pose {
  const axis = normalise(randomPoint(random, 1));
  const pose = rotationPose(axis, (random() * angle_deg * Math.PI) / 180);
  const by = randomPoint(random, shift);
  for (let row = 0; row < 3; row++) pose[4 * row + 3] = by[row]!;
  return pose;
}

export function solidOf(points: readonly Vec3[], triangles: readonly (readonly number[])[], closed = true): Solid {
  return {
    positions: Float32Array.from(points.flat()),
    indices: Uint32Array.from(triangles.flat()),
    shells: [{ firstTriangle: 0, triangleCount: triangles.length, closed }],
    convexPieces: null,
  };
}

/** A closed ball of n rings, stretched by `stretch` and shaken by `noise` of its radius. */
export function blob(
  random: () => number,
  n: number,
  radius: number,
  stretch: Vec3,
  noise: number,
  centre: Vec3,
): Solid {
  const points: Vec3[] = [];
  const add = (theta: number, phi: number) => {
    const r = radius * (1 + noise * (random() * 2 - 1));
    points.push([
      centre[0] + stretch[0] * r * Math.sin(theta) * Math.cos(phi),
      centre[1] + stretch[1] * r * Math.sin(theta) * Math.sin(phi),
      centre[2] + stretch[2] * r * Math.cos(theta),
    ]);
  };
  add(0, 0);
  for (let i = 1; i < n; i++) for (let j = 0; j < 2 * n; j++) add((Math.PI * i) / n, (Math.PI * j) / n);
  add(Math.PI, 0);
  const last = points.length - 1;
  const at = (i: number, j: number) => (i === 0 ? 0 : i === n ? last : 1 + (i - 1) * 2 * n + (j % (2 * n)));
  const triangles: number[][] = [];
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < 2 * n; j++) {
      if (i > 0) triangles.push([at(i, j), at(i + 1, j), at(i, j + 1)]);
      if (i < n - 1) triangles.push([at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)]);
    }
  }
  return solidOf(points, triangles);
}

/** Loose triangles, some of them needles, slivers and points: no body, but distances hold all the same. */
export function shards(random: () => number, count: number, spread: number, size: number, centre: Vec3): Solid {
  const points: Vec3[] = [];
  const triangles: number[][] = [];
  for (let i = 0; i < count; i++) {
    const kind = random();
    const at = randomPoint(random, spread);
    const place = (p: Vec3): Vec3 => [centre[0] + at[0] + p[0], centre[1] + at[1] + p[1], centre[2] + at[2] + p[2]];
    const first = randomPoint(random, size);
    const second = randomPoint(random, size);
    const third: Vec3 =
      kind < 0.7
        ? randomPoint(random, size)
        : kind < 0.8
          ? second
          : kind < 0.9
            ? [(first[0] + second[0]) / 2, (first[1] + second[1]) / 2, (first[2] + second[2]) / 2 + 1e-4 * size]
            : first;
    points.push(place(first), place(second), place(third));
    triangles.push([3 * i, 3 * i + 1, 3 * i + 2]);
  }
  return solidOf(points, triangles, false);
}

export function box(size: Vec3, centre: Vec3 = [0, 0, 0]): Solid {
  const points: Vec3[] = [];
  for (let corner = 0; corner < 8; corner++) {
    points.push([
      centre[0] + (corner & 1 ? 0.5 : -0.5) * size[0],
      centre[1] + (corner & 2 ? 0.5 : -0.5) * size[1],
      centre[2] + (corner & 4 ? 0.5 : -0.5) * size[2],
    ]);
  }
  const triangles = [
    [0, 2, 1],
    [1, 2, 3],
    [4, 5, 6],
    [5, 7, 6],
    [0, 1, 4],
    [1, 5, 4],
    [2, 6, 3],
    [3, 6, 7],
    [0, 4, 2],
    [2, 4, 6],
    [1, 3, 5],
    [3, 7, 5],
  ];
  return { ...solidOf(points, triangles), convexPieces: [Float32Array.from(points.flat())] };
}
