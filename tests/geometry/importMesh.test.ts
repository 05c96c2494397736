import { describe, expect, test } from "vitest";
import { importMesh, readTriangles } from "../../src/geometry/importMesh.ts";
import { area_mm2, bounds, isClosedManifold, volume_mm3 } from "../../src/geometry/measure.ts";
import { mergeSolids } from "../../src/geometry/rearrange.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import { InputError } from "../../src/scene/error.ts";
import { asciiPly, asciiStl, binaryPly, binaryStl, glb, obj } from "./meshWriters.ts";
import { draw, expectSound } from "./support.ts";

const BOX = draw({ kind: "box", size_mm: [40, 20, 10], edge_mm: null });
const PART = mergeSolids([
  draw({ kind: "capsule", from: [0, 100, 50], to: [200, 140, 80], diameter_mm: 30 }),
  draw({ kind: "torus", diameter_mm: 90, section_mm: 20 }, 0.5),
]);

function expectSame(found: Solid, wanted: Solid): void {
  expectSound(found);
  expect(found.positions.length).toBe(wanted.positions.length);
  expect(found.indices.length).toBe(wanted.indices.length);
  expect(found.shells.length).toBe(wanted.shells.length);
  expect(found.convexPieces).toBeNull();
  expect(volume_mm3(found) / volume_mm3(wanted)).toBeCloseTo(1, 5);
  expect(area_mm2(found) / area_mm2(wanted)).toBeCloseTo(1, 5);
  const [a, b] = [bounds(found), bounds(wanted)];
  for (const k of [0, 1, 2] as const) {
    expect(a.min[k]).toBeCloseTo(b.min[k], 3);
    expect(a.max[k]).toBeCloseTo(b.max[k], 3);
  }
}

describe("what was written is read back", () => {
  test.each([
    ["part.stl", binaryStl(PART)],
    ["part.STL", asciiStl(PART)],
    ["folder.1/part.obj", obj(PART)],
    ["part.ply", binaryPly(PART, true)],
    ["big-endian.ply", binaryPly(PART, false)],
  ])("from %s", async (name, bytes) => {
    expectSame(await importMesh(bytes, name, "mm"), PART);
  });

  test("from a view on a larger buffer", async () => {
    const bytes = binaryStl(PART);
    const larger = new Uint8Array(bytes.length + 64);
    larger.set(bytes, 32);
    expectSame(await importMesh(larger.subarray(32, 32 + bytes.length), "part.stl", "mm"), PART);
  });

  test("from GLB: Y up, Z forward, X left become the car's axes, node by node", async () => {
    // a box 40 to the left, 20 up, 10 forward, moved one unit up; metres
    const solid = await importMesh(glb(BOX, { translation: [0, 1, 0] }), "part.glb", "m");
    expectSound(solid);
    const { min, max } = bounds(solid);
    expect(min).toEqual([-5000, -20000, -9000]);
    expect(max).toEqual([5000, 20000, 11000]);
  });

  test("from GLB with a node that mirrors: the surface still faces outward", async () => {
    const solid = await importMesh(glb(PART, { scale: [-1, 1, 1] }), "part.glb", "mm");
    expectSound(solid);
    expect(volume_mm3(solid) / volume_mm3(PART)).toBeCloseTo(1, 5);
  });
});

test("units: one inch is 25.4 mm, one centimetre 10, one metre 1000", async () => {
  for (const [unit, mm] of [
    ["mm", 1],
    ["cm", 10],
    ["in", 25.4],
    ["m", 1000],
  ] as const) {
    const solid = await importMesh(binaryStl(BOX), "box.stl", unit);
    expect(bounds(solid).max[0]).toBeCloseTo(20 * mm, 2);
  }
});

