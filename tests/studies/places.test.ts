import { describe, expect, it } from "vitest";
import type { Vec3 } from "../../src/maths/vec3.ts";
import type { Fit } from "../../src/studies/places/move.ts";
import { PlaceStudy } from "../../src/studies/places/placeStudy.ts";
import { naiveMargins } from "./naive.ts";
import { bracketCorner, question } from "./studyCorner.ts";

const REACH = 20;
const corners = (points: number) =>
  Array.from({ length: 8 }, (_, c) =>
    Array.from(
      { length: points },
      (): Vec3 => [0, 1, 2].map((k) => ((c >> k) & 1 ? REACH : -REACH)) as unknown as Vec3,
    ),
  );

describe("clearances of a place", () => {
  it.each<[Fit, string[]]>([
    ["cut", ["upper.in"]],
    ["bolted", ["upper.in"]],
    ["cut", ["lower.in"]],
    ["bolted", ["arm.front"]],
    ["cut", ["damper.top"]],
    ["cut", ["upper.in", "lower.in"]],
  ])("%s, %s: are those of the moved scene at the same states, part by part", (fit, points) => {
    const base = bracketCorner();
    const document = points.includes("damper.top")
      ? {
          ...base,
          points: { ...base.points, "damper.top": [-15, 548, 600] as const },
          damper: { ...base.damper!, top: "damper.top" },
        }
      : base;
    const study = new PlaceStudy(question(document, { points, fit }), corners(points.length));
    const pairs = study.reasons.filter((reason) => reason.kind === "clearance");
    const margins = new Float64Array(pairs.length);
    const places: Vec3[] = [
      [0, 0, 0],
      [5, -8, 3],
      [-12, 15, -10],
      [3, 18, 14],
    ];
    for (const offset of places) {
      const offsets = points.map((_, i): Vec3 => (i === 0 ? offset : [-offset[0], offset[2], offset[1]]));
      expect(study.margins(offsets, margins)).toBe(true);
      const naive = naiveMargins(study.moved.at(offsets), study.states);
      let least = 20;
      for (const { side, a, b, margin_mm } of naive) {
        const told = pairs.flatMap((pair, i) =>
          pair.side === side && pair.a === a && pair.b === b ? [margins[i]!] : [],
        );
        if (told.length === 0) continue;
        const wanted = Math.min(20, margin_mm);
        least = Math.min(least, wanted);
        // a bar in two halves has its facets elsewhere: within the tessellation of either part; sampled depths by their own spacing
        const off = wanted < -10 ? 1.5 : 0.6;
        expect(
          Math.abs(Math.min(...told) - wanted),
          `${side} ${a}/${b} at ${offset}: ${told} for ${wanted}`,
        ).toBeLessThan(off);
      }
      const { margin_mm, reason } = study.ask(offsets);
      if (study.reasons[reason]?.kind !== "limit") {
        if (reason < 0) expect(Math.abs(margin_mm - least)).toBeLessThan(0.6);
        else expect(margin_mm).toBeGreaterThanOrEqual(least - 0.6);
      }
    }
  });
});
