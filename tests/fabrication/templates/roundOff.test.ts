import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { arcOf, polygonOf, type Ring } from "../../../src/fabrication/templates/drawing.ts";
import { holeOf, ringOf } from "../../../src/fabrication/templates/roundOff.ts";
import { outlineArea } from "../../../src/geometry/outline.ts";
import { arcAround, lug, rectangle, roundedRectangle, roundHole } from "../../../src/scene/recipes/outlines.ts";

function arcs({ corners }: Ring) {
  return corners.flatMap(({ at, bulge }, i) =>
    bulge === 0 ? [] : [arcOf(at, corners[(i + 1) % corners.length]!.at, bulge)],
  );
}

describe("outlines with their arcs made round again", () => {
  it("gives a lug its half circle, whatever its size", () => {
    const sizes = fc.record({
      width: fc.double({ min: 10, max: 150, noNaN: true }),
      reach: fc.double({ min: 1, max: 200, noNaN: true }),
    });
    fc.assert(
      fc.property(sizes, ({ width, reach }) => {
        const ring = ringOf(lug(width, reach));
        const [arc, ...others] = arcs(ring);
        expect(others).toEqual([]);
        expect(arc!.radius_mm).toBeCloseTo(width / 2, 2);
        expect(Math.hypot(...arc!.centre)).toBeLessThan(0.01);
        expect(arc!.angle).toBeCloseTo(Math.PI, 3);
        // half a disc and a rectangle
        const area = (Math.PI * width * width) / 8 + width * reach;
        expect(Math.abs(outlineArea(polygonOf(ring, 1e-5)) - area) / area).toBeLessThan(2e-4);
      }),
    );
  });

  it("gives a rounded rectangle its four corners", () => {
    const ring = ringOf(roundedRectangle(60, 40, 8));
    const found = arcs(ring);
    expect(found).toHaveLength(4);
    for (const { radius_mm, angle } of found) {
      expect(radius_mm).toBeCloseTo(8, 2);
      expect(angle).toBeCloseTo(Math.PI / 2, 3);
    }
    // 60 × 40 less (4 − π)·8²
    expect(outlineArea(polygonOf(ring, 1e-5))).toBeCloseTo(2400 - (4 - Math.PI) * 64, 0);
  });

  it("gives a disc its whole circle", () => {
    const around = arcAround([5, -3], 30, 0, 2 * Math.PI).slice(1, -1);
    const ring = ringOf(around);
    expect(outlineArea(polygonOf(ring, 1e-5))).toBeCloseTo(Math.PI * 900, 0);
  });

  it("leaves straight sides, and sides that someone meant, as they are", () => {
    const octagon = Array.from({ length: 8 }, (_, i): [number, number] => [
      40 * Math.cos((i * Math.PI) / 4),
      40 * Math.sin((i * Math.PI) / 4),
    ]);
    for (const outline of [rectangle(0, 0, 50, 50), octagon]) {
      const ring = ringOf(outline);
      expect(arcs(ring)).toEqual([]);
      expect(ring.corners.map(({ at }) => at)).toEqual(outline);
    }
  });

  it("tells a round hole by its own circle, and a slot by its sides", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 120, noNaN: true }),
        fc.double({ min: -500, max: 500, noNaN: true }),
        (d, at) => {
          const hole = holeOf(roundHole([at, -at], d));
          expect(hole.kind).toBe("circle");
          if (hole.kind !== "circle") return;
          expect(hole.diameter_mm).toBeCloseTo(d, 1);
          expect(Math.abs(hole.diameter_mm - d)).toBeLessThan(0.006);
          expect(Math.hypot(hole.centre[0] - at, hole.centre[1] + at)).toBeLessThan(0.01);
        },
      ),
    );
    expect(holeOf(roundedRectangle(30, 12, 6, true)).kind).toBe("ring");
    expect(holeOf(rectangle(-5, -5, 5, 5)).kind).toBe("ring");
  });
});