describe("faults of scans are mended or told", () => {
  test("triangles wound the wrong way are turned", async () => {
    const turned = PART.indices.slice();
    for (let i = 0; i < turned.length; i += 15) {
      const held = turned[i]!;
      turned[i] = turned[i + 1]!;
      turned[i + 1] = held;
    }
    expectSame(await importMesh(binaryStl({ ...PART, indices: turned }), "part.stl", "mm"), PART);
  });

  test("a surface inside out is turned outward", async () => {
    expectSame(await importMesh(binaryStl({ ...PART, indices: PART.indices.toReversed() }), "part.stl", "mm"), PART);
  });

  test("a missing triangle leaves one shell open and the other closed", async () => {
    const solid = await importMesh(binaryStl({ ...PART, indices: PART.indices.slice(3) }), "part.stl", "mm");
    expect(solid.shells.map((shell) => shell.closed)).toEqual([false, true]);
    expect(solid.shells.reduce((sum, shell) => sum + shell.triangleCount, 0)).toBe(PART.indices.length / 3 - 1);
  });

  test("triangles without area and doubled ones are dropped", async () => {
    const indices = Uint32Array.from([...BOX.indices, 0, 0, 1, ...BOX.indices.slice(0, 6), 3, 3, 3]);
    expectSame(await importMesh(binaryStl({ ...BOX, indices }), "box.stl", "mm"), BOX);
  });

  test("faces of four and five corners are filled", async () => {
    // a house: a pentagon pushed 3 along z
    const gable: [number, number][] = [
      [0, 0],
      [4, 0],
      [4, 2],
      [2, 4],
      [0, 2],
    ];
    const points = [...gable.map(([x, y]): Vec3 => [x, y, 0]), ...gable.map(([x, y]): Vec3 => [x, y, 3])];
    const walls = gable.map((_, i) => [i, (i + 1) % 5, 5 + ((i + 1) % 5), 5 + i]);
    const solid = await importMesh(asciiPly(points, [[4, 3, 2, 1, 0], [5, 6, 7, 8, 9], ...walls]), "house.ply", "mm");
    expect(isClosedManifold(solid)).toBe(true);
    expect(volume_mm3(solid)).toBeCloseTo(3 * (8 + 4), 6);
  });
});

describe("what cannot be read is refused, naming the file", () => {
  const refusal = async (bytes: Uint8Array, name: string): Promise<InputError> => {
    const error: unknown = await importMesh(bytes, name, "mm").then(
      () => expect.fail("it was read"),
      (reason: unknown) => reason,
    );
    expect(error).toBeInstanceOf(InputError);
    const told = error as InputError;
    expect(told.code).toBe("mesh");
    expect(told.file).toBe(name);
    expect(told.message).not.toMatch(/\n/);
    return told;
  };
  const text = (words: string) => new TextEncoder().encode(words);

  test("a binary STL that claims more triangles than it holds", async () => {
    const bytes = binaryStl(BOX);
    new DataView(bytes.buffer).setUint32(80, 4_000_000_000, true);
    bytes.set(text("fish"));
    expect((await refusal(bytes, "claims.stl")).wrong).toMatch(/claims 4000000000 triangles.*room for 12/);
  });

  test("files that break off", async () => {
    await refusal(binaryStl(BOX).slice(0, 300), "cut.stl");
    await refusal(asciiStl(BOX).slice(0, 700), "cut.stl");
    await refusal(binaryPly(BOX, true).slice(0, 300), "cut.ply");
    await refusal(
      asciiPly(
        [
          [0, 0, 0],
          [1, 0, 0],
          [0, 1, 0],
        ],
        [[0, 1, 2]],
      ).slice(0, -4),
      "cut.ply",
    );
    for (const length of [10, 200, glb(BOX).length - 40]) await refusal(glb(BOX).slice(0, length), "cut.glb");
  });

  test("numbers that are none and vertices that are not there", async () => {
    const points: Vec3[] = [
      [0, 0, 0],
      [Number.NaN, 0, 0],
      [0, 1, 0],
    ];
    expect((await refusal(asciiPly(points, [[0, 1, 2]]), "nan.ply")).wrong).toMatch(/not a number/);
    await refusal(asciiPly(points, [[0, 1, 7]]), "seven.ply");
    await refusal(text("v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 9\n"), "nine.obj");
    await refusal(binaryStl({ ...BOX, positions: BOX.positions.map(() => Number.POSITIVE_INFINITY) }), "infinite.stl");
  });

  test("points without faces, empty files, other formats", async () => {
    await refusal(asciiPly([[0, 0, 0]], []), "cloud.ply");
    await refusal(new Uint8Array(), "empty.stl");
    await refusal(new Uint8Array(), "empty.obj");
    await refusal(new Uint8Array(), "empty.glb");
    await refusal(text("solid nothing\nendsolid nothing\n"), "nothing.stl");
    expect((await refusal(text("x"), "part.step")).wrong).toMatch(/step/);
  });

  test("GLB files that are compressed or whose geometry lies elsewhere; nothing is fetched", async () => {
    expect(
      (await refusal(glb(BOX, {}, { extensionsRequired: ["KHR_draco_mesh_compression"] }), "c.glb")).wrong,
    ).toMatch(/compressed/);
    await refusal(
      glb(BOX, {}, { buffers: [{ byteLength: 480, uri: "https://example.org/part.bin" }] }),
      "elsewhere.glb",
    );
  });
});

