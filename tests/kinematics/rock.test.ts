import { describe, expect, it } from "vitest";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { mountPoses } from "../../src/kinematics/mounts.ts";
import { placedPose, powertrainPose } from "../../src/kinematics/powertrain.ts";
import { axisDistance, powertrainReach, type RockReach, shaftAtRest, shaftReach } from "../../src/kinematics/rock.ts";
import { runTravel } from "../../src/kinematics/travel.ts";
import { applyPose, composePoses, type Pose, rotationPose, translationPose } from "../../src/maths/pose.ts";
import { add, distance, length, mirror, normalise, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { Powertrain, PowertrainPose, Scene, Side } from "../../src/scene/scene.ts";
import { corner, hinge, rest, shaft, wheel } from "./corners.ts";
import { randomOf } from "./random.ts";

const SEED = 90210;
const STEP = 1e-3;
const SIDES: readonly Side[] = ["left", "right"];

function sceneOf(pose: PowertrainPose, place: Powertrain["place"]): Scene {
  return corner([hinge("swing", [450, 600, 300], [450, 300, 280])], wheel([0, 740, 300], 0.15, -1), {
    driveshaft: shaft([25, 235, 345], [0, 1, 0], [0, 668, 300], { at: [15, -190, 350] }),
    powertrain: { place, poses: [...rest.poses, pose] },
  });
}

function randomPose(random: () => number): PowertrainPose {
  const spread = (by: number): Vec3 => [by * (random() - 0.5), by * (random() - 0.5), by * (random() - 0.5)];
  return {
    id: "drive",
    about: add([150, 0, 400], spread(400)),
    axis: normalise(add([0, 1, 0], spread(random() < 0.5 ? 0.4 : 4))),
    angle_deg: 16 * (random() - 0.5),
    shift_mm: random() < 0.5 ? [0, 0, 0] : spread(20),
    within_mm: null,
  };
}

/** Largest speed and acceleration of the points at one share, by central differences. */
function differences(poseAt: (share: number) => Pose, share: number, points: readonly Vec3[]): RockReach {
  const [before, now, after] = [share - STEP, share, share + STEP].map(poseAt);
  let [speed_mm, bend_mm] = [0, 0];
  for (const point of points) {
    const [p, q, r] = [applyPose(before!, point), applyPose(now!, point), applyPose(after!, point)];
    speed_mm = Math.max(speed_mm, distance(p, r) / (2 * STEP));
    bend_mm = Math.max(bend_mm, length(subtract(add(p, r), scale(q, 2))) / (STEP * STEP));
  }
  return { speed_mm, bend_mm };
}

describe("the way of the powertrain from rest to a pose", () => {
  it("is the share of the turn about the pose's axis and of its shift, after its place", () => {
    const random = randomOf(SEED);
    for (let i = 0; i < 50; i++) {
      const pose = randomPose(random);
      const place = { shift_mm: [3, -12, 5], turn_deg: [1, 2, -1.5], about: [100, 30, 350] } as const;
      const scene = sceneOf(pose, place);
      const share = random();
      const turn = rotationPose(pose.axis, (share * pose.angle_deg * Math.PI) / 180, pose.about);
      const wanted = composePoses(composePoses(translationPose(scale(pose.shift_mm, share)), turn), placedPose(scene));
      const found = powertrainPose(scene, "drive", share);
      for (let k = 0; k < 12; k++) expect(found[k], `seed ${SEED}, case ${i}`).toBeCloseTo(wanted[k]!, 9);
    }
  });

  it("begins at rest and ends at the pose", () => {
    const scene = sceneOf(randomPose(randomOf(SEED)), null);
    expect([...powertrainPose(scene, "drive", 0)].map((value) => value + 0)).toEqual([
      ...powertrainPose(scene, "rest"),
    ]);
    expect(powertrainPose(scene, "drive", 1)).toEqual(powertrainPose(scene, "drive"));
  });
});

describe("what bounds the points of a rocking body", () => {
  it("holds for bodies on the powertrain and is met by the farthest point", () => {
    const random = randomOf(SEED);
    for (let i = 0; i < 200; i++) {
      const pose = randomPose(random);
      const scene = sceneOf(pose, { shift_mm: [3, -12, 5], turn_deg: [1, 2, -1.5], about: [100, 30, 350] });
      const points = Array.from(
        { length: 20 },
        (): Vec3 => [600 * random() - 300, 600 * random() - 300, 600 * random()],
      );
      const placed = placedPose(scene);
      const farthest_mm = Math.max(...points.map((point) => axisDistance(pose, applyPose(placed, point))));
      const reach = powertrainReach(pose, farthest_mm);
      const found = differences((share) => powertrainPose(scene, "drive", share), 0.1 + 0.8 * random(), points);
      const told = `seed ${SEED}, case ${i}`;
      expect(found.speed_mm, told).toBeLessThanOrEqual(reach.speed_mm * (1 + 1e-6) + 1e-6);
      expect(found.bend_mm, told).toBeLessThanOrEqual(reach.bend_mm * (1 + 1e-4) + 1e-3);
      // without a shift the farthest point runs at just this speed
      if (length(pose.shift_mm) === 0) expect(found.speed_mm, told).toBeGreaterThan(reach.speed_mm * 0.999);
    }
  });

  it("holds for bodies on the driveshaft over the whole travel, on both sides, and is not far off", () => {
    const random = randomOf(SEED + 1);
    let closest = 0;
    for (let i = 0; i < 60; i++) {
      const pose = randomPose(random);
      const scene = sceneOf(
        pose,
        random() < 0.5 ? null : { shift_mm: [3, -12, 5], turn_deg: [1, 2, -1], about: [100, 30, 350] },
      );
      const driveshaft = scene.driveshaft!;
      for (const side of SIDES) {
        const compiled = compileCorner(scene, side);
        const run = runTravel(compiled, { bump_mm: 60, droop_mm: 70, step_mm: 1 });
        const outer = side === "left" ? driveshaft.outer : mirror(driveshaft.outer);
        const points = Array.from({ length: 12 }, (_, k): Vec3 => {
          const inboard = (side === "left" ? -1 : 1) * 420 * (k === 0 ? 1 : random());
          return add(outer, [60 * (random() - 0.5), inboard, 60 * (random() - 0.5)]);
        });
        const farthest_mm = Math.max(...points.map((point) => distance(outer, point)));
        const reach = shaftReach(pose, shaftAtRest(scene, driveshaft, side, run.carrier), farthest_mm);
        for (let sample = 0; sample < 6; sample++) {
          const carrier = solveCorner(compiled, 130 * random() - 70).pose.slice();
          const poseAt = (share: number) => mountPoses(compiled, carrier, "drive", share).get("driveshaft")!;
          const found = differences(poseAt, 0.05 + 0.9 * random(), points);
          const told = `seed ${SEED + 1}, case ${i}, ${side}`;
          expect(found.speed_mm, told).toBeLessThanOrEqual(reach.speed_mm);
          expect(found.bend_mm, told).toBeLessThanOrEqual(reach.bend_mm + 1e-3);
          closest = Math.max(closest, found.speed_mm / reach.speed_mm);
        }
      }
    }
    expect(closest).toBeGreaterThan(0.8);
  });

  it("says that it knows nothing where the inner joint may come to the outer one", () => {
    const pose: PowertrainPose = { ...rest.poses[0]!, id: "out", shift_mm: [0, 500, 0] };
    const scene = sceneOf(pose, null);
    const { carrier } = runTravel(compileCorner(scene, "left"), { bump_mm: 10, droop_mm: 10, step_mm: 1 });
    const atRest = shaftAtRest(scene, scene.driveshaft!, "left", carrier);
    expect(shaftReach(pose, atRest, 400).speed_mm).toBe(Number.POSITIVE_INFINITY);
  });
});
