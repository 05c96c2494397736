import { describe, expect, it } from "vitest";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { listJoints } from "../../src/kinematics/joints.ts";
import { mountPoses, mountWriter } from "../../src/kinematics/mounts.ts";
import { readCorner } from "../../src/kinematics/readings.ts";
import { applyPose, identityPose, mirrorPose, POSE_SIZE, type Pose, turnByPose } from "../../src/maths/pose.ts";
import { cross, distance, dot, length, mirror, normalise, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { Powertrain, Scene, Side } from "../../src/scene/scene.ts";
import { bar, corner, damper, link, rest, shaft, wheel, wishbone } from "./corners.ts";
import { randomMembers, randomOf } from "./random.ts";

const mixes = [...randomMembers(randomOf(1)).keys()];
const SEEDS = [21, 22, 23, 24];

const rocking: Powertrain = {
  place: { shift_mm: [3, -12, 5], turn_deg: [1, 2, -1.5], about: [100, 30, 350] },
  poses: [
    ...rest.poses,
    {
      id: "drive",
      about: [150, 20, 400],
      axis: normalise([0.1, 1, 0.2]),
      angle_deg: 3,
      shift_mm: [1, 2, -3],
      within_mm: null,
    },
  ],
};

function sceneOf(seed: number, mix: string, more: Partial<Scene> = {}): Scene {
  const members = randomMembers(randomOf(seed)).get(mix)!;
  // damper and bar ride on the lower member where there is one
  const on = members.some(({ id }) => id === "lower") ? "lower" : "carrier";
  return corner(members, wheel([0, 740, 300], 0.15, -1), {
    damper: damper([-15, 500, 600], [-40, 560, 215], on),
    antiRollBar: bar([-300, 350, 250], [0, 1, 0], [-120, 470, 310], [-110, 480, 200], on),
    driveshaft: shaft([25, 235, 345], [0, 1, 0], [0, 668, 300], { at: [15, -190, 350] }),
    powertrain: rocking,
    ...more,
  });
}

function legBottom(scene: Scene): Vec3 {
  const leg = scene.members.find(({ id }) => id === "leg");
  if (leg?.kind !== "strut") throw new Error("there is a strut");
  return leg.bottom;
}

const sides: Side[] = ["left", "right"];

describe.each(mixes)("%s", (mix) => {
  it("keeps every joint together on both sides in every powertrain pose, the plunging one on its line", () => {
    for (const seed of SEEDS)
      for (const side of sides) {
        const scene = sceneOf(seed, mix);
        const compiled = compileCorner(scene, side);
        for (const travel of [-15, 0, 15]) {
          const { pose } = solveCorner(compiled, travel);
          for (const powertrain of ["rest", "drive"]) {
            const poses = mountPoses(compiled, pose, powertrain);
            for (const { id, between, at, atFirst } of listJoints(scene, side)) {
              const inCar = (p: Vec3): Vec3 => (side === "left" ? p : mirror(p));
              const one = applyPose(poses.get(between[0])!, inCar(atFirst));
              const other = applyPose(poses.get(between[1])!, inCar(at));
              const where = `seed ${seed} ${side} ${travel} ${powertrain} ${id}`;
              if (id === "leg.top") {
                // the strut slides: its top stays on the line through both eyes
                const foot = applyPose(poses.get("carrier")!, inCar(legBottom(scene)));
                const [a, b] = [normalise(subtract(one, foot)), normalise(subtract(other, foot))];
                expect(length(cross(a, b)), where).toBeLessThan(1e-11);
                continue;
              }
              if (id !== "driveshaft.inner") {
                expect(distance(one, other), where).toBeLessThan(1e-8);
                continue;
              }
              const outer = applyPose(poses.get("driveshaft")!, inCar(scene.driveshaft!.outer));
              const [a, b] = [normalise(subtract(one, outer)), normalise(subtract(other, outer))];
              expect(length(cross(a, b)), where).toBeLessThan(1e-12);
            }
          }
        }
      }
  });

  it("is the mirror image left to right, the powertrain excepted", () => {
    for (const seed of SEEDS) {
      const scene = sceneOf(seed, mix, { driveshaft: null });
      const [left, right] = sides.map((side) => compileCorner(scene, side));
      const { pose } = solveCorner(left!, 12);
      const other = solveCorner(right!, 12).pose;
      expect([...other]).toEqual([...pose]);
      const leftPoses = mountPoses(left!, pose, "drive");
      const rightPoses = mountPoses(right!, other, "drive");
      expect([...rightPoses.keys()]).toEqual([...leftPoses.keys()]);
      for (const [mount, ofLeft] of leftPoses) {
        const wanted = mount === "powertrain" ? ofLeft : mirrorPose(ofLeft);
        expect(
          [...rightPoses.get(mount)!].map((v) => v + 0),
          `seed ${seed} ${mount}`,
        ).toEqual([...wanted].map((v) => v + 0));
      }
      expect(readCorner(right!, other, "rest")).toEqual(readCorner(left!, pose, "rest"));
    }
  });

  it("is at its design position at ride height and rest", () => {
    const scene = sceneOf(SEEDS[0]!, mix, {
      powertrain: rest,
      driveshaft: shaft([25, 235, 345], [0, 1, 0], [0, 668, 300]),
    });
    for (const side of sides) {
      const compiled = compileCorner(scene, side);
      for (const [mount, pose] of mountPoses(compiled, compiled.ridePose, "rest"))
        for (const [i, value] of identityPose().entries()) expect(pose[i], `${side} ${mount}`).toBeCloseTo(value, 9);
    }
  });

  it("reads damper ratio and roll centre as central differences do", () => {
    for (const seed of SEEDS) {
      const compiled = compileCorner(sceneOf(seed, mix), "left");
      const at = (travel: number) => readCorner(compiled, solveCorner(compiled, travel).pose, "rest");
      const [minus, now, plus] = [at(9.99), at(10), at(10.01)];
      const perTravel = (of: (reading: typeof now) => number) => (of(plus) - of(minus)) / 0.02;
      expect(now.damperRatio! + perTravel(({ damper_mm }) => damper_mm!), `seed ${seed}`).toBeCloseTo(0, 6);
      // the ground point's height: loaded radius below the centre along the steepest line of the wheel plane
      const radius = 300 / Math.cos(Math.PI / 180);
      const up = (reading: typeof now) => -radius * Math.cos((reading.camber_deg * Math.PI) / 180);
      const roll = (now.halfTrack_mm * perTravel(({ halfTrack_mm }) => halfTrack_mm)) / (1 + perTravel(up));
      expect(Math.abs(now.rollCentre_mm - roll) / (1 + Math.abs(roll)), `seed ${seed}`).toBeLessThan(1e-5);
    }
  });
});

describe("how parts turn", () => {
  const members = [
    wishbone("lower", [150, 300, 200], [-130, 310, 205], [5, 690, 195]),
    link("toe", [-150, 330, 225], [-170, 670, 230]),
    link("cranked", [-20, 410, 425], [-40, 650, 430], undefined, normalise([1, 0.2, 0.1])),
    link("high", [480, 600, 440], [30, 680, 400]),
  ];
  const scene = corner(members, wheel([0, 740, 300]), { damper: damper([-15, 500, 600], [-40, 560, 215], "toe") });
  const compiled = compileCorner(scene, "left");
  const poses = mountPoses(compiled, solveCorner(compiled, 60).pose, "rest");
  const angleOf = (pose: Pose) => Math.acos(Math.min(1, (pose[0]! + pose[5]! + pose[10]! - 1) / 2));

  it("a wishbone turns about its inboard line", () => {
    const pose = poses.get("lower")!;
    for (const point of [members[0], members[0]].flatMap((m) => (m?.kind === "wishbone" ? [m.front, m.rear] : [])))
      expect(distance(applyPose(pose, point), point)).toBeLessThan(1e-9);
  });

  it("a link turns by no more than the angle between its two lines", () => {
    const pose = poses.get("toe")!;
    const line = normalise(subtract([-170, 670, 230], [-150, 330, 225]));
    const now = turnByPose(pose, line);
    expect(angleOf(pose)).toBeCloseTo(Math.atan2(length(cross(line, now)), dot(line, now)), 9);
  });

  it("a link with a bush axis keeps that axis nearer to the bracket's than any spin about its line could", () => {
    const pose = poses.get("cranked")!;
    const axis = normalise([1, 0.2, 0.1]);
    const along = turnByPose(pose, normalise(subtract([-40, 650, 430], [-20, 410, 425])));
    const held = turnByPose(pose, axis);
    const reached = dot(held, axis);
    for (let spin_deg = 1; spin_deg < 360; spin_deg++) {
      const t = (spin_deg * Math.PI) / 180;
      const [side, lift] = [cross(along, held), dot(along, held)];
      const spun = held.map((v, i) => v * Math.cos(t) + side[i]! * Math.sin(t) + along[i]! * lift * (1 - Math.cos(t)));
      expect(dot(spun as unknown as Vec3, axis)).toBeLessThanOrEqual(reached + 1e-12);
    }
  });

  it("a link whose bush axis is square to its swing turns about that axis alone", () => {
    // a level link swinging in the plane square to its bush
    const level = corner(
      [
        wishbone("a", [100, 300, 150], [-100, 300, 150], [0, 700, 150]),
        wishbone("b", [100, 400, 400], [-100, 400, 400], [0, 650, 430]),
        link("c", [-100, 300, 150], [-100, 700, 150], undefined, [1, 0, 0]),
      ],
      wheel([0, 740, 300]),
    );
    const held = compileCorner(level, "left");
    const pose = mountPoses(held, solveCorner(held, 50).pose, "rest").get("c")!;
    const turned = turnByPose(pose, [1, 0, 0]);
    expect(distance(turned, [1, 0, 0])).toBeLessThan(1e-9);
  });

  it("damper halves point at each other and keep to their own eyes", () => {
    const [upper, lower] = [poses.get("damper-upper")!, poses.get("damper-lower")!];
    const drawn = normalise(subtract([-40, 560, 215], [-15, 500, 600]));
    expect(distance(applyPose(upper, [-15, 500, 600]), [-15, 500, 600])).toBeLessThan(1e-9);
    const eye = applyPose(poses.get("toe")!, [-40, 560, 215]);
    expect(distance(applyPose(lower, [-40, 560, 215]), eye)).toBeLessThan(1e-9);
    const line = normalise(subtract(eye, [-15, 500, 600]));
    for (const half of [upper, lower]) expect(distance(turnByPose(half, drawn), line)).toBeLessThan(1e-12);
  });

  it("ball, hinge and strut parts are one with the carrier", () => {
    for (const mix of ["ball and strut", "hinge"]) {
      const held = compileCorner(corner(randomMembers(randomOf(3)).get(mix)!, wheel([0, 740, 300])), "left");
      const all = mountPoses(held, solveCorner(held, 15).pose, "rest");
      for (const id of all.keys())
        if (!["chassis", "powertrain"].includes(id)) expect([...all.get(id)!]).toEqual([...all.get("carrier")!]);
    }
  });

  it("writes the same numbers in its fixed order", () => {
    const writer = mountWriter(compiled, "rest");
    expect(writer.order).toEqual([...poses.keys()]);
    const out = new Float64Array(writer.order.length * POSE_SIZE + 5);
    expect(writer.write(solveCorner(compiled, 60).pose, out, 5)).toBe(true);
    expect([...out.subarray(5)]).toEqual([...poses.values()].flatMap((pose) => [...pose]));
  });
});
