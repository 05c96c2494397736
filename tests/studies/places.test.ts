import { describe, expect, it } from "vitest";
import type { Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { listPoints } from "../../src/scene/points.ts";
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
    expectAsNaive(document, points, fit);
  });

  it("are those of the moved scene where a tube bends beside the moved point", () => {
    expectAsNaive(bentCorner(60), ["upper.in"], "cut");
    expectAsNaive(bentCorner(null), ["upper.in"], "cut");
  });

  it("refuses a place as not to be drawn where a bend no longer fits", () => {
    // a turn of 27° bent to 260 mm takes up 63 mm of a leg of 80, of which 61 are left where the point is 19 mm nearer
    const asked = question(bentCorner(260, 80), { points: ["upper.in"], fit: "cut" });
    const limits = ["damper-length", "stop", "shaft-length"];
    const study = new PlaceStudy({ ...asked, leaveOut: [...asked.leaveOut, ...limits] }, corners(1));
    const drawn = study.reasons.findIndex(({ kind }) => kind === "drawn");
    expect(study.ask([[0, 0, 0]]).reason).not.toBe(drawn);
    expect(study.ask([[0, 19, 0]]).reason).toBe(drawn);
    expect(study.margins([[0, 19, 0]], new Float64Array(study.reasons.length))).toBe(false);
  });
});

/** An upper link that leaves its pivot level, bends and runs to its outer joint. */
function bentCorner(bend_mm: number | null, leg_mm = 150): SceneDocument {
  const corner = bracketCorner();
  const { at } = listPoints(corner).find(({ name }) => name === "upper.in")!;
  const [x, y, z] = at;
  const body = {
    kind: "tube" as const,
    path: ["upper.in", [x, y + leg_mm, z] as const, [x - 40, y + leg_mm + 110, z + 40] as const],
    diameter_mm: 26,
    ...(bend_mm === null ? {} : { bend_mm }),
  };
  return { ...corner, members: corner.members.map((member) => (member.id === "upper" ? { ...member, body } : member)) };
}

function expectAsNaive(document: SceneDocument, points: string[], fit: Fit): void {
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
}
