import { describe, expect, it } from "vitest";
import { forceRows } from "../../../src/app/loads/forceRows.ts";
import { partText } from "../../../src/app/loads/partNames.ts";
import { compileCorner } from "../../../src/kinematics/corner.ts";
import { casesOf } from "../../../src/loads/cases.ts";
import { loadsAt } from "../../../src/loads/loadsAt.ts";
import { reportLoads } from "../../../src/loads/report.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { loadedScene } from "./loadedScene.ts";

const document = loadedScene();
const scene = resolveScene(document);
const corner = compileCorner(scene, "left");
const here = loadsAt(corner, casesOf(scene)[0]!, { travel_mm: 0, pose: "rest" })!.loads;
const worst = reportLoads(scene, "rest").sides[0]!.worst;

describe("the table of forces", () => {
  it("has every joint, stretch, the damper and the ground once, as they are here", () => {
    const rows = forceRows(here, worst, scene);
    expect(new Set(rows.map(({ key }) => key)).size).toBe(rows.length);
    const parts = rows.map(({ part }) => part);
    for (const { id } of here.joints) expect(parts).toContain(id);
    expect(parts).toEqual(expect.arrayContaining(["ground", "upper front", "upper rear", "toe", "damper"]));
    // standing on 250 kg: 250 · 9.80665 N at the ground (static equilibrium)
    expect(rows.find(({ part }) => part === "ground")!.here).toBeCloseTo(2451.66, 2);
  });

  it("puts beside it every worst value that was found, and loses none", () => {
    const rows = forceRows(here, worst, scene);
    expect(rows.flatMap((row) => row.worst)).toHaveLength(worst.length);
    for (const row of rows)
      for (const { kind, value } of row.worst) {
        const signed = kind === "compression" ? -(row.here ?? 0) : (row.here ?? 0);
        expect(value).toBeGreaterThanOrEqual(signed - 1e-6);
      }
  });

  it("has a row for what is loaded in other states only", () => {
    const rows = forceRows(here, [{ part: "bar.arm", kind: "force", value: 800, at: worst[0]!.at }], scene);
    expect(rows.at(-1)).toMatchObject({ part: "bar.arm", group: "joints", here: null });
  });

  it("calls parts as the builder does", () => {
    expect(partText("upper.front", document)).toBe("Upper wishbone, front pivot");
    expect(partText("lower rear", document)).toBe("Lower wishbone, rear leg");
    expect(partText("toe", document)).toBe("Toe link");
    expect(partText("damper.top", document)).toBe("Damper, top");
    expect(partText("arm cut 2", { members: [{ id: "arm", kind: "ball" }] })).toBe("Arm, cut 2");
  });
});
