import { readFileSync } from "node:fs";
import { inflateRawSync } from "node:zlib";
import { measurements } from "@jscad/modeling";
import { deserialize as readStl } from "@jscad/stl-deserializer";
import fc from "fast-check";
import Papa from "papaparse";
import { type BufferGeometry, Mesh } from "three";
import { GLTFLoader } from "three/examples/jsm/loaders/GLTFLoader.js";
import { OBJLoader } from "three/examples/jsm/loaders/OBJLoader.js";
import { STLLoader } from "three/examples/jsm/loaders/STLLoader.js";
import { describe, expect, it } from "vitest";
import { assembleModel } from "../../src/check/assemble.ts";
import { curvesOf } from "../../src/check/curves.ts";
import { runSide } from "../../src/check/tracks.ts";
import { glbOf } from "../../src/fabrication/exchange/glb.ts";
import { modelFile } from "../../src/fabrication/exchange/modelFile.ts";
import { stlZip } from "../../src/fabrication/exchange/partsZip.ts";
import { pointChanges } from "../../src/fabrication/exchange/pointChanges.ts";
import { pointsTable, withPointsTable } from "../../src/fabrication/exchange/pointsTable.ts";
import { standingParts } from "../../src/fabrication/exchange/standing.ts";
import { objOf, stlOf } from "../../src/geometry/export/meshFiles.ts";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { applyPose } from "../../src/maths/pose.ts";
import { InputError } from "../../src/scene/error.ts";
import { listPoints, withBoltedUp } from "../../src/scene/points.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { curvesTable } from "../../src/studies/runningGear/curvesTable.ts";

const NAME = "2-hub-and-arm-re-cut-link.json";
const document = readScene(readFileSync(new URL(`../../scenes/${NAME}`, import.meta.url), "utf8"), NAME);
const scene = resolveScene(document);
const bodies = assembleModel(scene);
const parts = standingParts(scene, bodies, { travel_mm: 40, pose: "rest" });

interface Told {
  readonly min: number[];
  readonly max: number[];
  readonly volume: number;
}

/** Box and content of loose or indexed triangles, whose coordinates are read through `place`. */
function told(positions: ArrayLike<number>, indices: ArrayLike<number> | null, place: (p: number[]) => number[]): Told {
  const count = indices ? indices.length : positions.length / 3;
  const corner = (i: number) => {
    const v = indices ? indices[i]! : i;
    return place([positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!]);
  };
  const min = [1e9, 1e9, 1e9];
  const max = [-1e9, -1e9, -1e9];
  let volume = 0;
  for (let i = 0; i < count; i += 3) {
    const [a, b, c] = [corner(i), corner(i + 1), corner(i + 2)] as [number[], number[], number[]];
    for (const p of [a, b, c])
      for (let k = 0; k < 3; k++) {
        min[k] = Math.min(min[k]!, p[k]!);
        max[k] = Math.max(max[k]!, p[k]!);
      }
    volume +=
      (a[0]! * (b[1]! * c[2]! - b[2]! * c[1]!) +
        a[1]! * (b[2]! * c[0]! - b[0]! * c[2]!) +
        a[2]! * (b[0]! * c[1]! - b[1]! * c[0]!)) /
      6;
  }
  return { min, max, volume };
}

const asIs = (p: number[]) => p;

function expectSame(read: Told, written: Told): void {
  for (const k of [0, 1, 2]) {
    expect(read.min[k]).toBeCloseTo(written.min[k]!, 2);
    expect(read.max[k]).toBeCloseTo(written.max[k]!, 2);
  }
  // the sum cancels; a turned-over surface would have the other sign
  expect(Math.abs(read.volume - written.volume)).toBeLessThan(1e-4 * Math.abs(written.volume) + 1);
}

function toldOf(geometry: BufferGeometry, place: (p: number[]) => number[]): Told {
  return told(geometry.getAttribute("position").array, geometry.getIndex()?.array ?? null, place);
}

describe("the parts as they stand", () => {
  it("have the wheel where the corner has it at that travel", () => {
    const { pose } = solveCorner(compileCorner(scene, "left"), 40);
    const drawn = bodies.find(({ key }) => key === "tyre@left")!;
    const standing = parts.find(({ key }) => key === "tyre@left")!;
    const [x, y, z] = drawn.solid.positions;
    const moved = applyPose(pose, [x!, y!, z!]);
    for (const k of [0, 1, 2]) expect(standing.positions[k]).toBeCloseTo(moved[k]!, 3);
  });

  it("are every body of the check, each once", () => {
    expect(parts.map(({ key }) => key)).toEqual(bodies.map(({ key }) => key));
    expect(new Set(parts.map(({ key }) => key)).size).toBe(parts.length);
  });

  it("refuse a travel that the corner does not reach", () => {
    expect(() => standingParts(scene, bodies, { travel_mm: 900, pose: "rest" })).toThrow(InputError);
  });
});

