import { describe, expect, test } from "vitest";
import { concludeCheck, prepareCheck } from "../../src/check/check.ts";
import { toldClearance, toldVerdict } from "../../src/check/within.ts";
import { sweepPair } from "../../src/clearance/sweep.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import { shellsOf } from "../../src/geometry/shells.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { readyMesh } from "../../src/scans/readyMesh.ts";
import { thinWithin } from "../../src/scans/thin.ts";
import type { MeshReading } from "../../src/scene/meshFiles.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { smallScene } from "../app/smallScene.ts";
import { bumpyBall, stlOf } from "../scans/meshes.ts";
import { agrees } from "../truth/agreement.ts";

const BALL = shellsOf(bumpyBall(30, 120, 3));
const FAR = [0, 0, 900] as const;

/** The scan on the frame, and a ball so far above its top that 12 mm are left if the scan were one. */
async function told(reading: MeshReading, solid?: Solid) {
  const scene = smallScene({
    bodies: [
      { id: "block", on: "chassis", shape: { kind: "sphere", at: [0, 0, 900 + 120 + 12 + 30], diameter_mm: 60 } },
      {
        id: "scan",
        on: "chassis",
        shape: {
          kind: "mesh",
          file: "scan.stl",
          at: [...FAR],
          unit: reading.unit,
          ...(reading.repair ? { repair: reading.repair } : {}),
          ...(reading.thinned ? { thinned: reading.thinned } : {}),
        },
      },
      { id: "jig", on: "powertrain", shape: { kind: "box", at: [0, 0, 900 + 200], size_mm: [60, 60, 60] } },
    ],
  });
  const mesh = solid ?? (await readyMesh(stlOf(BALL), "scan.stl", reading));
  const prepared = prepareCheck(resolveScene(scene), new Map([["scan.stl", mesh]]));
  const trees = new TreeShelf();
  const sweeps = prepared.pairs.map(
    ({ sweep, first, second }, i) => [i, sweepPair(trees, first, second, sweep)] as const,
  );
  const { pairs } = concludeCheck(prepared, sweeps, "within");
  const body = prepared.bodies.find(({ id }) => id === "scan")!;
  return { ...pairs.find(({ a, b }) => a === "jig" && b === "scan")!, body };
}

const WHOLE: MeshReading = { unit: "mm", repair: null, thinned: null };

describe("a check against a thinned scan", () => {
  test("never tells more room than there is to the scan as it came", async () => {
    const whole = await told(WHOLE);
    expect(whole.within_mm).toBeUndefined();
    for (const within_mm of [0.5, 2, 5]) {
      const { thinned } = (await thinWithin(BALL, within_mm))!;
      const thin = await told({ ...WHOLE, thinned });
      agrees("toldWithin", thin.within_mm, within_mm, 9);
      agrees("toldWithin", thin.body.within_mm, within_mm, 9);
      expect(thin.clearance_mm).toBeLessThanOrEqual(whole.clearance_mm + 0.02);
      expect(thin.clearance_mm).toBeGreaterThanOrEqual(whole.clearance_mm - 2 * within_mm - 0.02);
      expect(thin.required_mm).toBe(whole.required_mm);
    }
  });

  test("counts what welding may have moved too", async () => {
    const welded = await told({ ...WHOLE, repair: { weldWithin_mm: 0.25 } });
    agrees("toldWithin", welded.within_mm, 0.25, 9);
  });

  test("says which surface is open, and that of a closed one nothing", async () => {
    const open = shellsOf({ positions: BALL.positions, indices: BALL.indices.slice(0, BALL.indices.length - 300) });
    expect((await told(WHOLE, open)).open).toEqual(["scan"]);
    expect((await told(WHOLE)).open).toBeUndefined();
  });
});

describe("what is told of surfaces that may be some way off", () => {
  test("gaps smaller, depths greater, and what is nearer than the error is a bare touch", () => {
    expect([12, 0.3, 0, -2].map((measured) => toldClearance(measured, 0.5))).toEqual([11.5, 0, 0, -2.5]);
    expect([12, 0.3, -2].map((measured) => toldClearance(measured, 0))).toEqual([12, 0.3, -2]);
  });

  test("clear only if the parts themselves are, a clash only where the checked surfaces meet", () => {
    expect([10.6, 10.4, 0.4, -0.1].map((measured) => toldVerdict(measured, 0.5, 10))).toEqual([
      "clear",
      "tight",
      "tight",
      "clash",
    ]);
    expect(toldVerdict(0.4, 0.5, 0)).toBe("tight");
    expect(toldVerdict(0.6, 0.5, 0)).toBe("clear");
  });
});
