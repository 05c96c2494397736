import fc from "fast-check";
import type { Solid } from "../../../src/geometry/solid.ts";
import { asciiPly, asciiStl, binaryPly, binaryStl, glb, obj } from "../../geometry/meshWriters.ts";
import { bytesOfGlb, spoilt, utf8 } from "./bytes.ts";

/** A tetrahedron: the least closed mesh. */
export const TETRAHEDRON: Solid = {
  positions: new Float32Array([0, 0, 0, 30, 0, 0, 0, 40, 0, 0, 0, 50]),
  indices: new Uint32Array([0, 2, 1, 0, 1, 3, 1, 2, 3, 2, 0, 3]),
  shells: [{ firstTriangle: 0, triangleCount: 4, closed: true }],
  convexPieces: null,
};
const CORNERS = [
  [0, 0, 0],
  [30, 0, 0],
  [30, 40, 0],
  [0, 40, 0],
  [15, 20, 50],
] as const;

/** Numbers as a file may have them, and what only looks like one. */
const number = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: -300, max: 300 }).map(String) },
  { weight: 3, arbitrary: fc.double({ noNaN: true, noDefaultInfinity: true }).map(String) },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      "nan",
      "inf",
      "-inf",
      "1e999",
      "-",
      "+",
      ".",
      "1e",
      "0x10",
      "1e-400",
      "1,5",
      "--1",
      "٣",
      "1".repeat(400),
    ),
  },
);
const count = fc.oneof(
  fc.nat(8).map(String),
  fc.constantFrom("-1", "1e9", "4294967295", "1000000000", "99999999999999999999", "2.5", "", "x", "NaN", "0x8"),
);
const lines = (line: fc.Arbitrary<string>, most = 30) =>
  fc
    .array(line, { maxLength: most })
    .chain((all) => fc.constantFrom("\n", "\r\n", "\r", " ").map((end) => all.join(end)));

const stlWords = ["facet", "vertex ", "endsolid", "solid", "normal", "outer loop", "endloop", "vertex 1 2 3 ", "\0"];
const stlText = fc
  .tuple(
    fc.constantFrom("solid a\n", "solid", "", "\uFEFFsolid x\n"),
    lines(
      fc.oneof(
        fc.tuple(number, number, number).map((at) => `vertex ${at.join(" ")}`),
        fc.constantFrom(...stlWords),
      ),
      60,
    ),
    fc.constantFrom("\nendsolid a\n", "endsolid", ""),
  )
  .map((parts) => utf8(parts.join("")));
const stlBinary = fc
  .tuple(
    fc.oneof(fc.nat(6), fc.constantFrom(1_000_000_000, 0xffffffff, 85899345, 2_000_001)),
    fc.array(fc.double(), { maxLength: 40 }),
    fc.nat(120),
    fc.constantFrom("", "solid"),
  )
  .map(([triangles, values, over, begin]) => {
    const bytes = new Uint8Array(84 + 4 * values.length + over);
    bytes.set(utf8(begin));
    const view = new DataView(bytes.buffer);
    view.setUint32(80, triangles, true);
    for (const [i, value] of values.entries()) view.setFloat32(84 + 4 * i, value, true);
    return bytes;
  });

export const stlFiles = fc.oneof(
  { weight: 4, arbitrary: spoilt([asciiStl(TETRAHEDRON)], stlWords) },
  { weight: 4, arbitrary: spoilt([binaryStl(TETRAHEDRON)], ["solid", "endsolid", "\0\0\0\0"]) },
  { weight: 2, arbitrary: stlText },
  { weight: 2, arbitrary: stlBinary },
);

const vertexNumber = fc.oneof(
  fc.integer({ min: -6, max: 6 }).map(String),
  count,
  fc.constantFrom("1/1/1", "1//1", "1/", "//", "-1/-1", "/1", "1\\", "0", "9007199254740993"),
);
const objWords = [
  "v ",
  "f ",
  "f 1 2 3\n",
  "v 1 2 3\n",
  "\\\n",
  "#",
  "/",
  "o \u001b[2J",
  "usemtl x\n",
  "l 1 2\n",
  "-1",
  "vn",
];
const objText = lines(
  fc.oneof(
    fc.array(number, { maxLength: 5 }).map((at) => `v ${at.join(" ")}`),
    fc.array(vertexNumber, { maxLength: 8 }).map((all) => `f ${all.join(" ")}`),
    fc.constantFrom(...objWords),
  ),
  60,
).map((text) => utf8(text));
export const objFiles = fc.oneof(spoilt([obj(TETRAHEDRON)], objWords), objText);

