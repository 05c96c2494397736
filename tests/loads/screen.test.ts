import { describe, expect, it } from "vitest";
import { runLoads } from "../../src/loads/runLoads.ts";
import { NOT_COVERED, SCREENING_CAUTION, screen } from "../../src/loads/screen/screen.ts";
import { tellMissing, tellSource } from "../../src/loads/screen/tell.ts";
import { length, type Vec3 } from "../../src/maths/vec3.ts";
import { type Loads, NO_LOADS } from "../../src/scene/loadRecords.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { ball, corner, damper, link, wheel } from "../kinematics/corners.ts";
import { agrees, agreesEach } from "../truth/agreement.ts";

function hubAndArm(loads: Partial<Loads>): Scene {
  const members = [
    ball("arm", [430, 640, 330]),
    link("upper", [-20, 410, 425], [-20, 650, 430], [-20, 410, 425], [1, 0, 0]),
    link("lower", [-70, 260, 200], [-70, 660, 205]),
  ];
  return corner(members, wheel([0, 740, 300], 0.15, -1), {
    damper: damper([-15, 548, 600], [-45, 600, 235]),
    loads: { ...NO_LOADS, cornerMass_kg: { left: 300, right: 300 }, ...loads },
  });
}

const screened = (loads: Partial<Loads>) => {
  const scene = hubAndArm(loads);
  const run = runLoads(scene);
  return { ...screen(scene, run), states: run.sides.flatMap(({ states }) => states) };
};

const upperTube = { member: "upper", diameter_mm: 30, wall_mm: 3, material: "E235+N", cut: null };

