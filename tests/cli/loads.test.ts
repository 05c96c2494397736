import { describe, expect, it } from "vitest";
import type { SceneDocument } from "../../src/scene/document.ts";
import { storyCorner } from "../check/storyCorner.ts";
import { run, testFolder } from "./terminal.ts";

const folder = testFolder();

function save(name: string, loads: SceneDocument["loads"]): string {
  return folder.save(name, JSON.stringify(storyCorner(loads ? { loads } : {})));
}

const tube = (diameter_mm: number) => ({ member: "lower", diameter_mm, wall_mm: 3, material: "E235+N" });

describe("the terminal's loads", () => {
  it("prints the worst of every part, what is screened and what is not known, with the cautions, and exits 0", () => {
    const { status, out, err } = run(
      "loads",
      save("strong.json", { cornerMass_kg: 300, target: 1.2, tubes: [tube(40)] }),
    );
    expect(err).toBe("");
    expect(status).toBe(0);
    expect(out).toMatch(/^strong\.json: loads, engine rest; what is left over .* N·mm/);
    expect(out).toMatch(/left, static load 2\.94 kN/);
    expect(out).toMatch(/common practice, without a source/);
    expect(out).toMatch(/damper compression: [\d.]+ kN, (left|right), /);
    expect(out).toMatch(/above lower compression: [\d.]+ \(target 1\.2\)/);
    expect(out).toMatch(/Not known, so not screened:\n/);
    expect(out).toMatch(/ask its maker/);
    expect(out).toMatch(/anti-roll bar does nothing unless a case tells a roll/);
    expect(out).toMatch(/not a licence to drive\. Not covered: fatigue.*crash.*brakes/);
  });

  it("exits 1 where a factor is below the builder's target", () => {
    const { status, out } = run("loads", save("weak.json", { cornerMass_kg: 300, target: 50, tubes: [tube(16)] }));
    expect(status).toBe(1);
    expect(out).toMatch(/BELOW lower /);
  });

  it("exits 2 where the mass is not told, and names the place", () => {
    const { status, out, err } = run("loads", save("massless.json", undefined));
    expect([status, out]).toEqual([2, ""]);
    expect(err).toMatch(/massless\.json: loads\.cornerMass_kg: .*; wanted: what a scale/);
  });

  it("prints one JSON document with every state's forces", () => {
    const cases = [{ id: "pull", force_N: { forward: 2000, up: 3000 }, torque: "carrier" as const }];
    const { status, out } = run("loads", save("story.json", { cases }), "--json", "--travel", "-20:40:10");
    expect(status).toBe(0);
    const result = JSON.parse(out);
    expect(Object.keys(result).sort()).toEqual(
      "assumptions pose residual_N residual_Nmm scene screening sides usualCases".split(" "),
    );
    expect(result.usualCases).toBe(false);
    expect(result.residual_N).toBeLessThan(1e-6);
    const { left } = result.sides;
    expect(left.states.map(({ travel_mm }: { travel_mm: number }) => travel_mm)).toEqual([-20, -10, 0, 10, 20, 30, 40]);
    expect(left.states[0]).toMatchObject({ case: "pull", damper_N: expect.any(Number), shaft: null });
    expect(left.states[0].joints[0]).toMatchObject({
      id: "arm.at",
      between: ["chassis", "carrier"],
      force_N: [expect.any(Number), expect.any(Number), expect.any(Number)],
    });
    expect(left.worst[0]).toMatchObject({
      part: expect.any(String),
      kind: expect.any(String),
      at: { side: "left", case: "pull" },
    });
    expect(result.screening.caution).toMatch(/not a licence to drive/);
  });

  it("is told by --help", () => {
    const { out } = run("--help");
    expect(out).toMatch(/loads SCENE/);
    expect(out).toMatch(/not a licence to drive/);
  });
});