const plyType = fc.constantFrom(
  ...["float", "double", "uchar", "int", "uint", "int8", "float64", "short"],
  ...["list", "constructor", "__proto__", "toString", "", "FLOAT"],
);
const plyProperty = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom("property float x\nproperty float y\nproperty float z") },
  {
    weight: 4,
    arbitrary: fc.constantFrom("property list uchar int vertex_indices", "property list uint uchar vertex_index"),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(plyType, fc.constantFrom("x", "y", "z", "red", "\u001b[31m", "__proto__"))
      .map((all) => `property ${all.join(" ")}`),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(plyType, plyType, fc.constantFrom("vertex_indices", "x", ""))
      .map((all) => `property list ${all.join(" ")}`),
  },
);
const plyElement = fc
  .tuple(
    fc.constantFrom("vertex", "face", "edge", "__proto__", "<b>", ""),
    count,
    fc.array(plyProperty, { maxLength: 3 }),
  )
  .map(([name, many, properties]) => [`element ${name} ${many}`, ...properties].join("\n"));
const plyFormat = fc.constantFrom(
  "ascii",
  "ascii",
  "binary_little_endian",
  "binary_big_endian",
  "",
  "\u001b]0;x\u0007",
);
const plyText = fc
  .tuple(
    plyFormat,
    fc.array(plyElement, { maxLength: 4 }),
    fc.constantFrom("\n", "\r\n", "\r"),
    fc.oneof(
      fc.array(fc.oneof(number, count), { maxLength: 60 }).map((all) => utf8(all.join(" "))),
      fc.uint8Array({ maxLength: 300 }),
    ),
  )
  .map(([format, elements, end, body]) => {
    const head = utf8(["ply", `format ${format} 1.0`, ...elements, "end_header", ""].join("\n").replaceAll("\n", end));
    const bytes = new Uint8Array(head.length + body.length);
    bytes.set(head);
    bytes.set(body, head.length);
    return bytes;
  });
const plyWords = [
  "element face 1000000000\n",
  "property list uint uchar x\n",
  "end_header\n",
  "format ascii 1.0\n",
  "-1 ",
  "1e9 ",
  "4 0 1 2 3\n",
  "comment \u001b[1m\n",
];
export const plyFiles = fc.oneof(
  spoilt(
    [
      asciiPly(CORNERS, [
        [0, 1, 2, 3],
        [0, 1, 4],
        [1, 2, 4],
        [2, 3, 4],
        [3, 0, 4],
      ]),
      binaryPly(TETRAHEDRON, true),
      binaryPly(TETRAHEDRON, false),
    ],
    plyWords,
  ),
  plyText,
);

const index = fc.oneof(
  { weight: 5, arbitrary: fc.nat(3) },
  { weight: 1, arbitrary: fc.constantFrom<unknown>(-1, 99, 1e9, 0.5, "0", null, [], {}) },
);
const many = fc.oneof(
  { weight: 4, arbitrary: fc.nat(12) },
  { weight: 1, arbitrary: fc.constantFrom<unknown>(-1, 1e9, 4294967296, 1.5, "3", null) },
);
const maybe = <T>(one: fc.Arbitrary<T>) => fc.option(one, { nil: undefined, freq: 3 });
const odd = fc.constantFrom<unknown>(null, 0, "x", [], {}, [null], true, [[[]]], { __proto__: 1 });
const listOf = (one: fc.Arbitrary<unknown>, least = 0) =>
  fc.oneof({ weight: 12, arbitrary: fc.array(one, { minLength: least, maxLength: 4 }) }, { weight: 1, arbitrary: odd });
const numbers = (length: number) =>
  fc.array(fc.oneof(fc.double(), fc.integer({ min: -2, max: 2 })), { minLength: length, maxLength: length });

