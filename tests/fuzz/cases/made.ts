import { bytesOfGlb, utf8 } from "../grammar/bytes.ts";

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
};

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
