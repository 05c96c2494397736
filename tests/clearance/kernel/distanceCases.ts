import type { Solid } from "../../../src/geometry/solid.ts";
import { composePoses, type Pose, translationPose, turnPose } from "../../../src/maths/pose.ts";
import { blob, box, randomPoint, randomPose, shards } from "./meshes.ts";

/** Two surfaces, and where the second lies to the first. */
export interface Case {
  readonly a: Solid;
  readonly b: Solid;
  readonly relative: Pose;
}

/** Random cases by what is hard about them. */
export const kinds: Record<string, (random: () => number) => Case> = {
  "lumps apart": (random) => ({
    a: blob(random, 5, 40, [1, 2, 0.5], 0.2, randomPoint(random, 50)),
    b: blob(random, 4, 30, [1, 1, 3], 0.2, randomPoint(random, 50)),
    relative: randomPose(random, 180, 200),
  }),
  "lumps that cross or nest": (random) => ({
    a: blob(random, 5, 90, [1, 1.2, 1], 0.1, [0, 0, 0]),
    b: blob(random, 4, 20, [1, 1, 3], 0.1, [0, 0, 0]),
    relative: randomPose(random, 180, 60),
  }),
  "stretched thin parts, long edges": (random) => ({
    a: blob(random, 4, 10, [90, 1, 0.02], 0.1, [0, 0, 0]),
    b: blob(random, 4, 10, [0.02, 70, 2], 0.1, [0, 0, 0]),
    relative: randomPose(random, 180, 300),
  }),
  "loose shards, needles and points": (random) => ({
    a: shards(random, 60, 100, 30, [0, 0, 0]),
    b: shards(random, 50, 100, 30, [0, 0, 0]),
    relative: randomPose(random, 180, 260),
  }),
  "far from the origin": (random) => {
    const away = randomPoint(random, 5000);
    return {
      a: blob(random, 4, 40, [1, 2, 0.5], 0.2, away),
      b: blob(random, 4, 30, [1, 1, 3], 0.2, away),
      relative: randomPose(random, 0, 150),
    };
  },
  "boxes face to face, edge to edge and corner to corner": (random) => {
    const size = 20;
    const steps = () => (Math.floor(random() * 5) - 2) * 10;
    return {
      a: box([size, size, size]),
      b: box([size, size, size]),
      relative: translationPose([steps(), steps(), steps()]),
    };
  },
  "many small triangles, close together": (random) => ({
    a: blob(random, 10, 60, [1, 1, 1], 0.01, [0, 0, 0]),
    b: blob(random, 8, 50, [1, 1, 1], 0.01, [111 + random(), 0, 0]),
    relative: randomPose(random, 3, 0.1),
  }),
  "plates a hair's breadth apart": (random) => ({
    a: box([200, 300, 20]),
    b: box([70, 50, 40]),
    relative: composePoses(
      translationPose([0, 0, 30 + 10 ** -(1 + 8 * random())]),
      composePoses(randomPose(random, 1e-4, 0), turnPose([0, 0, 360 * random()])),
    ),
  }),
};

/** What distances may differ by, relative to the size of the coordinates. */
export const TOLERANCE = 1e-12;

export function sizeOf({ a, b, relative }: Case): number {
  return [...a.positions, ...b.positions, ...relative].reduce((most, value) => Math.max(most, Math.abs(value)), 1);
}
