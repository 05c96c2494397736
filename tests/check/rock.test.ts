import { describe, expect, it } from "vitest";
import { prepareCheck } from "../../src/check/check.ts";
import { fingerprint } from "../../src/check/fingerprint.ts";
import type { PlannedPair } from "../../src/check/plan.ts";
import { poseOfMotion } from "../../src/clearance/motion.ts";
import type { Motion } from "../../src/clearance/types.ts";
import { applyPose } from "../../src/maths/pose.ts";
import { distance, type Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { randomOf } from "../kinematics/random.ts";
import { checkDocument, limitOf, pairOf } from "./checkDocument.ts";
import { storyCorner } from "./storyCorner.ts";

const SEED = 3141;
type Poses = NonNullable<NonNullable<SceneDocument["powertrain"]>["poses"]>;
type Bodies = SceneDocument["bodies"];

const DOWN: Poses = [{ id: "tail-down", about: [150, 0, 400], axis: [0, 1, 0], angle_deg: -6 }];

// 250 behind the axis and 6 high; it goes down by 250·sin 6° = 26.1 mm. The tab is 2 thick, 13 below
const LUG: Bodies[number] = {
  id: "lug",
  on: "powertrain",
  shape: { kind: "box", size_mm: [20, 30, 6], at: [-100, 0, 400] },
};
const TAB: Bodies[number] = {
  id: "tab",
  on: "chassis",
  shape: { kind: "box", size_mm: [40, 60, 2], at: [-110, 0, 387] },
};

function rocking(poses: Poses, bodies: Bodies, change: Partial<SceneDocument> = {}): SceneDocument {
  return storyCorner({ powertrain: { poses }, bodies, ...change });
}

describe("a lug on the engine and a thin tab on the frame that it passes on its way", () => {
  it("clash, although they are clear at rest and at the extreme", async () => {
    const pair = pairOf(await checkDocument(rocking(DOWN, [LUG, TAB])), "lug", "tab", "both");
    expect(pair.verdict).toBe("clash");
    // half of both heights where their middles meet, at asin(13/250) = 2.98° of 6°; a little more for the lug's tilt
    expect(pair.clearance_mm).toBeLessThan(-4 * 0.95);
    expect(pair.clearance_mm).toBeGreaterThan(-4.7);
    expect(pair.at.pose).toBe("tail-down");
    expect(Math.abs(pair.at.share! - 2.98 / 6)).toBeLessThan(0.03);
    expect(pair.clashTravel_mm).toEqual([[-70, 60]]);
    expect(pair.byPose.rest).toBeGreaterThan(5);
    expect(pair.byPose["tail-down"]).toBe(pair.clearance_mm);
  });

  it("do not where the engine stops before, and tell no share where the pose itself is the worst", async () => {
    const poses: Poses = [{ ...DOWN[0]!, angle_deg: -1.5 }];
    const pair = pairOf(await checkDocument(rocking(poses, [LUG, TAB])), "lug", "tab", "both");
    // 13 − 3 − 1 − 250·sin 1.5° − 10·sin 1.5°, less what the tessellation may take
    expect(Math.abs(pair.clearance_mm - (9 - 260 * Math.sin((1.5 * Math.PI) / 180)))).toBeLessThan(0.15);
    expect("share" in pair.at).toBe(false);
  });

  it("are left alone when one pose is asked for without the way to it", async () => {
    const pair = pairOf(await checkDocument(rocking(DOWN, [LUG, TAB]), "tail-down"), "lug", "tab", "both");
    expect(pair.verdict).not.toBe("clash");
  });
});

describe("a boot on the driveshaft and a rod on the frame", () => {
  it("clash where the inner joint passes on its way, within the pose's credible travel only", async () => {
    // the inner joint, 125 behind the axis, goes down by 125·sin 16° = 34 mm
    const poses: Poses = [
      { id: "tail-down", about: [150, 0, 345], axis: [0, 1, 0], angle_deg: -16, within_mm: [-20, 10] },
    ];
    const boot: Bodies[number] = {
      id: "boot",
      on: "driveshaft",
      shape: { kind: "sphere", at: [20.8, 300, 338.5], diameter_mm: 8 },
    };
    const rod: Bodies[number] = {
      id: "rod",
      on: "chassis",
      shape: { kind: "cylinder", from: [-20, 300, 324], to: [60, 300, 324], diameter_mm: 4 },
    };
    // at more droop the boot would come down on the rod with the engine at rest
    const travel = { bump_mm: 30, droop_mm: 30, step_mm: 5 };
    // a shaft as thin as the rod, so that the boot is what touches
    const thin = { ...storyCorner().driveshaft!, diameter_mm: 2 };
    const result = await checkDocument(rocking(poses, [boot, rod], { driveshaft: thin, travel }));
    const pair = pairOf(result, "boot", "rod");
    expect(pair.verdict).toBe("clash");
    expect(pair.at.share).toBeGreaterThan(0.2);
    expect(pair.at.share).toBeLessThan(0.8);
    const [[from, to]] = pair.clashTravel_mm as [readonly [number, number]];
    expect(from).toBeGreaterThanOrEqual(-20);
    expect(to).toBeLessThanOrEqual(10);
  });
});

describe("the ways that the plan gives to the sweep", () => {
  const poses: Poses = [
    { id: "drive", about: [150, 40, 380], axis: [0.2, 1, -0.1], angle_deg: 5, shift_mm: [3, -2, 4] },
    { id: "overrun", about: [150, 40, 380], axis: [0.2, 1, -0.1], angle_deg: -4, within_mm: [-30, 20] },
  ];
  const boot: Bodies[number] = {
    id: "boot",
    on: "driveshaft",
    shape: { kind: "sphere", at: [20, 330, 340], diameter_mm: 80 },
  };
  const place = { shift_mm: [4, 2, -3], turn_deg: [1, -1, 2], about: [0, 0, 300] } as const;
  const document = storyCorner({
    sides: "both",
    tessellation_mm: 2,
    powertrain: { place: place as never, poses },
    bodies: [...storyCorner().bodies, boot, TAB],
  });
  const prepared = prepareCheck(resolveScene(document));

  it("begin at rest and end at the pose", () => {
    let ways = 0;
    for (const { sweep } of prepared.pairs) {
      const [rest] = sweep.variants;
      expect(rest!.pose).toBe("rest");
      expect(rest!.rock).toBeUndefined();
      for (const variant of sweep.variants.slice(1)) {
        ways++;
        for (const of of ["a", "b"] as const) {
          alike(variant.rock!.motionsAt(0)[of], rest![of]);
          alike(variant.rock!.motionsAt(1)[of], variant[of]);
        }
      }
    }
    expect(ways).toBeGreaterThan(20);
  });

  it("move no point faster, nor bend its way more, than they say, at knots and between them", () => {
    const random = randomOf(SEED);
    const STEP = 1e-3;
    for (const { first, second, sweep } of prepared.pairs) {
      for (const { rock, a, b, from_mm, to_mm } of sweep.variants) {
        if (!rock) continue;
        for (const [body, of, motion] of [
          [first, "a", a],
          [second, "b", b],
        ] as const) {
          const travel = from_mm + (to_mm - from_mm) * random();
          const share = 0.05 + 0.9 * random();
          const [p, q, r] = [share - STEP, share, share + STEP].map((at) =>
            poseOfMotion(rock.motionsAt(at)[of], travel, new Float64Array(12)),
          );
          const told = `seed ${SEED}, ${body.key} at ${travel}, share ${share}`;
          for (let i = 0; i < body.solid.positions.length; i += 3 * 7) {
            const [x, y, z] = body.solid.positions.subarray(i, i + 3);
            const [before, now, after] = [p!, q!, r!].map((pose) => applyPose(pose, [x!, y!, z!]));
            expect(distance(before!, after!) / (2 * STEP), told).toBeLessThanOrEqual(
              rock[of].speed_mm * (1 + 1e-6) + 1e-5,
            );
            const bend = [0, 1, 2].map((k) => before![k]! + after![k]! - 2 * now![k]!) as unknown as Vec3;
            expect(Math.hypot(...bend) / STEP ** 2, told).toBeLessThanOrEqual(rock[of].bend_mm * (1 + 1e-3) + 1e-2);
          }
          if (rock[of].speed_mm === 0) expect(rock.motionsAt(share)[of]).toBe(motion);
        }
      }
    }
  });

  it("tell sweeps apart by the way too, and only by it", () => {
    const keysOf = (poses: Poses) =>
      new Map(
        prepareCheck(resolveScene({ ...document, powertrain: { place: place as never, poses } })).pairs.map(
          (pair: PlannedPair) => [`${pair.side}/${pair.first.key}/${pair.second.key}`, fingerprint(pair)],
        ),
      );
    const before = keysOf(poses);
    expect(keysOf(poses)).toEqual(before);
    // the same extreme by another way: a turn of 5° more than a full one
    const longWay = keysOf([{ ...poses[0]!, angle_deg: 365 }, poses[1]!]);
    let [changed, kept] = [0, 0];
    for (const [name, key] of before) {
      if (longWay.get(name) === key) kept++;
      else changed++;
    }
    expect(changed).toBeGreaterThan(10);
    expect(kept).toBeGreaterThan(10);
  });
});

describe("limits on the way from rest", () => {
  it("hold the shaft where it is shortest, with the engine part of the way", async () => {
    // the inner joint goes from ahead to behind the outer one: with the axis above it, it passes the nearest point between
    const inner = [60, 235, 300] as const;
    const poses: Poses = [{ id: "pull", about: [0, 235, 900], axis: [0, 1, 0], angle_deg: 12 }];
    const driveshaft = {
      ...storyCorner().driveshaft!,
      inner: [...inner] as [number, number, number],
      shortest_mm: 430,
    };
    const corner = rocking(poses, [], { driveshaft, travel: { bump_mm: 0, droop_mm: 0, step_mm: 5 } });
    const limit = limitOf(await checkDocument(corner), "shaft-length");
    // closed form: about (0, 900) the joint turns at radius √(60² + 600²) from its angle; nearest to (0, 668, 300) in y–z–x
    let [least, at] = [Number.POSITIVE_INFINITY, 0];
    for (let share = 0; share <= 1; share += 1e-5) {
      const angle = share * 12 * (Math.PI / 180);
      const x = 60 * Math.cos(angle) - 600 * Math.sin(angle);
      const z = 900 - 60 * Math.sin(angle) - 600 * Math.cos(angle);
      const length = Math.hypot(x, 668 - 235, z - 300);
      if (length < least) [least, at] = [length, share];
    }
    expect(at).toBeGreaterThan(0.2);
    expect(at).toBeLessThan(0.8);
    expect(limit.value).toBeCloseTo(least, 4);
    expect(limit.at.pose).toBe("pull");
    expect(Math.abs(limit.at.share! - at)).toBeLessThan(0.01);
  });

  it("tell no share where the pose itself is the worst", async () => {
    const limit = limitOf(await checkDocument(storyCorner()), "shaft-length");
    expect("share" in limit.at).toBe(false);
  });
});

function alike(found: Motion, wanted: Motion): void {
  expect(found.travel_mm).toEqual(wanted.travel_mm);
  expect(found.poses.length).toBe(wanted.poses.length);
  for (let i = 0; i < wanted.poses.length; i++) {
    if (Math.abs(found.poses[i]! - wanted.poses[i]!) > 1e-9) expect(found.poses[i]).toBe(wanted.poses[i]);
  }
}
