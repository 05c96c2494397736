import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { axisRange, CURVE_KINDS, differ, readingsOfCurve } from "../../src/app/curves/curveKinds.ts";
import { clearOf } from "../../src/app/curves/GapPlot.tsx";
import { type Reading, runsBelow, valueAt } from "../../src/app/curves/linePath.ts";
import { linearScale, roundTicks, tickDigits, travelTicks } from "../../src/app/curves/scale.ts";
import { derivativesOf } from "../../src/app/curves/useMoreCurves.ts";
import { liveCurve } from "../../src/app/store/corners.ts";
import type { CurvePoint } from "../../src/check/result.ts";
import { drawnPart } from "../../src/scene/aside.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { storyCorner } from "../check/storyCorner.ts";

const profile = fc
  .array(fc.double({ min: -30, max: 30, noNaN: true }), { minLength: 2, maxLength: 12 })
  .map((values) => values.map((value, i): Reading => ({ travel_mm: i * 10 - 50, value })));

describe("runs of a curve below a limit", () => {
  it("ends of a straight run lie exactly on the limit", () => {
    const runs = runsBelow(
      [
        { travel_mm: 0, value: 10 },
        { travel_mm: 10, value: -10 },
        { travel_mm: 20, value: 30 },
      ],
      0,
    );
    expect(runs).toHaveLength(1);
    expect(runs[0]![0]).toEqual({ travel_mm: 5, value: 0 });
    expect(runs[0]!.at(-1)).toEqual({ travel_mm: 12.5, value: 0 });
  });

  it("a travel is in a run if and only if the curve is below the limit there", () => {
    fc.assert(
      fc.property(profile, fc.double({ min: 0, max: 1, noNaN: true }), (readings, share) => {
        const last = readings.at(-1)!.travel_mm;
        const travel_mm = -50 + share * (last + 50);
        const value = valueAt(readings, travel_mm)!;
        fc.pre(Math.abs(value - 5) > 1e-6);
        const inside = runsBelow(readings, 5).some(
          (run) => travel_mm >= run[0]!.travel_mm - 1e-9 && travel_mm <= run.at(-1)!.travel_mm + 1e-9,
        );
        expect(inside).toBe(value < 5);
      }),
    );
  });

  it("there is no value outside the readings", () => {
    expect(valueAt([{ travel_mm: 0, value: 1 }], 1)).toBeNull();
    expect(valueAt([], 0)).toBeNull();
  });
});

describe("the word in the empty gap plot", () => {
  it("is never struck through by the level, wherever that stands", () => {
    for (let level = 0; level <= 160; level++) {
      // letters reach from about 10 above their line to 3 below it
      const line = clearOf(level, 160);
      expect(level < line - 10 || level > line + 3).toBe(true);
    }
  });
});

describe("scales", () => {
  it("ticks are round, evenly spaced, inside the range and no more than asked for", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1000, max: 1000, noNaN: true }),
        fc.double({ min: 0.01, max: 1000, noNaN: true }),
        fc.integer({ min: 2, max: 9 }),
        (from, span, most) => {
          const ticks = roundTicks(from, from + span, most);
          expect(ticks.length).toBeLessThanOrEqual(most + 1);
          for (const tick of ticks) {
            expect(tick).toBeGreaterThanOrEqual(from - span * 1e-6);
            expect(tick).toBeLessThanOrEqual(from + span * (1 + 1e-6));
          }
          const written = ticks.map((tick) => tick.toFixed(tickDigits(ticks)));
          expect(new Set(written).size).toBe(ticks.length);
        },
      ),
    );
  });

  it("a travel axis always has ride height among its figures", () => {
    expect(travelTicks(-70, 80, 5, "mm")).toEqual([-40, 0, 40, 80]);
    expect(travelTicks(-2.76, 3.15, 7, "in")).toEqual([-2, -1, 0, 1, 2, 3]);
  });

  it("a scale maps its ends to its pixels", () => {
    const y = linearScale(-70, 80, 300, 0);
    expect(y(-70)).toBe(300);
    expect(y(80)).toBeCloseTo(0, 12);
  });
});

