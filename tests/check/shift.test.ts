import { describe, expect, it } from "vitest";
import { redrawn, shiftBetween, stepsOf, stray, uniteBoxes } from "../../src/check/shift.ts";
import { poseOfMotion, RelativeMotion } from "../../src/clearance/motion.ts";
import type { Motion } from "../../src/clearance/types.ts";
import { buildSolid } from "../../src/geometry/buildSolid.ts";
import { mergeSolids } from "../../src/geometry/rearrange.ts";
import { applyPose, composePoses, POSE_SIZE, rotationPose, translationPose } from "../../src/maths/pose.ts";
import { distance, normalise, type Vec3 } from "../../src/maths/vec3.ts";
import { contextAt } from "../geometry/support.ts";
import { randomOf } from "../kinematics/random.ts";

const SEED = 2718;
type Random = () => number;

const within = (random: Random, size: number): Vec3 => [
  size * (2 * random() - 1),
  size * (2 * random() - 1),
  size * (2 * random() - 1),
];

/** A walk of knots 1 mm apart, each turned and moved a little against the one before. */
function randomMotion(random: Random, knots: number, turn: number, step_mm: number): Motion {
  const travel_mm = Float64Array.from({ length: knots }, (_, i) => i);
  const poses = new Float64Array(knots * POSE_SIZE);
  let pose = composePoses(
    translationPose(within(random, 100)),
    rotationPose(normalise(within(random, 1)), 3 * random()),
  );
  for (let knot = 0; knot < knots; knot++) {
    poses.set(pose, knot * POSE_SIZE);
    const turned = rotationPose(normalise(within(random, 1)), turn * random(), within(random, 300));
    pose = composePoses(translationPose(within(random, step_mm)), composePoses(turned, pose));
  }
  return { travel_mm, poses };
}

const BOX = Float64Array.of(-40, -20, -60, 70, 90, 30);

function pointIn(random: Random, box: Float64Array): Vec3 {
  return [0, 1, 2].map((k) => box[k]! + (box[k + 3]! - box[k]!) * random()) as unknown as Vec3;
}

const placeAt = (motion: Motion, travel: number, p: Vec3) =>
  applyPose(poseOfMotion(motion, travel, new Float64Array(POSE_SIZE)), p);

