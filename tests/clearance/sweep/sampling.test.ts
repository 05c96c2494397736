import { describe, expect, it } from "vitest";
import { buildTree } from "../../../src/clearance/kernel.ts";
import { RelativeMotion } from "../../../src/clearance/motion.ts";
import { createPairGauge } from "../../../src/clearance/pairState.ts";
import { sweepBelow, sweepPair } from "../../../src/clearance/sweep.ts";
import { TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import { composePoses, rotationPose } from "../../../src/maths/pose.ts";
import { normalise } from "../../../src/maths/vec3.ts";
import { randomFrom, randomPoint } from "../kernel/meshes.ts";
import { randomMotion, randomPart } from "./randomParts.ts";
import { body, pairOf, STILL, shiftPose, variant } from "./shapes.ts";

const SEED = 77001;
const MOTIONS = 1000;
const HALF_RANGE_mm = 12;
const SAMPLE_mm = 0.02;
/** No point of either part moves faster than this, mm a mm of travel: 2·√3 of slide and 1.5° a mm of up to 400 mm. */
const FASTEST = 2 * (2 * Math.sqrt(3) + ((1.5 * Math.PI) / 180) * 400);

describe("random parts on random motions", () => {
  it(`agree with samples every ${SAMPLE_mm} mm: nothing missed, nothing invented`, { timeout: 120_000 }, () => {
    const random = randomFrom(SEED);
    let clashes = 0;
    let grazes = 0;
    for (let i = 0; i < MOTIONS; i++) {
      const a = body("a", randomPart(random));
      const b = body("b", randomPart(random));
      const away = randomPoint(random, 55);
      const turn = rotationPose(normalise(randomPoint(random, 1)), 6 * random());
      const ofB = randomMotion(random, composePoses(shiftPose(away), turn), HALF_RANGE_mm);
      const ofA = random() < 0.5 ? STILL : randomMotion(random, rotationPose([0, 0, 1], 0), HALF_RANGE_mm);
      const told = `seed ${SEED}, motion ${i}`;
      const shelf = new TreeShelf();
      const pair = pairOf(a, b, [variant(ofA, ofB, -HALF_RANGE_mm, HALF_RANGE_mm)]);
      const swept = sweepPair(shelf, a, b, pair);

      const relative = new RelativeMotion(ofA, ofB, -HALF_RANGE_mm, HALF_RANGE_mm);
      const gauge = createPairGauge(buildTree(a.solid), buildTree(b.solid));
      const pose = new Float64Array(12);
      let least = Number.POSITIVE_INFINITY;
      for (let travel = -HALF_RANGE_mm, last = false; !last; ) {
        last = travel >= HALF_RANGE_mm;
        gauge.measure(relative.poseAt(travel, pose), false);
        const { clearance_mm } = gauge.state;
        least = Math.min(least, clearance_mm);
        const margin = marginWithin(swept.clashTravel_mm, travel);
        if (clearance_mm < -0.1) expect(margin, `${told}: a clash at ${travel} is missing`).toBeGreaterThanOrEqual(0);
        if (clearance_mm > 0.1) expect(margin, `${told}: clear at ${travel}`).toBeLessThanOrEqual(0.1);
        // far apart, samples may lie farther apart: nothing can come near sooner
        travel = Math.min(HALF_RANGE_mm, travel + Math.max(SAMPLE_mm, clearance_mm / FASTEST));
      }
      const tolerance = least < 0 ? Math.max(0.05, -0.02 * least) : least < 15 ? 0.01 : 0.1;
      expect(swept.clearance_mm, told).toBeLessThanOrEqual(least + tolerance);
      // what is told was measured, and can only be lower than the samples by what moves between them
      expect(swept.clearance_mm, told).toBeGreaterThan(least - FASTEST * SAMPLE_mm);
      // asked only whether they come nearer than so much
      const cap = i % 40;
      const below = sweepBelow(shelf, a, b, pair, cap);
      if (below === null) expect(least, told).toBeGreaterThanOrEqual(cap);
      else {
        expect(below.clearance_mm, told).toBeLessThan(cap);
        expect(below.clearance_mm, told).toBeLessThanOrEqual(least + tolerance);
        expect(below.clearance_mm, told).toBeGreaterThan(least - FASTEST * SAMPLE_mm);
      }
      if (least < 0) clashes++;
      else if (least < 1) grazes++;
    }
    // the cases are worth something only if both kinds occur often
    expect(clashes).toBeGreaterThan(MOTIONS / 5);
    expect(clashes).toBeLessThan((MOTIONS * 4) / 5);
    expect(grazes).toBeGreaterThan(MOTIONS / 200);
  });
});

/** How far within a stretch of clash a travel lies; negative outside all of them. */
function marginWithin(intervals: readonly (readonly [number, number])[], travel: number): number {
  return Math.max(
    -Infinity,
    ...intervals.map(([from, to]) => {
      const low = from <= -HALF_RANGE_mm ? Infinity : travel - from;
      const high = to >= HALF_RANGE_mm ? Infinity : to - travel;
      return travel >= from - 1e-9 && travel <= to + 1e-9
        ? Math.max(0, Math.min(low, high))
        : Math.min(travel - from, to - travel);
    }),
  );
}
