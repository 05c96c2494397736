import { bounds } from "../../src/geometry/measure.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import { cornersOf, vertexOf } from "./support.ts";

/*
 * The formats written from their definitions, so that reading is tested against the format and not against a writer of
 * the same library. Binary STL: 80 bytes, a count, 50 bytes a triangle. GLB and glTF 2.0: 12-byte header, JSON chunk,
 * binary chunk.
 */

const encode = (text: string): Uint8Array<ArrayBuffer> => new TextEncoder().encode(text);

export function binaryStl(solid: Solid): Uint8Array<ArrayBuffer> {
  const count = solid.indices.length / 3;
  const bytes = new Uint8Array(84 + 50 * count);
  const view = new DataView(bytes.buffer);
  bytes.set(encode("solid is how many binary files begin"));
  view.setUint32(80, count, true);
  for (let t = 0; t < count; t++) {
    for (const [i, value] of cornersOf(solid, t).flat().entries())
      view.setFloat32(84 + 50 * t + 12 + 4 * i, value, true);
  }
  return bytes;
}

export function asciiStl(solid: Solid): Uint8Array<ArrayBuffer> {
  const facets = triangles(solid).map(
    (corners) =>
      `facet normal 0 0 0\n outer loop\n${corners.map((p) => `  vertex ${p.join(" ")}\n`).join("")} endloop\nendfacet\n`,
  );
  return encode(`solid part\n${facets.join("")}endsolid part\n`);
}

export function obj(solid: Solid): Uint8Array<ArrayBuffer> {
  const faces = indexTriples(solid).map((triple) => `f ${triple.map((i) => `${i + 1}//${i + 1}`).join(" ")}`);
  const normals = vertices(solid).map(() => "vn 0 0 1");
  return encode(["o part", ...vertices(solid).map((p) => `v ${p.join(" ")}`), ...normals, ...faces, ""].join("\n"));
}

const PLY_HEADER = (format: string, vertexCount: number, faceCount: number) =>
  `ply\nformat ${format} 1.0\ncomment drawn by a test\nelement vertex ${vertexCount}\nproperty float x\nproperty float y\n` +
  `property float z\nproperty uchar red\nelement face ${faceCount}\nproperty list uchar int vertex_indices\nend_header\n`;

export function asciiPly(points: readonly Vec3[], faces: readonly (readonly number[])[]): Uint8Array<ArrayBuffer> {
  const body = [...points.map((p) => `${p.join(" ")} 128`), ...faces.map((face) => `${face.length} ${face.join(" ")}`)];
  return encode(`${PLY_HEADER("ascii", points.length, faces.length)}${body.join("\n")}\n`);
}

export function binaryPly(solid: Solid, littleEndian: boolean): Uint8Array<ArrayBuffer> {
  const points = vertices(solid);
  const faces = indexTriples(solid);
  const header = encode(PLY_HEADER(`binary_${littleEndian ? "little" : "big"}_endian`, points.length, faces.length));
  const bytes = new Uint8Array(header.length + 13 * points.length + 13 * faces.length);
  bytes.set(header);
  const view = new DataView(bytes.buffer);
  let at = header.length;
  for (const p of points) {
    for (const [i, value] of p.entries()) view.setFloat32(at + 4 * i, value, littleEndian);
    at += 13;
  }
  for (const face of faces) {
    view.setUint8(at, 3);
    for (const [i, vertex] of face.entries()) view.setInt32(at + 1 + 4 * i, vertex, littleEndian);
    at += 13;
  }
  return bytes;
}

/**
 * Positions as they are, in one mesh under a node with the given changes to the document; a picture, a material and a
 * skin are there to be left out.
 */
export function glb(solid: Solid, node: object = {}, change: object = {}): Uint8Array<ArrayBuffer> {
  const positionBytes = solid.positions.byteLength;
  const binary = new Uint8Array(positionBytes + solid.indices.byteLength);
  binary.set(new Uint8Array(solid.positions.buffer, solid.positions.byteOffset, positionBytes));
  binary.set(new Uint8Array(solid.indices.buffer, solid.indices.byteOffset, solid.indices.byteLength), positionBytes);
  const document = {
    asset: { version: "2.0" },
    scene: 0,
    scenes: [{ nodes: [0] }],
    nodes: [{ mesh: 0, ...node }],
    meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1, material: 0 }] }],
    materials: [{ pbrMetallicRoughness: { baseColorTexture: { index: 0 } } }],
    textures: [{ source: 0 }],
    images: [{ uri: "https://example.org/picture.png" }],
    accessors: [
      { bufferView: 0, componentType: 5126, count: solid.positions.length / 3, type: "VEC3", ...bounds(solid) },
      { bufferView: 1, componentType: 5125, count: solid.indices.length, type: "SCALAR" },
    ],
    bufferViews: [
      { buffer: 0, byteOffset: 0, byteLength: positionBytes },
      { buffer: 0, byteOffset: positionBytes, byteLength: solid.indices.byteLength },
    ],
    buffers: [{ byteLength: binary.length }],
    ...change,
  };
  let json = JSON.stringify(document);
  json += " ".repeat((4 - (json.length % 4)) % 4);
  const bytes = new Uint8Array(12 + 8 + json.length + 8 + binary.length);
  const view = new DataView(bytes.buffer);
  const words = [0x46546c67, 2, bytes.length, json.length, 0x4e4f534a];
  for (const [i, word] of words.entries()) view.setUint32(4 * i, word, true);
  bytes.set(encode(json), 20);
  view.setUint32(20 + json.length, binary.length, true);
  view.setUint32(24 + json.length, 0x004e4942, true);
  bytes.set(binary, 28 + json.length);
  return bytes;
}

function vertices(solid: Solid): Vec3[] {
  return Array.from({ length: solid.positions.length / 3 }, (_, i) => vertexOf(solid, i));
}

function triangles(solid: Solid): [Vec3, Vec3, Vec3][] {
  return Array.from({ length: solid.indices.length / 3 }, (_, t) => cornersOf(solid, t));
}

function indexTriples(solid: Solid): number[][] {
  return Array.from({ length: solid.indices.length / 3 }, (_, t) => [...solid.indices.subarray(3 * t, 3 * t + 3)]);
}