describe("curves of the wheel", () => {
  const point = (travel_mm: number, shaft_mm: number | null) => ({
    travel_mm,
    toe_deg: 0,
    camber_deg: -1,
    halfTrack_mm: 740,
    wheelbaseShift_mm: 0,
    rollCentre_mm: 80,
    damper_mm: null,
    damperRatio: null,
    shaft_mm,
    innerAngle_deg: null,
    outerAngle_deg: null,
  });
  const kind = (id: string) => CURVE_KINDS.find((each) => each.id === id)!;
  const ofCorner = (curve: readonly CurvePoint[]) => ({ curve, derivatives: [], spring: undefined });

  it("plunge is the shaft's length against its own at ride height", () => {
    const readings = readingsOfCurve(ofCorner([point(-10, 440), point(0, 436), point(10, 430)]), kind("plunge"), "mm");
    expect(readings.map(({ value }) => value)).toEqual([4, 0, -6]);
  });

  it("lengths are shown in the shown unit, angles stay", () => {
    expect(readingsOfCurve(ofCorner([point(0, null)]), kind("halfTrack"), "in")[0]!.value).toBeCloseTo(740 / 25.4, 12);
    expect(readingsOfCurve(ofCorner([point(0, null)]), kind("camber"), "in")[0]!.value).toBe(-1);
  });

  it("what the scene does not have gives no curve", () => {
    expect(readingsOfCurve(ofCorner([point(0, null)]), kind("damperRatio"), "mm")).toEqual([]);
  });

  it("a flat curve does not get a microscope for an axis", () => {
    const [from, to] = axisRange([740, 740.0001], 2);
    expect(to - from).toBeGreaterThanOrEqual(2);
    expect(differ([{ travel_mm: 0, value: 1 }], [{ travel_mm: 0, value: 1.0001 }], 2)).toBe(false);
  });
});

describe("curves of what changes per travel", () => {
  const document = storyCorner({ vehicle: { wheelbase_mm: 2400, cgHeight_mm: 480 } });
  const scene = resolveScene(drawnPart(document));
  const curve = liveCurve(scene, "left");
  const data = { curve, derivatives: derivativesOf(scene, document), spring: undefined };
  const readings = (id: string, unit: "mm" | "in" = "mm") =>
    readingsOfCurve(data, CURVE_KINDS.find((kind) => kind.id === id)!, unit);

  it.each([
    ["bumpSteer", "toe"],
    ["camberGain", "camber"],
  ])("%s is the slope of %s, told after 10 mm or an inch", (gain, angle) => {
    const [slopes, angles] = [readings(gain), readings(angle)];
    // inner points: central differences over 5 mm are off by the third derivative alone
    for (let i = 2; i < angles.length - 2; i++) {
      const [before, after] = [angles[i - 1]!, angles[i + 1]!];
      const slope = (after.value - before.value) / (after.travel_mm - before.travel_mm);
      expect(Math.abs(slopes[i]!.value / 10 - slope)).toBeLessThan(2e-4);
    }
    expect(readings(gain, "in")[5]!.value).toBeCloseTo(slopes[5]!.value * 2.54, 12);
  });

  it("anti-squat reads the whole car though the drawn scene leaves it out: the wheel centre's slope times wheelbase over height", () => {
    const [squat, shift] = [readings("antiSquat"), readings("wheelbaseShift")];
    for (let i = 2; i < shift.length - 2; i++) {
      const [before, after] = [shift[i - 1]!, shift[i + 1]!];
      // back as it rises is positive
      const slope = -(after.value - before.value) / (after.travel_mm - before.travel_mm);
      expect(Math.abs(squat[i]!.value - (100 * slope * 2400) / 480)).toBeLessThan(0.1);
    }
    expect(readings("antiLift")).toEqual([]);
  });
});
