import { describe, expect, it } from "vitest";
import { buildTree } from "../../../src/clearance/kernel.ts";
import { RelativeMotion } from "../../../src/clearance/motion.ts";
import { createPairGauge } from "../../../src/clearance/pairState.ts";
import { sweepBelow, sweepPair } from "../../../src/clearance/sweep.ts";
import { TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import { rotationPose } from "../../../src/maths/pose.ts";
import { normalise } from "../../../src/maths/vec3.ts";
import { randomFrom, randomPoint } from "../kernel/meshes.ts";
import { randomMotion, randomPart } from "./randomParts.ts";
import { body, pairOf, rockOfB, type Turn, turned, variant } from "./shapes.ts";

const SEED = 41207;
const CASES = 32;
const HALF_RANGE_mm = 12;
const SHARES = 100;
const SAMPLE_mm = 0.1;
/** No point of the part on the arm moves faster, mm a mm of travel: 2·√3 of slide and 1.5° a mm of up to 400 mm. */
const FASTEST = 2 * Math.sqrt(3) + ((1.5 * Math.PI) / 180) * 400;

describe("random parts, one on an arm, the other rocking", () => {
  it(`agree with samples at ${SHARES} shares of the way: nothing missed, nothing invented`, {
    timeout: 120_000,
  }, () => {
    const random = randomFrom(SEED);
    let between = 0;
    let clashes = 0;
    for (let i = 0; i < CASES; i++) {
      const told = `seed ${SEED}, case ${i}`;
      const a = body("a", randomPart(random, randomPoint(random, 45)));
      const b = body("b", randomPart(random));
      const turn: Turn = {
        axis: normalise(randomPoint(random, 1)),
        about: randomPoint(random, 200),
        angle: (random() * 14 * Math.PI) / 180,
        shift: random() < 0.5 ? [0, 0, 0] : randomPoint(random, 8),
      };
      const ofA = randomMotion(random, rotationPose([0, 0, 1], 0), HALF_RANGE_mm);
      const from_mm = random() < 0.3 ? -5 : -HALF_RANGE_mm;
      const rock = rockOfB(ofA, b.solid, turn);
      const shelf = new TreeShelf();
      const pair = pairOf(a, b, [
        variant(ofA, turned(turn, 0), -HALF_RANGE_mm, HALF_RANGE_mm),
        { ...variant(ofA, turned(turn, 1), from_mm, HALF_RANGE_mm, "drive"), rock },
      ]);
      const swept = sweepPair(shelf, a, b, pair);

      const gauge = createPairGauge(buildTree(a.solid), buildTree(b.solid));
      const pose = new Float64Array(12);
      /** Half of what b moves from one sampled share to the next. */
      const unsampled_mm = rock.b.speed_mm / SHARES / 2;
      let least = Number.POSITIVE_INFINITY;
      const touched: number[] = [];
      for (let k = 0; k <= SHARES; k++) {
        const relative = new RelativeMotion(
          ofA,
          turned(turn, k / SHARES),
          k === 0 ? -HALF_RANGE_mm : from_mm,
          HALF_RANGE_mm,
        );
        for (let travel = relative.from_mm, last = false; !last; ) {
          last = travel >= HALF_RANGE_mm;
          gauge.measure(relative.poseAt(travel, pose), false);
          const { clearance_mm } = gauge.state;
          least = Math.min(least, clearance_mm);
          const seen = swept.clashTravel_mm.some(([from, to]) => travel >= from && travel <= to);
          if (clearance_mm < -0.1)
            expect(seen, `${told}: a clash at ${travel}, share ${k / SHARES} is missing`).toBe(true);
          if (clearance_mm < unsampled_mm + 0.1) touched.push(travel);
          travel = Math.min(HALF_RANGE_mm, travel + Math.max(SAMPLE_mm, (clearance_mm - unsampled_mm - 0.1) / FASTEST));
        }
      }
      // every stretch of clash has samples that touch, or come as near as the way between two samples, all along it
      touched.sort((p, q) => p - q);
      for (const [from, to] of swept.clashTravel_mm) {
        let at = from;
        for (const travel of touched) {
          if (travel < at || travel > to) continue;
          expect(travel - at, `${told}: no clash between ${at} and ${travel}`).toBeLessThanOrEqual(SAMPLE_mm + 0.11);
          at = travel;
        }
        expect(to - at, `${told}: no clash between ${at} and ${to}`).toBeLessThanOrEqual(SAMPLE_mm + 0.11);
      }
      const tolerance = least < 0 ? Math.max(0.1, -0.05 * least) : least < 15 ? 0.01 : 0.1;
      expect(swept.clearance_mm, told).toBeLessThanOrEqual(least + tolerance);
      expect(swept.clearance_mm, told).toBeGreaterThan(least - unsampled_mm - (FASTEST * SAMPLE_mm) / 2);
      const cap = i % 20;
      const below = sweepBelow(shelf, a, b, pair, cap);
      if (below === null) expect(least, told).toBeGreaterThanOrEqual(cap);
      else expect(below.clearance_mm, told).toBeLessThanOrEqual(Math.min(cap, least + tolerance));
      if (swept.at.share !== undefined) between++;
      if (least < 0) clashes++;
    }
    // the cases are worth something only if both kinds occur
    expect(between).toBeGreaterThan(CASES / 10);
    expect(clashes).toBeGreaterThan(CASES / 5);
    expect(clashes).toBeLessThan((CASES * 4) / 5);
  });
});
