import { describe, expect, it } from "vitest";
import {
  arrowPaths,
  arrowScale,
  arrowsOf,
  awayFromStretch,
  isPicked,
  roundDown,
} from "../../../src/app/loads/arrows.ts";
import { compileCorner } from "../../../src/kinematics/corner.ts";
import { casesOf } from "../../../src/loads/cases.ts";
import { loadsAt } from "../../../src/loads/loadsAt.ts";
import { distance, dot, length, subtract } from "../../../src/maths/vec3.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { loadedScene } from "./loadedScene.ts";

const scene = resolveScene(loadedScene());
const stateOf = (caseId: string) =>
  loadsAt(compileCorner(scene, "left"), casesOf(scene).find(({ id }) => id === caseId)!, {
    travel_mm: 0,
    pose: "rest",
  })!.loads;

describe("arrows of forces", () => {
  it("stand where the force acts, point its way and are as long as it is large", () => {
    const state = stateOf("bump");
    const mm_per_N = arrowScale([state]);
    const arrows = arrowsOf(state, mm_per_N);
    for (const { id, tail, tip, force_N } of arrows) {
      const load = id === "ground" ? state.ground : state.joints.find((joint) => joint.id === id)!;
      expect(tail).toEqual(load.at);
      expect(force_N).toBeCloseTo(length(load.force_N), 9);
      expect(distance(tail, tip)).toBeCloseTo(force_N * mm_per_N, 6);
      expect(dot(subtract(tip, tail), load.force_N)).toBeCloseTo(force_N * force_N * mm_per_N, 3);
    }
    expect(arrows.map(({ id }) => id)).toContain("lower.outboard");
  });

  it("keep to a round scale with which the longest is neither tiny nor out of the picture", () => {
    for (const caseId of ["standing", "bump", "brake", "bend, outer wheel"]) {
      const state = stateOf(caseId);
      const scale = arrowScale([state, null]);
      const longest = Math.max(...arrowsOf(state, scale).map(({ tail, tip }) => distance(tail, tip)));
      expect(longest).toBeGreaterThan(420 / 2.5 - 1e-6);
      expect(longest).toBeLessThanOrEqual(420 + 1e-6);
      expect([1, 2, 5]).toContain(Math.round(scale / 10 ** Math.floor(Math.log10(scale) + 1e-9)));
    }
    expect(arrowScale([null])).toBe(1);
  });

  it.each([
    [1, 1],
    [1.99, 1],
    [2, 2],
    [4.9, 2],
    [50, 50],
    [0.073, 0.05],
    [999, 500],
  ])("rounds %s down to %s", (value, wanted) => {
    expect(roundDown(value)).toBeCloseTo(wanted, 12);
  });

  it("are picked by joint or by part, the ground by itself", () => {
    expect(isPicked({ id: "upper.front" }, "upper.front")).toBe(true);
    expect(isPicked({ id: "upper.front" }, "upper")).toBe(true);
    expect(isPicked({ id: "upper.front" }, "lower")).toBe(false);
    expect(isPicked({ id: "ground" }, "ground")).toBe(true);
    expect(isPicked({ id: "ground" }, null)).toBe(false);
  });

  it("have a head at the tip, and none where they are seen end on", () => {
    const { shaft, head } = arrowPaths({ x: 0, y: 0 }, { x: 100, y: 0 });
    expect(shaft).toMatch(/^M0\.0 0\.0L85\.0 /);
    expect(head).toMatch(/^M100\.0 0\.0L85\.0 /);
    expect(arrowPaths({ x: 0, y: 0 }, { x: 2, y: 0 }).head).toBe("");
  });

  it("are hit beside their stretch, not beyond its ends", () => {
    const [from, to] = [
      { x: 0, y: 0 },
      { x: 10, y: 0 },
    ];
    expect(awayFromStretch({ x: 5, y: 3 }, from, to)).toBe(3);
    expect(awayFromStretch({ x: 13, y: 4 }, from, to)).toBe(5);
    expect(awayFromStretch({ x: 3, y: 4 }, from, from)).toBe(5);
  });
});
