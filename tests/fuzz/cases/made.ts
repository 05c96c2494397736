import { zipSync } from "fflate";
import { bytesOfGlb, utf8 } from "../grammar/bytes.ts";
import { SMALL_CARS } from "../grammar/cars.ts";
import { bodyScene, zipOfZeros } from "./makers.ts";

export interface Made {
  readonly name: string;
  make(): Uint8Array | string;
}

/** What is too large to be saved, or clearer as code; by door. */
export const MADE: Readonly<Record<string, readonly Made[]>> = {
  stl: [
    { name: "a header of a billion triangles", make: () => headOfStl(1_000_000_000) },
    { name: "a header of as many triangles as fit into its number", make: () => headOfStl(0xffffffff) },
    { name: "a control character in a text", make: () => utf8("solid a\nvertex 1 2 3\u0000 vertex\nendsolid\n") },
    { name: "ten megabytes of blanks", make: () => utf8(`solid ${" ".repeat(10_000_000)}endsolid`) },
    { name: "a word of ten megabytes", make: () => utf8(`solid ${"x".repeat(10_000_000)} endsolid`) },
    { name: "a number of ten million digits", make: () => utf8(`solid vertex ${"9".repeat(10_000_000)} 1 1 endsolid`) },
  ],
  obj: [
    { name: "a face of ten million corners", make: () => utf8(`v 1 2 3\nf${" 1".repeat(10_000_000)}\n`) },
    { name: "a line that never ends", make: () => utf8(`v 1 2 3\nf ${"\\\n".repeat(5_000_000)}`) },
    { name: "five million faces of nothing", make: () => utf8("f\n".repeat(5_000_000)) },
    {
      name: "vertices beyond what a number holds",
      make: () => utf8("v 1e999 -1e999 nan\nv 1 2 3\nv 1 2 4\nf 1 2 3\n"),
    },
  ],
  ply: [
    {
      name: "a billion triangles",
      make: () =>
        utf8("ply\nformat ascii 1.0\nelement face 1000000000\nproperty list uchar int vertex_indices\nend_header\n"),
    },
    {
      name: "as many vertices as the file has bytes",
      make: () => {
        const count = 30_000_000;
        const head = `ply\nformat ascii 1.0\nelement vertex ${count}\nproperty float x\nproperty float y\nproperty float z\nelement face 1\nproperty list uchar int vertex_indices\nend_header\n`;
        return utf8(head.padEnd(count + 1));
      },
    },
    {
      name: "a list of four billion",
      make: () => {
        const head = utf8(
          "ply\nformat binary_little_endian 1.0\nelement face 1\nproperty list uint uchar vertex_indices\nend_header\n",
        );
        const bytes = new Uint8Array(head.length + 40_000_000).fill(0xff);
        bytes.set(head);
        return bytes;
      },
    },
    {
      name: "number types named like what every object has",
      make: () =>
        utf8(
          "ply\nformat ascii 1.0\nelement vertex 3\nproperty constructor x\nelement face 1\nproperty list __proto__ toString vertex_indices\nend_header\n1 2 3",
        ),
    },
    {
      name: "a header that steers a terminal",
      make: () =>
        utf8(
          "ply\nformat \u001b]0;x\u0007\u009b2J 1.0\nelement face 1\nproperty list uchar int vertex_indices\nend_header\n",
        ),
    },
  ],
  glb: [
    { name: "a node that holds itself", make: () => glbWith({ nodes: [{ mesh: 0, children: [0] }] }) },
    {
      name: "two nodes that hold each other",
      make: () => glbWith({ nodes: [{ children: [1] }, { mesh: 0, children: [0] }] }),
    },
    {
      name: "a chain of 100,000 nodes",
      make: () =>
        glbWith({
          nodes: Array.from({ length: 100_000 }, (_, i) => (i < 99_999 ? { children: [i + 1] } : { mesh: 0 })),
        }),
    },
    {
      name: "a mesh in a million places",
      make: () =>
        glbWith({
          scenes: [{ nodes: Array.from({ length: 1_000_000 }, (_, i) => i) }],
          nodes: Array.from({ length: 1_000_000 }, () => ({ mesh: 0 })),
        }),
    },
    {
      name: "a billion places out of nothing",
      make: () => glbWith({ accessors: [{ componentType: 5126, count: 1_000_000_000, type: "VEC3" }] }),
    },
    {
      name: "six million places out of nothing, a thousand times",
      make: () =>
        glbWith({
          accessors: Array.from({ length: 1000 }, () => ({ componentType: 5126, count: 6_000_000, type: "VEC3" })),
          meshes: [{ primitives: Array.from({ length: 1000 }, (_, i) => ({ attributes: { POSITION: i }, mode: 0 })) }],
        }),
    },
    { name: "JSON 100,000 deep", make: () => bytesOfGlb(`{"asset":${"[".repeat(100_000)}${"]".repeat(100_000)}}`) },
    { name: "eight million empty lists", make: () => bytesOfGlb(`{"nodes":[${"[],".repeat(8_000_000)}[]]}`) },
    {
      name: "geometry in another folder",
      make: () => glbWith({ buffers: [{ byteLength: 96, uri: "../../../etc/passwd" }] }),
    },
    {
      name: "geometry from elsewhere",
      make: () => glbWith({ buffers: [{ byteLength: 96, uri: "https://example.org/x.bin" }] }),
    },
  ],
  scene: [
    { name: "JSON 100,000 deep", make: () => utf8("[".repeat(100_000)) },
    { name: "records 100,000 deep", make: () => utf8('{"a":'.repeat(100_000)) },
    { name: "seven million empty lists", make: () => utf8(`[${"[],".repeat(6_600_000)}[]]`) },
    {
      name: "a key that reaches into objects",
      make: () => utf8('{"format":"elbowroom.scene","version":1,"__proto__":{"x":1}}'),
    },
    {
      name: "a point named like what every object has",
      make: () => bodyScene({}, { points: { constructor: [0, 0, 0] } }),
    },
    {
      name: "a mesh beyond the scene's folder",
      make: () => bodyScene({ kind: "mesh", file: "../../../etc/x.stl", unit: "mm" }),
    },
    {
      name: "a mesh at an address",
      make: () => bodyScene({ kind: "mesh", file: "https://example.org/x.stl", unit: "mm" }),
    },
    {
      name: "a ball of a hundred metres to five thousandths",
      make: () => bodyScene({ kind: "sphere", diameter_mm: 100_000 }, { tessellation_mm: 0.005 }),
    },
    {
      name: "a ring of a hundred metres to five thousandths",
      make: () => bodyScene({ kind: "torus", diameter_mm: 100_000, section_mm: 40_000 }, { tessellation_mm: 0.005 }),
    },
    {
      name: "a thousand balls in one hull",
      make: () =>
        bodyScene(
          { kind: "hull", spheres: Array.from({ length: 1000 }, (_, i) => ({ at: [i, 0, 0], diameter_mm: 900 })) },
          { tessellation_mm: 0.005 },
        ),
    },
    {
      name: "a bent tube of a kilometre",
      make: () =>
        bodyScene(
          {
            kind: "tube",
            diameter_mm: 2000,
            bend_mm: 90_000,
            path: Array.from({ length: 8 }, (_, i) => [i % 2 ? 400_000 : 0, 250_000 * Math.floor(i / 2), 0]),
          },
          { tessellation_mm: 0.005 },
        ),
    },
    { name: "a plate of 10,000 corners", make: () => plateOfRings(99, 100) },
    {
      name: "a plate of 200,000 corners",
      make: () => plateOfRings(199, 1000),
    },
    {
      name: "groups in groups",
      make: () => {
        let shape: object = { kind: "sphere", diameter_mm: 10 };
        for (let i = 0; i < 100; i++) shape = { kind: "group", parts: [shape] };
        return bodyScene(shape);
      },
    },
    {
      name: "points that hang on each other in a ring of 10,000",
      make: () =>
        bodyScene(
          {},
          {
            points: Object.fromEntries(
              Array.from({ length: 10_000 }, (_, i) => [
                `p${i}`,
                { at: { from: `p${(i + 1) % 10_000}`, by: [1, 0, 0] } },
              ]),
            ),
          },
        ),
    },
    {
      name: "points that hang on each other in a chain of 20,000",
      make: () =>
        bodyScene(
          {},
          {
            points: Object.fromEntries(
              Array.from({ length: 20_000 }, (_, i) => [
                `p${i}`,
                i === 19_999 ? [0, 0, 0] : { at: { from: `p${i + 1}`, by: [0, 0, 0] } },
              ]),
            ),
          },
        ),
    },
  ],
  log: [
    {
      name: "JSON 100,000 deep",
      make: () => utf8(`{"format":"elbowroom.log","version":2,"cards":[${"[".repeat(100_000)}${"]".repeat(100_000)}]}`),
    },
    {
      name: "a card 100,000 records deep",
      make: () =>
        utf8(`{"format":"elbowroom.log","version":1,"cards":[${'{"a":'.repeat(100_000)}1${"}".repeat(100_000)}]}`),
    },
    {
      name: "twenty million empty lists",
      make: () => utf8(`{"format":"elbowroom.log","version":2,"cards":[${"[],".repeat(20_000_000)}[]]}`),
    },
    {
      name: "keys that reach into objects",
      make: () =>
        utf8(
          '{"format":"elbowroom.log","version":1,"cards":[{"__proto__":{"version":1},"constructor":{"prototype":{}}}]}',
        ),
    },
    { name: "a megabyte of blanks", make: () => utf8(" ".repeat(1_000_000)) },
    {
      name: "a million backslashes in a text",
      make: () => utf8(`{"format":"elbowroom.log","x":"${"\\".repeat(1_000_000)}`),
    },
  ],
  "log-zip": [
    {
      name: "eight hundred megabytes of nothing",
      make: () => zipOfZeros(80, 800_000_000),
    },
    { name: "files larger than their list says", make: () => zipOfZeros(80, 10) },
    {
      name: "thirty thousand files",
      make: () => zipSync(Object.fromEntries(Array.from({ length: 30_000 }, (_, i) => [`f${i}`, new Uint8Array()]))),
    },
    { name: "a list that says it has four billion files", make: () => countingZip() },
    {
      name: "names that climb out of the folder",
      make: () =>
        zipSync({
          "../../../log.json": utf8("{}"),
          "/etc/passwd": utf8("x"),
          "log.json": utf8('{"format":"elbowroom.log","version":2,"cards":[{"file":"../../../log.json"}]}'),
        }),
    },
    {
      name: "names that reach into objects",
      make: () =>
        zipSync({
          constructor: utf8("{}"),
          "log.json": utf8('{"format":"elbowroom.log","version":2,"cards":[{"file":"toString"},{"file":"__proto__"}]}'),
        }),
    },
    {
      name: "a name that steers a terminal",
      make: () =>
        zipSync({ "log.json": utf8('{"format":"elbowroom.log","version":2,"cards":[{"file":"\\u001b[2J<script>"}]}') }),
    },
  ],
  "log-page": [
    {
      name: "a page of ten million angle brackets",
      make: () =>
        utf8(`<!doctype html>${"<".repeat(10_000_000)}<script type="application/json" id="elbowroom-log">{}</script>`),
    },
    {
      name: "a picture without end",
      make: () =>
        utf8(
          `<!doctype html>${'<img id="f-'.repeat(500_000)}<script type="application/json" id="elbowroom-log">{}</script>`,
        ),
    },
  ],
  points: [
    { name: "a line of ten megabytes", make: () => "x,".repeat(5_000_000) },
    { name: "a million quotation marks", make: () => `point,forward_mm,out_mm,up_mm\n${'"'.repeat(1_000_001)}` },
    { name: "a million short lines", make: () => `point,forward_mm,out_mm,up_mm\n${"a\n".repeat(1_000_000)}` },
    {
      name: "headings that reach into objects",
      make: () => "point,forward_mm,out_mm,up_mm,__proto__,constructor\nupper.in,1,2,3,x,y\n",
    },
  ],
  room: [
    { name: "nothing but what it is", make: () => '{"study":"room"}' },
    {
      name: "counts that are texts",
      make: () => '{"study":"room","counts":["1"],"reason":[0],"margin_mm":[0],"pair":[0],"state":[0],"value":[0]}',
    },
    { name: "JSON 100,000 deep", make: () => `{"study":"room","points":${"[".repeat(100_000)}${"]".repeat(100_000)}}` },
  ],
  length: [
    { name: "a hundred thousand figures", make: () => "1".repeat(100_000) },
    { name: "a hundred thousand figures and blanks", make: () => "1 ".repeat(50_000) },
    { name: "ten thousand names", make: () => `=${"left + ".repeat(10_000)}left` },
  ],
  exports: [
    { name: "a title of what XML has no way to hold, as SVG", make: () => pictureOf("svg", NO_XML) },
    { name: "a title of what XML has no way to hold, as PNG", make: () => pictureOf("png", NO_XML) },
    {
      name: "a part's name of what XML has no way to hold",
      make: () => {
        const car = SMALL_CARS[0]!;
        const bodies = car.bodies.map((body) => (body.id === "tray" ? { ...body, id: `tray${NO_XML}` } : body));
        const args = ["template", "@/car.json", `--part=tray${NO_XML}`, "--to=@/made/x.svg"];
        return JSON.stringify({ args, files: { "car.json": { ...car, bodies } } });
      },
    },
  ],
  terminal: [
    {
      name: "a billion corners drawn at random",
      make: () =>
        JSON.stringify({ args: ["jig", "@/car.json", "--samples=1e9"], files: { "car.json": SMALL_CARS[1] } }),
    },
  ],
  name: [{ name: "a tyre of a hundred thousand blanks", make: () => `205/55${" ".repeat(100_000)}R16` }],
};

