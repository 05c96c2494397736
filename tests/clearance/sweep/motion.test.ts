import { describe, expect, it } from "vitest";
import { extentOf, MotionBound } from "../../../src/clearance/bound.ts";
import { poseOfMotion, RelativeMotion } from "../../../src/clearance/motion.ts";
import { poseAlongScrew, screwBetween } from "../../../src/clearance/motionScrew.ts";
import type { Motion } from "../../../src/clearance/types.ts";
import { applyPose, composePoses, identityPose, invertPose, POSE_SIZE, rotationPose } from "../../../src/maths/pose.ts";
import { distance, length, type Vec3 } from "../../../src/maths/vec3.ts";
import { randomFrom, randomPoint, randomPose } from "../kernel/meshes.ts";
import { armPose, brick, motion, STILL, shiftPose } from "./shapes.ts";

const SEED = 20240611;

describe("the screw from one pose to another", () => {
  it("runs from the first to the second, at every angle up to half a turn", () => {
    const random = randomFrom(SEED);
    const screw = new Float64Array(6);
    const out = new Float64Array(POSE_SIZE);
    for (let i = 0; i < 2000; i++) {
      const from = randomPose(random, 180, 800);
      const angle = i % 4 === 0 ? 180 * (1 - 10 ** (-12 * random())) : 180 * 10 ** (-12 * random());
      const axis = randomPoint(random, 1);
      const size = length(axis);
      const turn = rotationPose([axis[0] / size, axis[1] / size, axis[2] / size], (angle * Math.PI) / 180);
      const to = composePoses(from, composePoses(shiftPose(randomPoint(random, 100)), turn));
      screwBetween(from, to, screw, 0);
      expect(length([screw[0]!, screw[1]!, screw[2]!]), `seed ${SEED}, case ${i}`).toBeCloseTo(
        (angle * Math.PI) / 180,
        7,
      );
      poseAlongScrew(from, 0, screw, 0, 1, out);
      for (let k = 0; k < POSE_SIZE; k++)
        expect(Math.abs(out[k]! - to[k]!), `seed ${SEED}, case ${i}`).toBeLessThan(1e-6);
      poseAlongScrew(from, 0, screw, 0, 0, out);
      for (let k = 0; k < POSE_SIZE; k++) expect(Math.abs(out[k]! - from[k]!)).toBeLessThan(1e-12);
    }
  });

  it("is a helix: a turn about a line with a shift along it keeps each point's distance from the line", () => {
    // closed form: angle s·θ about the line, shift s·d along it
    const from = identityPose();
    const about: Vec3 = [120, -40, 300];
    const to = composePoses(shiftPose([0, 0, 25]), rotationPose([0, 0, 1], 1.2, about));
    const screw = new Float64Array(6);
    screwBetween(from, to, screw, 0);
    for (const s of [0.1, 0.5, 0.77]) {
      const out = poseAlongScrew(from, 0, screw, 0, s, new Float64Array(POSE_SIZE));
      const expected = composePoses(shiftPose([0, 0, 25 * s]), rotationPose([0, 0, 1], 1.2 * s, about));
      for (let k = 0; k < POSE_SIZE; k++) expect(out[k]).toBeCloseTo(expected[k]!, 10);
    }
  });

  it("does not move a body that stands in the same pose", () => {
    const pose = randomPose(randomFrom(SEED), 120, 500);
    const track = new Float64Array([...pose, ...pose]);
    const still: Motion = { travel_mm: Float64Array.of(-50, 50), poses: track };
    expect(new RelativeMotion(still, STILL, -50, 50).still).toBe(true);
    expect(new RelativeMotion(STILL, STILL, -50, 50).still).toBe(true);
  });
});

describe("a body's pose between knots", () => {
  const turning = motion(-60, 60, 1, (travel) => armPose(travel, [400, 200, 300]));

  it("is the knot's at a knot, and stays at the last beyond the ends", () => {
    const out = new Float64Array(POSE_SIZE);
    expect([...poseOfMotion(turning, 10, out)]).toEqual([...armPose(10, [400, 200, 300])]);
    expect([...poseOfMotion(turning, 99, out)]).toEqual([...armPose(60, [400, 200, 300])]);
    expect([...poseOfMotion(turning, -99, out)]).toEqual([...armPose(-60, [400, 200, 300])]);
    expect([...poseOfMotion(STILL, 12, out)]).toEqual([...identityPose()]);
  });

  it("strays from the true arc of an arm by less than 0.001 mm", () => {
    const out = new Float64Array(POSE_SIZE);
    for (let travel = -59.5; travel < 60; travel += 1) {
      const found = applyPose(poseOfMotion(turning, travel, out), [100, 200, 300]);
      expect(distance(found, applyPose(armPose(travel, [400, 200, 300]), [100, 200, 300]))).toBeLessThan(1e-3);
    }
  });

  it("is seen from the other body as the inverse", () => {
    const sliding = motion(-60, 60, 0.7, (travel) => shiftPose([0, 0.2 * travel, travel]));
    const seenFromA = new RelativeMotion(turning, sliding, -60, 60);
    const seenFromB = new RelativeMotion(sliding, turning, -60, 60);
    for (const travel of [-59.99, -13.37, 0.05, 44.4]) {
      const inverse = invertPose(seenFromB.poseAt(travel, new Float64Array(POSE_SIZE)));
      const pose = seenFromA.poseAt(travel, new Float64Array(POSE_SIZE));
      for (let k = 0; k < POSE_SIZE; k++) expect(pose[k]).toBeCloseTo(inverse[k]!, 9);
    }
  });
});

