import { describe, expect, test } from "vitest";
import { applyPose, composePoses, type Pose, rotationPose, translationPose, turnPose } from "../../src/maths/pose.ts";
import { add, cross, dot, normalise, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import { type PointPair, registerPairs, residualsOf } from "../../src/scans/register.ts";
import { InputError } from "../../src/scene/error.ts";
import { turnOf } from "../../src/scene/parts/mount.ts";
import { randomFrom } from "../geometry/support.ts";
import { agreesWithin } from "../truth/agreement.ts";

function somePose(random: () => number): Pose {
  const axis = normalise([random() - 0.5, random() - 0.5, random() - 0.5]);
  const turn = rotationPose(axis, (random() - 0.5) * 2 * Math.PI);
  return composePoses(translationPose([2000 * random(), -3000 * random(), 500]), turn);
}

function somePoints(random: () => number, count: number): Vec3[] {
  return Array.from({ length: count }, (): Vec3 => [600 * random() + 4000, 500 * random() - 900, 400 * random()]);
}

function pairsAt(pose: Pose, points: readonly Vec3[]): PointPair[] {
  return points.map((scan) => ({ scan, car: applyPose(pose, scan) }));
}

function refusal(pairs: readonly PointPair[]): InputError {
  try {
    registerPairs(pairs);
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("it was not refused");
}

describe("a placed scan", () => {
  test.each([3, 4, 7, 20])(
    "lies where a known motion takes it, from %i pairs (Horn 1987), to 1e-9 mm and beyond",
    (count) => {
      const random = randomFrom(count);
      for (let i = 0; i < 30; i++) {
        const pose = somePose(random);
        const pairs = pairsAt(pose, somePoints(random, count));
        const found = registerPairs(pairs);
        for (const p of somePoints(random, 5)) {
          const [a, b] = [applyPose(found.pose, p), applyPose(pose, p)];
          for (const k of [0, 1, 2] as const) agreesWithin("registration", a[k], b[k], 5e-9);
        }
        agreesWithin("registration", found.rms_mm, 0, 1e-9);
        for (const residual_mm of found.residuals_mm) agreesWithin("registration", residual_mm, 0, 5e-9);
        expect(found.stretch).toBeCloseTo(1, 10);
        expect(found.suspects).toEqual([]);
      }
    },
  );

  test("half a turn is no trap: a quaternion of no real part", () => {
    const pose = rotationPose([0, 0, 1], Math.PI);
    const found = registerPairs(
      pairsAt(pose, [
        [0, 0, 0],
        [100, 0, 0],
        [0, 60, 0],
      ]),
    );
    for (let i = 0; i < 12; i++) expect(found.pose[i]!).toBeCloseTo(pose[i]!, 12);
  });

  /**
   * K. S. Arun, T. S. Huang, S. D. Blostein, "Least-squares fitting of two 3-D point sets", IEEE PAMI 9 (1987) 698: the best
   * rotation is the one that makes R·H (H the sums of products about the middles) symmetric with no negative eigenvalue.
   */
  test("of inexact pairs is the best there is: by the condition of Arun, Huang and Blostein", () => {
    const random = randomFrom(5);
    for (let i = 0; i < 20; i++) {
      const exact = pairsAt(somePose(random), somePoints(random, 6));
      const pairs = exact.map(({ scan, car }) => ({
        scan,
        car: add(car, scale([random() - 0.5, random() - 0.5, random() - 0.5], 8)),
      }));
      const { pose } = registerPairs(pairs);
      const middle = (points: readonly Vec3[]) => scale(points.reduce(add), 1 / points.length);
      const [from, to] = [middle(pairs.map(({ scan }) => scan)), middle(pairs.map(({ car }) => car))];
      const placed = applyPose(pose, from);
      for (const k of [0, 1, 2] as const) expect(placed[k]).toBeCloseTo(to[k], 9);
      const m = [0, 1, 2].map(() => [0, 0, 0]);
      for (const { scan, car } of pairs) {
        const l = subtract(applyPose(pose, scan), placed);
        const r = subtract(car, to);
        for (const a of [0, 1, 2] as const) for (const b of [0, 1, 2] as const) m[a]![b]! += l[a] * r[b];
      }
      const size = Math.max(...m.flat().map(Math.abs));
      for (const [a, b] of [
        [0, 1],
        [0, 2],
        [1, 2],
      ] as const)
        expect(Math.abs(m[a]![b]! - m[b]![a]!) / size).toBeLessThan(1e-9);
      const minor = m[0]![0]! * m[1]![1]! - m[0]![1]! * m[1]![0]!;
      const rows = m as unknown as [Vec3, Vec3, Vec3];
      expect(Math.min(m[0]![0]!, minor, dot(rows[0], cross(rows[1], rows[2])))).toBeGreaterThan(0);
    }
  });

  test("can be written as at and turn_deg and read again to 1e-9 mm", () => {
    const random = randomFrom(8);
    for (let i = 0; i < 50; i++) {
      const pose = somePose(random);
      const again = turnPose(turnOf(pose));
      for (const k of [0, 1, 2, 4, 5, 6, 8, 9, 10]) expect(again[k]!).toBeCloseTo(pose[k]!, 12);
    }
  });
});

describe("pairs that will not do are refused with the mend", () => {
  const at = (points: readonly Vec3[]) => pairsAt(rotationPose([0, 0, 1], 0.3), points);

  test("fewer than three", () => {
    expect(
      refusal(
        at([
          [0, 0, 0],
          [100, 0, 0],
        ]),
      ),
    ).toMatchObject({ code: "scan-pairs", wrong: "there are 2 pairs" });
  });

  test("points in a line, on the scan or in the car", () => {
    const line = at([
      [0, 0, 0],
      [100, 0, 0],
      [205, 1, 0],
    ]);
    expect(refusal(line).wrong).toContain("one line");
    expect(refusal(line).wanted).toContain("well off that line");
    const inCar = at([
      [0, 0, 0],
      [100, 0, 0],
      [50, 80, 0],
    ]).map((pair, i) => ({ ...pair, car: [0, 50 * i, 0] as Vec3 }));
    expect(refusal(inCar).wrong).toContain("in the car");
  });

  test("points all in one place", () => {
    expect(
      refusal(
        at([
          [1, 2, 3],
          [1, 2, 3],
          [1, 2, 3],
        ]),
      ).wrong,
    ).toContain("one place");
  });
});

describe("a pair that was picked wrongly is told", () => {
  const points: Vec3[] = [
    [0, 0, 0],
    [420, 10, 0],
    [30, 310, 20],
    [400, 280, 160],
    [200, 100, 240],
  ];
  const pose = composePoses(translationPose([100, 600, 300]), rotationPose(normalise([1, 2, 3]), 1.1));

  test.each([4, 5])("among %i: whichever it is", (count) => {
    for (let wrong = 0; wrong < count; wrong++) {
      const pairs = pairsAt(pose, points.slice(0, count)).map((pair, i) =>
        i === wrong ? { ...pair, car: add(pair.car, [25, -30, 18]) } : pair,
      );
      expect(registerPairs(pairs).suspects).toEqual([wrong]);
    }
  });

  test("among three: the one whose distances to both others are wrong", () => {
    const pairs = pairsAt(pose, points.slice(0, 3));
    const off = { ...pairs[1]!, car: add(pairs[1]!.car, scale(subtract(pairs[1]!.car, pairs[0]!.car), 0.2)) };
    const spoilt = [pairs[0]!, { ...off, car: add(off.car, scale(subtract(off.car, pairs[2]!.car), 0.1)) }, pairs[2]!];
    expect(registerPairs(spoilt).suspects).toEqual([1]);
  });

  test("pairs that are all a little off, as picked by hand, are none", () => {
    const random = randomFrom(3);
    for (let i = 0; i < 200; i++) {
      const pairs = pairsAt(pose, points).map(({ scan, car }) => ({
        scan,
        car: add(car, scale([random() - 0.5, random() - 0.5, random() - 0.5], 3)),
      }));
      expect(registerPairs(pairs).suspects).toEqual([]);
    }
  });

  test("a scan that is 2 % too small shows as that", () => {
    const pairs = pairsAt(pose, points).map(({ scan, car }) => ({ scan: scale(scan, 0.98), car }));
    expect(registerPairs(pairs).stretch).toBeCloseTo(1 / 0.98, 9);
  });

  test("residuals are plain distances after placing", () => {
    const pairs = pairsAt(pose, points.slice(0, 3));
    expect(Math.max(...residualsOf(translationPose([0, 0, 7]), [{ scan: [1, 2, 3], car: [1, 2, 6] }]))).toBe(4);
    expect(registerPairs(pairs).residuals_mm).toHaveLength(3);
  });
});
