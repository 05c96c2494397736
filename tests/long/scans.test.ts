import { beforeAll, describe, expect, it } from "vitest";
import { runScanCase, type ScanFigures } from "../bench/scanFigures.ts";

/** The memory that a check of two such scans may take, mesh files and all. */
const MOST_MB = 1500;

describe("two open scans of a million triangles each beside 300 parts", () => {
  let figures: ScanFigures;
  beforeAll(async () => {
    figures = await runScanCase(1_000_000, true);
  }, 3_600_000);

  it("is the case that is meant", () => {
    expect(figures.bodies).toBeGreaterThanOrEqual(300);
    expect(figures.moving).toBeGreaterThanOrEqual(30);
    for (const count of figures.triangles) expect(Math.abs(count / 1_000_000 - 1)).toBeLessThan(0.12);
  });

  it("keeps to its memory", () => {
    expect(figures.peak_MB).toBeLessThan(MOST_MB);
  });

  it("tells every pair as it is done", () => {
    expect(figures.told).toBe(figures.pairs);
    expect(figures.firstFinding_ms).toBeGreaterThan(0);
  });

  it("measures a scan as three-mesh-bvh's points do, to 0.001 mm at the told state and nowhere nearer", () => {
    expect(figures.oracle.length).toBeGreaterThanOrEqual(5);
    for (const { pair, told_mm, found_mm, pointOffScan_mm, pointToScan_mm, atEnds_mm } of figures.oracle) {
      // the told points are that far apart, and no point of the part is nearer
      expect(pointOffScan_mm, pair).toBeLessThan(1e-3);
      expect(Math.abs(pointToScan_mm - told_mm), pair).toBeLessThan(1e-3);
      expect(found_mm, pair).toBeGreaterThan(told_mm - 1e-3);
      for (const found of atEnds_mm) expect(found, pair).toBeGreaterThan(told_mm - 0.01);
    }
  });

  it("finds how deep a part is in a scan, and shows it", () => {
    // 15 mm at rest, give or take the scan's waves; a little more as the engine rocks
    expect(figures.intrusion.measure).toBe("sampled");
    expect(figures.intrusion.clearance_mm).toBeLessThan(-10);
    expect(figures.intrusion.clearance_mm).toBeGreaterThan(-30);
    for (const area_mm2 of figures.patches_mm2) expect(area_mm2).toBeGreaterThan(0);
  });
});