describe("the bound of relative motion", () => {
  const boxA = brick([80, 60, 40], [350, 150, 280]);
  const boxB = brick([30, 200, 90], [150, 300, 350]);

  function randomMotion(random: () => number): Motion {
    const start = randomPose(random, 180, 100);
    let pose = start;
    return motion(-20, 20, 1, () => {
      pose = composePoses(pose, randomPose(random, 1.5, 1));
      return pose;
    });
  }

  it("covers the shift of the corners as either body sees it, and is no longer than their way", () => {
    const random = randomFrom(SEED);
    for (let i = 0; i < 60; i++) {
      const relative = new RelativeMotion(randomMotion(random), i % 3 === 0 ? STILL : randomMotion(random), -20, 20);
      const bound = new MotionBound(relative, extentOf(boxA.positions), extentOf(boxB.positions));
      const t0 = -20 + 39 * random();
      const t1 = t0 + (20 - t0) * random() ** 3;
      const before = relative.poseAt(t0, new Float64Array(POSE_SIZE));
      const after = relative.poseAt(t1, new Float64Array(POSE_SIZE));
      const ofB = largestShift(boxB.positions, before, after);
      const ofA = largestShift(boxA.positions, invertPose(before), invertPose(after));
      const path = bound.path(t0, t1);
      // the signed clearance cannot change more than the less moved of the two lets it
      expect(path, `seed ${SEED}, case ${i}`).toBeGreaterThanOrEqual(Math.min(ofA, ofB) - 1e-9);
      let way = 0;
      for (let s = 0; s < 400; s++) {
        const [p, q] = [t0 + ((t1 - t0) * s) / 400, t0 + ((t1 - t0) * (s + 1)) / 400];
        const [from, to] = [relative.poseAt(p, new Float64Array(12)), relative.poseAt(q, new Float64Array(12))];
        way += largestShift(boxB.positions, from, to);
      }
      expect(path, `seed ${SEED}, case ${i}`).toBeLessThan(way * 1.001 + 1e-9);
    }
  });

  it("covers how far the gap of any two points sags below its chord", () => {
    const random = randomFrom(SEED + 1);
    for (let i = 0; i < 300; i++) {
      const relative = new RelativeMotion(randomMotion(random), randomMotion(random), -20, 20);
      const bound = new MotionBound(relative, extentOf(boxA.positions), extentOf(boxB.positions));
      const p = cornerOf(boxA.positions, Math.floor(8 * random()));
      const q = cornerOf(boxB.positions, Math.floor(8 * random()));
      const t0 = -20 + 38 * random();
      const t1 = t0 + 2 * random() + 0.01;
      const gapAt = (t: number) => distance(p, applyPose(relative.poseAt(t, new Float64Array(12)), q));
      let least = Number.POSITIVE_INFINITY;
      let sag = 0;
      for (let s = 0; s <= 200; s++) {
        const share = s / 200;
        const gap = gapAt(t0 + (t1 - t0) * share);
        least = Math.min(least, gap);
        sag = Math.max(sag, gapAt(t0) + (gapAt(t1) - gapAt(t0)) * share - gap);
      }
      expect(bound.sag(t0, t1, least), `seed ${SEED + 1}, case ${i}`).toBeGreaterThanOrEqual(sag - 1e-9);
    }
  });
});

function cornerOf(positions: Float32Array, vertex: number): Vec3 {
  return [positions[3 * vertex]!, positions[3 * vertex + 1]!, positions[3 * vertex + 2]!];
}

function largestShift(positions: Float32Array, before: Float64Array, after: Float64Array): number {
  let largest = 0;
  for (let vertex = 0; vertex < positions.length / 3; vertex++) {
    const corner = cornerOf(positions, vertex);
    largest = Math.max(largest, distance(applyPose(before, corner), applyPose(after, corner)));
  }
  return largest;
}
