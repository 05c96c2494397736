// Numbers of this file are those of the project's acceptance stories, worked out apart from this program by rigid-joint
// geometry; they hold to ±0.3 mm and ±0.02°.
import { describe, expect, it } from "vitest";
import { checkDocument, limitOf, pairOf } from "./checkDocument.ts";
import { storyCorner, withUpperIn } from "./storyCorner.ts";

const MM = 0.3;
const DEG = 0.02;

function near(value: number | null | undefined, wanted: number, within: number) {
  expect(Math.abs((value ?? Number.NaN) - wanted), `${value} against ${wanted}`).toBeLessThanOrEqual(within);
}

describe("story 1: the upper link and the sump rail", () => {
  it("passes the rail by 8.4 mm at full bump, by 0.1 mm with the tail rocked down", async () => {
    const pair = pairOf(await checkDocument(storyCorner()), "sump-rail", "upper");
    near(pair.byPose.rest, 8.4, MM);
    near(pair.clearance_mm, 0.1, MM);
    expect(pair.at.pose).toBe("tail-down");
    near(pair.at.travel_mm, 60, 0.5);
    expect(pair.verdict).toBe("tight");
  });

  it("still fails 10 mm when rocked with the inner pivot 15 mm outboard", async () => {
    const pair = pairOf(await checkDocument(withUpperIn([-20, 425, 425])), "sump-rail", "upper");
    near(pair.byPose.rest, 11.8, MM);
    near(pair.byPose["tail-down"], 3.5, MM);
    expect(pair.verdict).toBe("tight");
  });

  it("clears 10 mm with the pivot also 10 mm down, at the stories' price in camber and toe", async () => {
    const result = await checkDocument(withUpperIn([-20, 425, 415]));
    const pair = pairOf(result, "sump-rail", "upper");
    near(pair.byPose.rest, 19.6, MM);
    near(pair.clearance_mm, 11.4, MM);
    expect(pair.verdict).toBe("clear");
    const bump = result.sides.left?.curve.at(-1);
    near(bump?.travel_mm, 60, 0);
    near(bump?.camber_deg, -2.84, DEG);
    near(bump?.toe_deg, -0.69, DEG);
    const before = (await checkDocument(storyCorner())).sides.left?.curve.at(-1);
    near(before?.camber_deg, -1.97, DEG);
    near(before?.toe_deg, -0.62, DEG);
  });
});

describe("story 4: the driveshaft", () => {
  it("has 7.4 and 4.9 mm to spare with the engine rocking", async () => {
    const result = await checkDocument(storyCorner());
    const ride = result.sides.left?.curve.find(({ travel_mm }) => travel_mm === 0);
    near(ride?.shaft_mm, 436, MM);
    const limit = limitOf(result, "shaft-length");
    expect(limit.verdict).toBe("clear");
    near(limit.value, 442.1, MM);
    near(limit.limit - limit.value, 4.9, MM);
    near(limit.at.travel_mm, -70, 0);
    near(limitOf(result, "inner-angle").value, 16.2, 0.05);
    near(limitOf(result, "outer-angle").value, 17.9, 0.05);
  });

  it("lets go beyond 45 mm of droop when cut 6 mm shorter", async () => {
    const corner = storyCorner();
    const shaft = { ...corner.driveshaft!, shortest_mm: 413, longest_mm: 441 };
    const limit = limitOf(await checkDocument({ ...corner, driveshaft: shaft }), "shaft-length");
    expect(limit.verdict).toBe("clash");
    near(limit.passedAt_mm, -45, 1);
  });
});

describe("story 5: damper and stop", () => {
  it("is solid on its stop at +56.6 and tops out at −64.9", async () => {
    const result = await checkDocument(storyCorner());
    const stop = limitOf(result, "stop");
    expect(stop.verdict).toBe("clash");
    near(stop.value, 306.4, MM);
    near(stop.passedAt_mm, 56.6, MM);
    const length = limitOf(result, "damper-length");
    expect(length.verdict).toBe("clash");
    near(length.passedAt_mm, -64.9, MM);
    const ride = result.sides.left?.curve.find(({ travel_mm }) => travel_mm === 0);
    near(ride?.damper_mm, 369.9, MM);
    near(ride?.damperRatio, 1.07, 0.01);
  });
});
