import { describe, expect, test } from "vitest";
import { isClosedManifold, volume_mm3 } from "../../src/geometry/measure.ts";
import { mergeSolids } from "../../src/geometry/rearrange.ts";
import { weld } from "../../src/geometry/weld.ts";
import { repaired } from "../../src/scans/repair.ts";
import { reportOf } from "../../src/scans/report.ts";
import { guessUnit } from "../../src/scans/unitGuess.ts";
import { draw } from "../geometry/support.ts";
import { agrees, agreesEach, agreesOn } from "../truth/agreement.ts";
import { bumpyBall, soupOf } from "./meshes.ts";

const BOX = draw({ kind: "box", size_mm: [300, 200, 100], edge_mm: null });
const ROUND = draw({ kind: "cylinder", from: [0, 0, 0], to: [0, 0, 200], diameter_mm: 120 }, 0.2);
const bare = ({ positions, indices }: typeof BOX) => ({ positions, indices });

/** Without the triangles whose corners are all where `goes` says. */
function without(mesh: typeof BOX, goes: (x: number, y: number, z: number) => boolean) {
  const indices = [];
  for (let t = 0; t < mesh.indices.length; t += 3) {
    const corners = [...mesh.indices.subarray(t, t + 3)];
    const isOut = corners.every((v) =>
      goes(...([0, 1, 2].map((k) => mesh.positions[3 * v + k]!) as [number, number, number])),
    );
    if (!isOut) indices.push(...corners);
  }
  return { positions: mesh.positions, indices: Uint32Array.from(indices) };
}

describe("what is found in a mesh", () => {
  test("a sound box: nothing", () => {
    expect(reportOf(bare(BOX), 12)).toMatchObject({
      triangles: 12,
      vertices: 8,
      size_mm: [300, 200, 100],
      dropped: 0,
      flipped: 0,
      openEdges: 0,
      oddEdges: 0,
      holes: [],
      isClosed: true,
      suggested: null,
    });
  });

  test("a box without its lid: one hole as large as the lid", () => {
    const open = reportOf(
      without(BOX, (_x, _y, z) => z > 49),
      10,
    );
    agreesOn("meshFaults", open.openEdges, 4);
    expect(open.holes).toHaveLength(1);
    agreesEach("holeSize", open.holes[0]!, { edges: 4, round_mm: 1000, middle: [0, 0, 50] }, 1e-9);
    agrees("holeSize", open.holes[0]!.across_mm, Math.hypot(300, 200), 6);
    agreesEach(
      "meshFaults",
      open,
      { closableHoles: 1, oddEdges: 0, flipped: 0, dropped: 0, triangles: 10, vertices: 8 },
      0,
    );
    expect(open.isClosed).toBe(false);
    expect(open.suggested!.holesUpTo_mm).toBeGreaterThan(Math.hypot(300, 200));
  });

  test("faces turned the wrong way, counted against most of their neighbours", () => {
    const turned = BOX.indices.slice();
    [turned[0], turned[1]] = [turned[1]!, turned[0]!];
    const report = reportOf({ positions: BOX.positions, indices: turned }, 12);
    agreesEach("meshFaults", report, { flipped: 1, oddEdges: 0 }, 0);
    expect(report.isClosed).toBe(true);
  });

  test("an edge with three triangles", () => {
    const fin = {
      positions: new Float32Array([...BOX.positions, 0, 0, 400]),
      indices: Uint32Array.of(...BOX.indices, 0, 1, 8),
    };
    agreesOn("meshFaults", reportOf(fin, 13).oddEdges, 1);
  });

  test("loose pieces by size, and a size below which they would go", () => {
    const dust = draw({ kind: "sphere", diameter_mm: 4 }, 0.3);
    const moved = { ...dust, positions: dust.positions.map((v) => v + 400) };
    const report = reportOf(bare(mergeSolids([BOX, moved])), 0);
    expect(report.shells).toHaveLength(2);
    agreesEach("meshFaults", report.shells[0]!, { triangles: 12 }, 0);
    // the ball of 4 mm, drawn up to 0.3 outside the true one, at (400, 400, 400) and the box of 300 × 200 × 100 about the origin
    agreesEach("meshSize", report, { size_mm: [552, 502, 452] }, 0.3);
    agrees("meshSize", report.shells[0]!.size_mm, Math.hypot(300, 200, 100), 3);
    expect(report.suggested!.straysBelow_mm).toBeGreaterThan(4);
    expect(report.suggested!.straysBelow_mm).toBeLessThan(10);
  });

  test("a seam whose two sides do not quite meet: welding is what mends it", () => {
    // two half balls drawn apart: their borders differ by less than the rounding of a scan
    const ball = bumpyBall(12, 200, 0);
    const corners = soupOf(ball).map((value, i) => (Math.floor(i / 9) % 2 ? value + 0.0004 : value));
    const torn = weld(corners);
    const report = reportOf(torn, corners.length / 9);
    expect(report.openEdges).toBeGreaterThan(100);
    const mended = repaired(torn, { weldWithin_mm: report.suggested!.weldWithin_mm! });
    expect(isClosedManifold(mended.solid)).toBe(true);
    agrees("meshRepair", mended.done.verticesWelded, (torn.positions.length - ball.positions.length) / 3, 0);
  });
});