/** Of three bytes in UTF-8 and no characters, and half a pair that is one: XML 1.0, production 2. */
const NO_XML = "\ufffe\uffff\ud800";

function pictureOf(ending: string, title: string): string {
  const args = ["picture", "@/car.json", "--size=320x320", `--to=@/made/x.${ending}`];
  return JSON.stringify({ args, files: { "car.json": { ...SMALL_CARS[1], title } } });
}

function headOfStl(triangles: number): Uint8Array {
  const bytes = new Uint8Array(84 + 50);
  new DataView(bytes.buffer).setUint32(80, triangles, true);
  return bytes;
}

function glbWith(change: object): Uint8Array {
  return bytesOfGlb(
    JSON.stringify({
      asset: { version: "2.0" },
      scenes: [{ nodes: [0] }],
      nodes: [{ mesh: 0 }],
      meshes: [{ primitives: [{ attributes: { POSITION: 0 } }] }],
      accessors: [{ bufferView: 0, componentType: 5126, count: 3, type: "VEC3" }],
      bufferViews: [{ buffer: 0, byteLength: 36 }],
      buffers: [{ byteLength: 96 }],
      ...change,
    }),
  );
}

/** A zip whose end record for more files than its field holds says that there are four billion: APPNOTE 6.3.10, 4.3.14 and 4.3.15. */
function countingZip(): Uint8Array {
  const zip = zipSync({ "log.json": utf8("{}") });
  const end = zip.length - 22;
  const bytes = new Uint8Array(zip.length + 76);
  bytes.set(zip.subarray(0, end));
  const view = new DataView(bytes.buffer);
  view.setUint32(end, 0x06064b50, true);
  view.setUint32(end + 32, 0xffffffff, true);
  view.setUint32(end + 48, new DataView(zip.buffer).getUint32(end + 16, true), true);
  view.setUint32(end + 56, 0x07064b50, true);
  view.setUint32(end + 64, end, true);
  bytes.set(zip.subarray(end), end + 76);
  return bytes;
}

/** A plate with so many round holes of so many corners. */
function plateOfRings(holes: number, corners: number): Uint8Array {
  const ring = (x: number, y: number, radius: number) =>
    Array.from({ length: corners }, (_, i) => {
      const angle = (2 * Math.PI * i) / corners;
      return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
    });
  return bodyScene({
    kind: "prism",
    outline: ring(0, 0, 90_000),
    holes: Array.from({ length: holes }, (_, i) => ring(300 * (i % 15) - 2000, 300 * Math.floor(i / 15) - 2000, 100)),
    thickness_mm: 5,
    origin: [0, 0, 0],
    u: [1, 0, 0],
    v: [0, 1, 0],
  });
}