describe("reading tells how far it has come, and ends when it is told to", () => {
  const files = [
    ["part.stl", binaryStl(PART)],
    ["text.stl", asciiStl(PART)],
    ["part.obj", obj(PART)],
    ["part.ply", binaryPly(PART, true)],
    ["part.glb", glb(PART, {})],
  ] as const;

  test.each(files)("%s", async (name, bytes) => {
    const shares: number[] = [];
    await readTriangles(bytes, name, "mm", (share) => shares.push(share));
    expect(shares.every((share, i) => share >= 0 && share <= 1 && (i === 0 || share >= shares[i - 1]!))).toBe(true);
    if (name !== "part.obj") expect(shares.length).toBeGreaterThan(0);
  });

  test.each(files.filter(([name]) => name !== "part.obj"))("%s, stopped", async (name, bytes) => {
    const stop = new Error("not wanted any more");
    const reading = readTriangles(bytes, name, "mm", () => {
      throw stop;
    });
    await expect(reading).rejects.toBe(stop);
  });

  test("an OBJ of many lines, stopped half-way", async () => {
    const lines = new TextEncoder().encode(`${"# a line\n".repeat(50_000)}v 0 0 0\n`);
    const shares: number[] = [];
    const reading = readTriangles(lines, "long.obj", "mm", (share) => {
      shares.push(share);
      if (share > 0.5) throw new RangeError("enough");
    });
    await expect(reading).rejects.toThrow(RangeError);
    expect(shares.at(-1)).toBeLessThan(1);
  });
});

describe("OBJ as it is written in the wild", () => {
  const text = (lines: string) => new TextEncoder().encode(lines);
  const SQUARE = "v 0 0 0\nv 10 0 0\r\nv 10 10 0 1.0\nv 0 10 0\n";

  test("faces with textures and normals, counted backwards, over two lines, with four corners", async () => {
    for (const face of [
      "f 1/1/1 2/2/1 3/3/1 4/4/1",
      "f -4 -3 -2 -1",
      "f 1 2 \\\n 3 4",
      "f 1//1 2//1 3//1 4//1 # top",
    ]) {
      const solid = await importMesh(
        text(`${SQUARE}vt 0 0\nvn 0 0 1\ng lid\nusemtl x\ns off\n${face}\n`),
        "a.obj",
        "mm",
      );
      expect(area_mm2(solid)).toBeCloseTo(100, 9);
    }
  });

  test.each([
    ["f 1 2 9", /vertex 9, of 4 so far/],
    ["f 1 2 0", /vertex 0/],
    ["f 1 two 3", /vertex "two"/],
  ])("%s is refused with its line", async (face, wrong) => {
    const reading = importMesh(text(`${SQUARE}${face}\n`), "a.obj", "mm");
    await expect(reading).rejects.toThrow(wrong);
    await expect(reading).rejects.toThrow(/line 5/);
  });
});