describe("how far apart two motions have a body", () => {
  it("is no less for any point of its box at any knot, and a corner is that far", () => {
    const random = randomOf(SEED);
    for (let i = 0; i < 40; i++) {
      const [last, motion] = [randomMotion(random, 6, 0.1, 2), randomMotion(random, 6, 0.1, 2)];
      const bound = shiftBetween(last, motion, BOX);
      let reached = 0;
      for (let knot = 0; knot < 6; knot++) {
        for (let n = 0; n < 30; n++) {
          const p = pointIn(random, BOX);
          const corner = p.map((_, k) => BOX[random() < 0.5 ? k : k + 3]!) as unknown as Vec3;
          for (const point of [p, corner]) {
            const apart = distance(placeAt(last, knot, point), placeAt(motion, knot, point));
            expect(apart, `seed ${SEED}, case ${i}`).toBeLessThanOrEqual(bound * (1 + 1e-12));
            reached = Math.max(reached, apart);
          }
        }
      }
      expect(reached).toBeGreaterThan(0.9 * bound);
    }
  });

  it("is told of what stands against what moves, and of no two that have other knots", () => {
    const moving = randomMotion(randomOf(1), 5, 0.1, 2);
    const standing: Motion = { travel_mm: Float64Array.of(0), poses: moving.poses.slice(0, POSE_SIZE) };
    const { step_mm } = stepsOf({ ...moving, poses: moving.poses.slice(0, 2 * POSE_SIZE) }, BOX);
    expect(shiftBetween(standing, moving, BOX)).toBeGreaterThanOrEqual(step_mm);
    expect(shiftBetween(standing, standing, BOX)).toBe(0);
    expect(stepsOf(standing, BOX)).toEqual({ step_mm: 0, turn: 0 });
    const later = { ...moving, travel_mm: moving.travel_mm.map((travel) => travel + 0.5) };
    expect(shiftBetween(moving, later, BOX)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("how far a gap strays between two knots", () => {
  // what the sweep lets the bodies do there, held against the straight way from what they are at the knots
  it("is within what is told, for bodies near each other and far apart, also where a range ends between knots", () => {
    const random = randomOf(SEED + 1);
    let closest = 0;
    for (let i = 0; i < 400; i++) {
      const turn = 10 ** (-3 + 2 * random());
      const [a, b] = [randomMotion(random, 3, turn, 3), randomMotion(random, 3, random() < 0.2 ? 0 : turn, 3)];
      const [from, to] = random() < 0.5 ? [0, 2] : [random() * 0.9, 1.1 + random() * 0.9];
      const relative = new RelativeMotion(a, b, from, to);
      const [p, q] = [pointIn(random, BOX), pointIn(random, BOX)];
      for (let n = 0; n < 25; n++) {
        const travel = from + (to - from) * random();
        const gap = distance(applyPose(relative.poseAt(travel, new Float64Array(POSE_SIZE)), q), p);
        const knot = Math.min(1, Math.floor(travel));
        const [low, high] = [Math.max(from, knot), Math.min(to, knot + 1)];
        const share = (travel - low) / (high - low);
        // where the range ends between knots, the edit knows the knots alone: the chord is that of the whole knots' own
        const chordOf = (motion: Motion, point: Vec3, at: number): Vec3 => {
          const [start, end] = [placeAt(motion, knot, point), placeAt(motion, knot + 1, point)];
          return [0, 1, 2].map((k) => start[k]! + (end[k]! - start[k]!) * (at - knot)) as unknown as Vec3;
        };
        const gapOfChords = (at: number) => {
          const [x, y] = [chordOf(a, p, at), chordOf(b, q, at)];
          return [0, 1, 2].map((k) => y[k]! - x[k]!);
        };
        const [g0, g1] = [gapOfChords(low), gapOfChords(high)];
        const chord = Math.hypot(...[0, 1, 2].map((k) => g0[k]! * (1 - share) + g1[k]! * share));
        const bound = stray(stepsOf(a, BOX), stepsOf(b, BOX), Math.min(gap, chord));
        expect(Math.abs(gap - chord), `seed ${SEED + 1}, case ${i}`).toBeLessThanOrEqual(bound + 1e-9);
        if (bound > 0) closest = Math.max(closest, Math.abs(gap - chord) / bound);
      }
    }
    expect(closest).toBeGreaterThan(0.05);
  });

  it("is nothing for what stands and anything for large turns", () => {
    const steps = (turn: number) => ({ step_mm: turn === 0 ? 0 : 1, turn });
    expect(stray(steps(0), steps(0), 1000)).toBe(0);
    expect(stray(steps(0.3), steps(0.2), 1)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("a body drawn anew", () => {
  const ball = (x: number, diameter_mm = 40) =>
    buildSolid({ kind: "sphere", diameter_mm, at: [x, 2, 3], turn_deg: null }, contextAt(0.1));

  it("has its vertices moved by what it was moved by, as far as float32 can say", () => {
    expect(redrawn(ball(1), ball(1))).toBe(0);
    expect(redrawn(ball(1), ball(3.5))).toBeCloseTo(2.5, 4);
  });

  it("is another one with other triangles", () => {
    expect(redrawn(ball(1), ball(1, 400))).toBe(Number.POSITIVE_INFINITY);
    expect(redrawn(ball(1), mergeSolids([ball(1), ball(90)]))).toBe(Number.POSITIVE_INFINITY);
  });

  it("has a box about it before and after", () => {
    const far = BOX.map((value) => value + 10);
    expect([...uniteBoxes(BOX, far)]).toEqual([-40, -20, -60, 80, 100, 40]);
  });
});
