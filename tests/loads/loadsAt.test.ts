import { describe, expect, it } from "vitest";
import { compileCorner } from "../../src/kinematics/corner.ts";
import { boltShare } from "../../src/loads/boltAxis.ts";
import { casesOf } from "../../src/loads/cases.ts";
import { loadsAt } from "../../src/loads/loadsAt.ts";
import { reportLoads } from "../../src/loads/report.ts";
import { runLoads } from "../../src/loads/runLoads.ts";
import { screen } from "../../src/loads/screen/screen.ts";
import { worstLoads } from "../../src/loads/worst.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { loadedScene } from "../app/loads/loadedScene.ts";
import { agrees, agreesOn } from "../truth/agreement.ts";

const scene = resolveScene(loadedScene());

describe("one state's loads", () => {
  it("are those of the whole run at its travels, on either side", () => {
    for (const { side, states } of runLoads(scene).sides) {
      const corner = compileCorner(scene, side);
      for (const { at, loads } of states.filter((_, i) => i % 17 === 0)) {
        const loadCase = casesOf(scene).find(({ id }) => id === at.case)!;
        const here = loadsAt(corner, loadCase, { travel_mm: at.travel_mm, pose: "rest" })!;
        expect(here.at).toEqual(at);
        // continuation reaches a travel by another way: the same to the solver's own tolerance
        here.loads.joints.forEach(({ id, force_N }, i) => {
          expect(id).toBe(loads.joints[i]!.id);
          force_N.forEach((part, k) => {
            expect(part).toBeCloseTo(loads.joints[i]!.force_N[k]!, 3);
          });
        });
      }
    }
  });

  it("are in equilibrium between those travels too", () => {
    const corner = compileCorner(scene, "left");
    for (const loadCase of casesOf(scene)) {
      const { loads } = loadsAt(corner, loadCase, { travel_mm: 12.34, pose: "rest" })!;
      expect(loads.residual_N).toBeLessThan(1e-6);
    }
  });

  it("are none where the corner does not get to", () => {
    expect(loadsAt(compileCorner(scene, "left"), casesOf(scene)[0]!, { travel_mm: 5000, pose: "rest" })).toBeNull();
  });
});

describe("the report", () => {
  it("tells the worst of each side and the screening of the whole run, without its states", () => {
    const run = runLoads(scene);
    const report = reportLoads(scene, "rest");
    expect(report.sides.map(({ worst }) => worst)).toEqual(run.sides.map(({ states }) => worstLoads(states)));
    expect(report.screening).toEqual(screen(scene, run));
    expect(JSON.stringify(report)).not.toContain('"joints"');
  });
});

describe("a force at a bolt", () => {
  it("is told across and along it, the axis of the right side seen in the mirror", () => {
    // by hand: 3 along a bolt that runs out, 4 across it
    agreesOn("boltForce", boltShare([4, 3, 0], [0, 1, 0], "left"), { across_N: 4, along_N: 3 });
    const slanting = [0, Math.SQRT1_2, Math.SQRT1_2] as const;
    agrees("boltForce", boltShare([0, 1, 1], slanting, "left").across_N, 0, 12);
    expect(boltShare([0, -1, 1], slanting, "right").across_N).toBeCloseTo(0, 12);
    agrees("boltForce", boltShare([0, -1, 1], slanting, "right").along_N, Math.SQRT2, 12);
  });
});