describe("the screening", () => {
  it("passes nothing that it does not know: every part is asked for", () => {
    const { rows, unknown } = screened({});
    expect(rows).toEqual([]);
    const asked = new Map(unknown.map(({ part, missing }) => [part, missing.map(tellMissing).join(" ")]));
    expect(asked.get("arm")).toMatch(/section/);
    expect(asked.get("upper")).toMatch(/tube/);
    for (const joint of ["arm.at", "upper.inboard", "upper.outboard", "lower.inboard", "damper.top", "damper.bottom"]) {
      expect(asked.get(joint), joint).toMatch(/bolt.*plate.*weld.*rating.*ask its maker/);
    }
  });

  it("tells the state with the smallest factor, the inputs it took, and where the formula comes from", () => {
    const { rows, states } = screened({ tubes: [upperTube], target: 3 });
    const push = rows.find(({ check }) => check === "compression")!;
    const worst_N = Math.min(...states.map(({ loads }) => loads.members[1]!.sections[0]!.axial_N));
    agreesEach("screenInputs", push.inputs, { N_N: worst_N, D_mm: 30, wall_mm: 3, C: 1, Sy_MPa: 235 }, 1e-9);
    // Johnson's parabola by hand: A Sy (1 − Sy (L/r)²/4π²CE), 240 and 5 from eye to eye
    const [area, gyration2] = [(Math.PI / 4) * (30 ** 2 - 24 ** 2), (30 ** 2 + 24 ** 2) / 16];
    const slender2 = (240 ** 2 + 5 ** 2) / gyration2;
    const buckles_N = area * 235 * (1 - (235 * slender2) / (4 * Math.PI ** 2 * 210_000));
    agrees("screening compression", push.factor, buckles_N / -worst_N, 3);
    expect(push.governedBy).toBe("Johnson");
    expect(tellSource(push)).toMatch(/Shigley/);
    const pull = rows.find(({ check }) => check === "tension")!;
    const most_N = Math.max(...states.map(({ loads }) => loads.members[1]!.sections[0]!.axial_N));
    agrees("screening tension", pull.factor, (254.469 * 235) / most_N, 3);
  });

  it("bends a cranked link by the bow that it is drawn with, unless another is told", () => {
    const scene = hubAndArm({ tubes: [upperTube] });
    const path: Vec3[] = [
      [-20, 410, 425],
      [-20, 530, 457],
      [-20, 650, 430],
    ];
    const body = { kind: "tube", path, diameter_mm: 30, bend_mm: 60, wall_mm: 3, at: null, turn_deg: null } as const;
    const members = scene.members.map((member) => (member.id === "upper" ? { ...member, body } : member));
    const rowsOf = (change: Partial<Scene>) => {
      const changed = { ...scene, members, ...change };
      return screen(changed, runLoads(changed)).rows.find(({ check }) => check === "compression")!;
    };
    // by hand: halfway along a line that rises 5 over 240, the corner stands 29.5 above it
    const drawn = rowsOf({});
    expect(drawn.inputs.bow_mm).toBeCloseTo(29.5 * Math.cos(Math.atan(5 / 240)), 9);
    expect(drawn.notes).toEqual(["drawn bow"]);
    expect(drawn.governedBy).toBe("bending and buckling");
    const told = rowsOf({ loads: { ...scene.loads, tubes: [{ ...upperTube, bow_mm: 10 }] } });
    expect(told.inputs.bow_mm).toBe(10);
    expect(told.factor).toBeGreaterThan(drawn.factor);
  });

  it("judges by the builder's own target, a part's own before the scene's, and by none where none is set", () => {
    const verdicts = (target: number | null, own?: number) =>
      screened({
        target,
        tubes: [{ ...upperTube, ...(own ? { target: own } : {}) }] as unknown as Loads["tubes"],
      }).rows.map(({ verdict }) => verdict);
    expect(new Set(verdicts(null))).toEqual(new Set(["no target"]));
    expect(new Set(verdicts(0.1))).toEqual(new Set(["reaches target"]));
    expect(new Set(verdicts(0.1, 90))).toEqual(new Set(["below target"]));
  });

  it("takes a bolt across its axis, the bush's where none is told, in as many planes as it has", () => {
    const bolt = { joint: "upper.inboard", thread: "M10", class: "8.8", planes: 2, axis: null } as const;
    const { rows, states } = screened({ bolts: [bolt] });
    const across = (force: readonly number[]) => Math.hypot(force[1]!, force[2]!);
    const worst_N = Math.max(
      ...states.map(({ loads }) => across(loads.joints.find(({ id }) => id === "upper.inboard")!.force_N)),
    );
    // EN 1993-1-8, table 3.4: 0.6 · 800 · 58 / 1.25 a plane
    agrees("screening bolt shear", rows[0]!.factor, (2 * 22_272) / worst_N, 6);
    expect(rows[0]!.notes).toEqual([]);
    const single = screened({ bolts: [{ ...bolt, joint: "upper.outboard", planes: 1 }] }).rows[0]!;
    expect(single.notes).toEqual(["bolt bending", "no bolt axis"]);
  });

  it("pulls an overhung bolt by the force along it as well", () => {
    const along = { joint: "upper.inboard", thread: "M10", class: "8.8", planes: 1, axis: [0, 1, 0] } as const;
    const [row] = screened({ bolts: [along] }).rows;
    const { across_N, along_N } = row!.inputs as Record<string, number>;
    expect(row!.factor).toBeLessThan(22_272 / across_N!);
    // 0.9 · 800 · 58 / 1.25 in tension; the link pulls nearly along this axis
    expect(row!.factor).toBeCloseTo(
      Math.min(1 / (across_N! / 22_272 + along_N! / (1.4 * 33_408)), 33_408 / along_N!),
      6,
    );
  });

  it("screens plates, welds and rated joints by the joint's whole force", () => {
    const joint = "lower.inboard";
    const { rows, unknown, states } = screened({
      bolts: [{ joint, thread: "M10", class: "8.8", planes: 2, axis: null }],
      plates: [{ joint, count: 2, thickness_mm: 5, hole_mm: 11, end_mm: 20, side_mm: 15, material: "S275" }],
      welds: [{ joint, leg_mm: 5, length_mm: 40, runs: 2, lever_mm: 30, material: "S275" }],
      ratings: [{ joint, static_N: 30_000 }],
    });
    const F = Math.max(...states.map(({ loads }) => length(loads.joints.find(({ id }) => id === joint)!.force_N)));
    const factor = (check: string) => rows.find((row) => row.check === check)!.factor;
    // for one plate 21.053 and 28.044 kN (worked examples of the tables); tear-out 2·5·275·(14.5 − 22/3) by hand
    agrees("screening plate bearing", factor("plate bearing"), (2 * 21_052.7) / F, 3);
    agrees("screening net section", factor("net section"), (2 * 28_044) / F, 3);
    agrees("screening tear-out", factor("tear-out"), (2 * 2750 * (14.5 - 22 / 3)) / F, 6);
    agrees("screening beside the hole", factor("beside the hole"), (2 * 2750 * (9.5 - 11 / 3)) / F, 6);
    agrees("screening joint rating", factor("joint rating"), 30_000 / F, 9);
    const line = Math.hypot(F / 80, (6 * F * 30) / (2 * 1600));
    agrees("screening weld", factor("weld"), (222.79 * (5 / Math.SQRT2)) / line, 2);
    expect(unknown.map(({ part }) => part)).not.toContain(joint);
    expect(rows.map((row) => row.factor)).toEqual(rows.map((row) => row.factor).sort((a, b) => a - b));
  });

  it("knows what it does not know: a class beyond the table, a material nobody tells, a weld factor", () => {
    const { rows, unknown } = screened({
      tubes: [{ ...upperTube, material: "moon steel" }],
      bolts: [{ joint: "upper.inboard", thread: "M10", class: "12.9", planes: 2, axis: null }],
      welds: [{ joint: "upper.inboard", leg_mm: 5, length_mm: 40, runs: 2, material: "4130 N" }],
    });
    expect(rows).toEqual([]);
    const asked = Object.fromEntries(unknown.map(({ part, missing }) => [part, missing.map(tellMissing).join(" ")]));
    expect(asked.upper).toMatch(/moon steel/);
    expect(asked["upper.inboard"]).toMatch(/12\.9.*weld factor of 4130 N/);
  });

  it("says that it is no approval and what it does not cover", () => {
    expect(SCREENING_CAUTION).toMatch(/not a licence to drive/);
    for (const word of ["fatigue", "buckle", "crash", "brakes"]) expect(NOT_COVERED).toContain(word);
  });
});