const glbJson = fc.record(
  {
    asset: fc.oneof({ weight: 9, arbitrary: fc.constant({ version: "2.0" }) }, { weight: 1, arbitrary: odd }),
    scene: maybe(index),
    scenes: listOf(fc.record({ nodes: maybe(listOf(index)) }), 1),
    nodes: listOf(
      fc.record({
        mesh: maybe(index),
        children: maybe(listOf(index)),
        matrix: maybe(numbers(16)),
        translation: maybe(numbers(3)),
        rotation: maybe(numbers(4)),
        scale: maybe(numbers(3)),
        skin: maybe(index),
        extensions: maybe(
          fc.constantFrom<unknown>(
            { EXT_mesh_gpu_instancing: { attributes: { TRANSLATION: 0 } } },
            { KHR_lights_punctual: { light: 0 } },
            { EXT_mesh_gpu_instancing: {} },
            null,
          ),
        ),
      }),
      1,
    ),
    meshes: listOf(
      fc.record({
        primitives: listOf(
          fc.record({
            attributes: fc.record({ POSITION: maybe(index) }),
            indices: maybe(index),
            mode: maybe(fc.nat(7)),
          }),
          1,
        ),
      }),
      1,
    ),
    accessors: listOf(
      fc.record({
        bufferView: maybe(index),
        byteOffset: maybe(many),
        componentType: fc.constantFrom<unknown>(5126, 5126, 5125, 5123, 5121, 5120, 0, "5126"),
        count: many,
        type: fc.constantFrom<unknown>("VEC3", "SCALAR", "VEC2", "MAT4", "constructor", 3),
        normalized: maybe(fc.boolean()),
        sparse: maybe(
          fc.record({
            count: many,
            indices: fc.record({ bufferView: index, componentType: fc.constant(5123) }),
            values: fc.record({ bufferView: index }),
          }),
        ),
      }),
      1,
    ),
    bufferViews: listOf(
      fc.record({ buffer: index, byteOffset: maybe(many), byteLength: many, byteStride: maybe(many) }),
      1,
    ),
    buffers: listOf(
      fc.record({
        byteLength: many,
        uri: maybe(fc.constantFrom<unknown>("../../secret.bin", "data:,", 5, "https://example.org/a.bin")),
      }),
      1,
    ),
    extensionsUsed: maybe(
      listOf(
        fc.constantFrom(
          "EXT_mesh_gpu_instancing",
          "KHR_lights_punctual",
          "KHR_mesh_quantization",
          "EXT_meshopt_compression",
          "__proto__",
        ),
      ),
    ),
    extensionsRequired: maybe(
      listOf(fc.constantFrom("KHR_draco_mesh_compression", "EXT_mesh_gpu_instancing", "KHR_mesh_quantization", "x")),
    ),
  },
  { requiredKeys: [] },
);

const glbChange = fc.oneof(
  fc.record(
    {
      accessors: listOf(
        fc.record({
          bufferView: maybe(index),
          componentType: fc.constantFrom(5126, 5125, 5123),
          count: many,
          type: fc.constantFrom("VEC3", "SCALAR"),
        }),
      ),
    },
    { requiredKeys: [] },
  ),
  fc.record({
    bufferViews: listOf(
      fc.record({ buffer: fc.constant(0), byteOffset: maybe(many), byteLength: many, byteStride: maybe(many) }),
    ),
  }),
  fc.record({
    nodes: listOf(
      fc.record(
        { mesh: maybe(fc.constant(0)), children: maybe(fc.array(fc.nat(3), { maxLength: 2 })) },
        { requiredKeys: [] },
      ),
    ),
  }),
);
export const glbFiles = fc.oneof(
  {
    weight: 3,
    arbitrary: spoilt(
      [glb(TETRAHEDRON), glb(TETRAHEDRON, { scale: [2, 2, 2] })],
      ['"count":1000000000,', '"children":[0],', "null", "-1", "e9", '"', "{", "[", '"uri":"x",'],
    ),
  },
  { weight: 3, arbitrary: glbChange.map((change) => glb(TETRAHEDRON, {}, change)) },
  { weight: 3, arbitrary: glbJson.map((json) => bytesOfGlb(JSON.stringify(json))) },
  { weight: 1, arbitrary: fc.json().map(bytesOfGlb) },
);