describe("mesh files, read back by three's loaders", () => {
  it("GLB: metres, Y up, Z forward, a node a part (glTF 2.0)", async () => {
    const bytes = await glbOf(parts);
    const { scene: read } = await new GLTFLoader().parseAsync(bytes.buffer, "");
    const meshes = new Map<string, Mesh>();
    read.traverse((node) => {
      if (node instanceof Mesh) meshes.set(node.userData.name ?? node.name, node);
    });
    expect(meshes.size).toBe(parts.length);
    for (const { key, positions, indices } of parts) {
      // the loader takes characters out of names that it uses itself, and keeps the name in the user data
      const mesh = meshes.get(key) ?? meshes.get(key.replaceAll(/[[\].:/]/g, ""));
      const place = ([x, y, z]: number[]) => [1000 * z!, 1000 * x!, 1000 * y!];
      expectSame(toldOf(mesh!.geometry, place), told(positions, indices, asIs));
    }
  });

  it("STL: one part in millimetres", () => {
    for (const part of parts.filter(({ key }) => ["sump", "upper@left", "upper@right"].includes(key))) {
      const geometry = new STLLoader().parse(stlOf(part).buffer);
      expectSame(toldOf(geometry, asIs), told(part.positions, part.indices, asIs));
    }
  });

  it("STL: the same volume and bounds by a library that has nothing of three's", () => {
    for (const part of parts.filter(({ key }) => ["sump", "upper@left", "upper@right"].includes(key))) {
      const read = readStl({ output: "geometry", addMetaData: false }, stlOf(part).buffer);
      const solids = [read].flat();
      const [min, max] = measurements.measureAggregateBoundingBox(...solids);
      const volume = measurements.measureAggregateVolume(...solids);
      expectSame({ min: [...min], max: [...max], volume }, told(part.positions, part.indices, asIs));
    }
  });

  it("OBJ: an object a part in millimetres", () => {
    const read = new OBJLoader().parse(objOf(parts));
    expect(read.children.map(({ name }) => name)).toEqual(parts.map(({ key }) => key));
    for (const [i, { positions, indices }] of parts.entries()) {
      expectSame(toldOf((read.children[i] as Mesh).geometry, asIs), told(positions, indices, asIs));
    }
  });
});

describe("the table of hard points", () => {
  it("read back changes nothing, from any datum", () => {
    for (const datum of [null, ...scene.datums]) {
      expect(withPointsTable(document, pointsTable(document, datum), datum)).toBe(document);
    }
  });

  it("moves the point that was changed, and no other", () => {
    const names = listPoints(document).map(({ name }) => name);
    fc.assert(
      fc.property(fc.constantFrom(...names), fc.integer({ min: -40, max: 40 }), (name, by) => {
        const lines = pointsTable(document, null).split("\n");
        const row = lines.findIndex((line) => line.startsWith(`${name},`));
        const cells = lines[row]!.split(",");
        cells[3] = String(Number(cells[3]) + by + 0.5);
        lines[row] = cells.join(",");
        const changed = withPointsTable(document, lines.join("\r\n"), null);
        const before = listPoints(document).find((point) => point.name === name)!;
        const after = listPoints(changed).find((point) => point.name === name)!;
        expect(after.at[2] - before.at[2]).toBeCloseTo(by + 0.5, 9);
        expect(after.at[0]).toBeCloseTo(before.at[0], 9);
      }),
      { numRuns: 25 },
    );
  });

  it("takes inches that say so, a byte-order mark, blank lines and columns that it does not know", () => {
    const changed = withPointsTable(
      document,
      "\uFEFFpoint,forward_mm,out_mm,up_mm,note\n\nupper.in,0,9 7/16in,16.5in,by tape\n",
      null,
    );
    // one inch is 25.4 mm
    const { at } = listPoints(changed).find(({ name }) => name === "upper.in")!;
    expect(at[1]).toBeCloseTo(239.7125, 9);
    expect(at[2]).toBeCloseTo(419.1, 9);
  });

  it("moves a mount that is bolted up elsewhere there, not where it is drawn", () => {
    const bolted = withBoltedUp(document, "upper.in", [10, 250, 400]);
    const changed = withPointsTable(bolted, "point,forward_mm,out_mm,up_mm\nupper.in,10,255,400\n", null);
    const { at, boltedUpAt } = listPoints(changed).find(({ name }) => name === "upper.in")!;
    expect(at).toEqual(listPoints(document).find(({ name }) => name === "upper.in")!.at);
    expect(boltedUpAt).toEqual([10, 255, 400]);
  });

  it.each([
    ["no heading", "upper.in,1,2,3\n", /no column/],
    ["an unknown point", "point,forward_mm,out_mm,up_mm\nnowhere,1,2,3\n", /row 1: no hard point is called "nowhere"/],
    [
      "one twice",
      "point,forward_mm,out_mm,up_mm\nupper.in,1,2,3\nupper.in,1,2,3\n",
      /row 2: "upper.in" is there twice/,
    ],
    ["no number", "point,forward_mm,out_mm,up_mm\nupper.in,1,two,3\n", /row 1: out_mm is "two"/],
    ["a value too few", "point,forward_mm,out_mm,up_mm\nupper.in,1,2\n", /row 1: .*few/i],
  ])("refuses %s and names the place", (_, text, told) => {
    expect(() => withPointsTable(document, text, null)).toThrow(told);
  });
});