describe("what is mended when it is asked for", () => {
  test("a flat hole gets a lid: the volume is that of the whole box again (3 × 2 × 1 dm)", () => {
    const { solid, done } = repaired(
      without(BOX, (_x, _y, z) => z > 49),
      { holesUpTo_mm: 500 },
    );
    agreesEach("meshRepair", done, { holesClosed: 1, holesLeftOpen: 0 }, 0);
    expect(isClosedManifold(solid)).toBe(true);
    expect(solid.shells[0]!.closed).toBe(true);
    agrees("mendedVolume", volume_mm3(solid), 6e6, 1);
  });

  test("a round end too, with the volume of the whole cylinder as it was drawn", () => {
    const { solid } = repaired(
      without(ROUND, (_x, _y, z) => z > 199),
      { holesUpTo_mm: 200 },
    );
    expect(isClosedManifold(solid)).toBe(true);
    expect(volume_mm3(solid) / volume_mm3(ROUND)).toBeCloseTo(1, 6);
  });

  test("a hole larger than asked for stays open", () => {
    const { solid, done } = repaired(
      without(BOX, (_x, _y, z) => z > 49),
      { holesUpTo_mm: 100 },
    );
    expect(done).toMatchObject({ holesClosed: 0, holesLeftOpen: 0 });
    expect(solid.shells[0]!.closed).toBe(false);
  });

  test("a hole round a corner is not flat: it is left open and told", () => {
    const { done } = repaired(
      without(BOX, (x, y, z) => (z > 49 || x > 149) && y < 300),
      { holesUpTo_mm: 500 },
    );
    agreesEach("meshRepair", done, { holesClosed: 0, holesLeftOpen: 1 }, 0);
  });

  test("strays go, the largest piece never does", () => {
    const dust = draw({ kind: "sphere", diameter_mm: 4 }, 0.3);
    const all = bare(mergeSolids([BOX, { ...dust, positions: dust.positions.map((v) => v + 400) }]));
    const { done, solid } = repaired(all, { straysBelow_mm: 10 });
    agreesEach("meshRepair", done, { straysLeftOut: 1 }, 0);
    expect(solid.shells).toHaveLength(1);
    const one = repaired(all, { straysBelow_mm: 10_000 });
    expect(one.solid.shells).toHaveLength(1);
    expect(volume_mm3(one.solid)).toBeCloseTo(6e6, 1);
  });

  test("nothing asked for, nothing done", () => {
    const open = without(BOX, (_x, _y, z) => z > 49);
    const { solid, done } = repaired(open, null);
    expect(done).toEqual({ verticesWelded: 0, straysLeftOut: 0, holesClosed: 0, holesLeftOpen: 0 });
    expect(solid.indices.length).toBe(open.indices.length);
  });
});

describe("the unit of a file, from the size of what is in it", () => {
  test.each([
    ["engine.stl", 640, "mm"],
    ["engine.obj", 0.64, "m"],
    ["engine.ply", 25.2, "in"],
    ["wheel.glb", 0.63, "m"],
    ["car.stl", 4.3, "m"],
  ])("%s of %f: %s", (file, longest, unit) => {
    expect(guessUnit(longest, file).readings[0]).toMatchObject({ unit });
  });

  test("an engine in millimetres could be nothing else; a length of 85 could be a bracket in millimetres, so it is not plain", () => {
    agreesOn("fileUnit", guessUnit(640, "engine.stl").isPlain, true);
    expect(guessUnit(85, "bracket.stl").isPlain).toBe(false);
  });

  test("two units that both make an engine of it: neither is plain", () => {
    const { readings, isPlain } = guessUnit(60, "engine.stl");
    expect(isPlain).toBe(false);
    expect(readings.filter(({ likelihood }) => likelihood === "usual").map(({ unit }) => unit)).toEqual(["cm", "in"]);
  });

  test("a GLB in millimetres against its standard: the size decides, the standard is told", () => {
    const { readings } = guessUnit(640, "engine.glb");
    expect(readings[0]).toMatchObject({ unit: "mm", longest_mm: 640, likelihood: "usual" });
    expect(readings.find(({ unit }) => unit === "m")).toMatchObject({ isStandard: true, likelihood: "odd" });
  });
});
