import { expect, it } from "vitest";
import { besideTheCar } from "../../../src/app/scans/besideTheCar.ts";
import type { ModelBody } from "../../../src/check/model.ts";
import { translationPose } from "../../../src/maths/pose.ts";

const corner = (at: readonly number[]) => ({ solid: { positions: Float32Array.of(...at) } }) as unknown as ModelBody;

it("frames the car and the scan where it is placed, not where its file has it", () => {
  const car = [corner([0, 0, 0, 1000, 100, 500])];
  const scan = corner([4000, -900, 0, 4100, -800, 100]);
  const { at, span_mm } = besideTheCar(car, scan, translationPose([-3800, 900, 200]));
  expect(at).toEqual([500, 50, 250]);
  // all of the length of 1000 in a picture half as wide again as high
  expect(span_mm).toBeGreaterThanOrEqual(1000 / 1.6);
  expect(span_mm).toBeLessThan(1000);
});