describe("what a table moves", () => {
  it("is told point by point, those that hang on a moved one too, and nothing else", () => {
    const [moved] = listPoints(document).filter(({ isMount, boltedUpAt }) => isMount && !boltedUpAt);
    const lines = pointsTable(document, null).split("\n");
    const row = lines.findIndex((line) => line.startsWith(`${moved!.name},`));
    const cells = lines[row]!.split(",");
    cells[1] = String(Number(cells[1]) + 12.5);
    lines[row] = cells.join(",");
    const after = withPointsTable(document, lines.join("\n"), null);
    const changes = pointChanges(document, after);
    const told = changes.find(({ name }) => name === moved!.name)!;
    expect(told.to[0] - told.from[0]).toBeCloseTo(12.5, 9);
    const places = new Map(listPoints(after).map(({ name, at }) => [name, at]));
    const elsewhere = listPoints(document).filter(({ name, at }) =>
      at.some((value, k) => value !== places.get(name)![k]),
    );
    expect(changes.map(({ name }) => name)).toEqual(elsewhere.map(({ name }) => name));
    expect(pointChanges(document, document)).toEqual([]);
  });
});

describe("an STL of each part in one zip", () => {
  it("holds every part under a name of its own, read back part by part", () => {
    const few = [
      ...parts.slice(0, 3),
      { ...parts[0]!, key: `${parts[0]!.key}?` },
      { ...parts[1]!, key: `${parts[0]!.key}/` },
    ];
    const files = unzipped(stlZip(few));
    expect(files.size).toBe(few.length);
    for (const [i, bytes] of [...files.values()].entries()) {
      const { positions, indices } = few[i]!;
      expectSame(toldOf(new STLLoader().parse(bytes.buffer), asIs), told(positions, indices, asIs));
    }
    for (const name of files.keys()) expect(name).toMatch(/^[\w.@-]+\.stl$/);
    expect(stlZip(few)).toEqual(stlZip(few));
  });
});

/** Files of a zip by their local headers (PKWARE's application note, 4.3.7), inflated by Node: another library than packs it. */
function unzipped(zip: Uint8Array): Map<string, Uint8Array<ArrayBuffer>> {
  const view = new DataView(zip.buffer, zip.byteOffset, zip.byteLength);
  const files = new Map<string, Uint8Array<ArrayBuffer>>();
  for (let at = 0; view.getUint32(at, true) === 0x04034b50; ) {
    const [method, size] = [view.getUint16(at + 8, true), view.getUint32(at + 18, true)];
    const [nameLength, extraLength] = [view.getUint16(at + 26, true), view.getUint16(at + 28, true)];
    const data = at + 30 + nameLength + extraLength;
    const name = new TextDecoder().decode(zip.subarray(at + 30, at + 30 + nameLength));
    const packed = zip.subarray(data, data + size);
    files.set(name, new Uint8Array(method === 0 ? packed : inflateRawSync(packed)));
    at = data + size;
  }
  return files;
}

describe("a model file", () => {
  it("is what the format says, of the parts that are asked for, with each wheel where it stands", async () => {
    const uneven = { travel_mm: { left: 30, right: -20 }, pose: "rest" };
    const obj = new TextDecoder().decode(await modelFile(scene, bodies, uneven, "obj", "tyre"));
    const [left, right] = new OBJLoader().parse(obj).children.map((child) => toldOf((child as Mesh).geometry, asIs));
    // the wheel goes up and down with its own travel (travel is the wheel centre's height over ride height)
    const middle = ({ min, max }: Told) => (min[2]! + max[2]!) / 2;
    expect(middle(left!) - middle(right!)).toBeCloseTo(50, 0);
    const glb = await modelFile(scene, bodies, uneven, "glb", null);
    expect(new TextDecoder().decode(glb.subarray(0, 4))).toBe("glTF");
    const stl = await modelFile(scene, bodies, uneven, "stl", "tyre@left");
    expectSame(toldOf(new STLLoader().parse(stl.buffer), asIs), left!);
    await expect(modelFile(scene, bodies, uneven, "stl", "tyre")).rejects.toThrow(/holds one part, and there are 2/);
    await expect(modelFile(scene, bodies, uneven, "stls", "nothing")).rejects.toThrow(/no part is called "nothing"/);
  });
});

describe("the table of curves", () => {
  it("read back has every reading to the last digit", () => {
    const { data } = Papa.parse<Record<string, string>>(curvesTable(scene, "rest"), {
      header: true,
      skipEmptyLines: true,
    });
    for (const side of scene.sides) {
      const rows = data.filter((row) => row.side === side);
      const { curve } = curvesOf(runSide(scene, side), scene.travel);
      expect(rows.map(({ travel_mm, toe_deg, shaft_mm }) => [travel_mm, toe_deg, shaft_mm].map(Number))).toEqual(
        curve.map(({ travel_mm, toe_deg, shaft_mm }) => [travel_mm, toe_deg, shaft_mm]),
      );
    }
  });
});
