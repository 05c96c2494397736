import { type BufferGeometry, type InstancedMesh, Matrix4, type Mesh, Vector3 } from "three";
import { GLTFLoader } from "three/examples/jsm/loaders/GLTFLoader.js";
import { meshFault } from "./meshFault.ts";
import { type ReadShare, TELL_EVERY } from "./readShare.ts";

const GLB_MAGIC = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;

/**
 * Corners of all triangles of the scene in the file, 9 coordinates each, in the file's unit (metres by the standard) and
 * in the car's axes: glTF's (x, y, z), Y up and Z forward (glTF 2.0 §3.4), is the car's (z, x, y). What it looks like
 * (materials, pictures, bones, motion) is left out before the loader sees it; nothing outside the file is fetched.
 */
export async function readGlb(bytes: Uint8Array, fileName: string, onShare?: ReadShare): Promise<Float64Array> {
  const bare = geometryOnly(bytes, fileName);
  const { scene } = await new GLTFLoader().parseAsync(bare, "");
  onShare?.(0.5);
  scene.updateMatrixWorld(true);
  const parts: Float64Array[] = [];
  scene.traverse((object) => {
    const mesh = object as Mesh<BufferGeometry>;
    if (!mesh.isMesh) return;
    for (const place of placesOf(mesh)) {
      parts.push(cornersOf(mesh.geometry, place, onShare));
    }
  });
  const corners = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    corners.set(part, at);
    at += part.length;
  }
  return corners;
}

function placesOf(mesh: Mesh): Matrix4[] {
  const instanced = mesh as unknown as InstancedMesh;
  if (!instanced.isInstancedMesh) return [mesh.matrixWorld];
  return Array.from({ length: instanced.count }, (_, i) => {
    const place = new Matrix4();
    instanced.getMatrixAt(i, place);
    return place.premultiply(mesh.matrixWorld);
  });
}

function cornersOf(geometry: BufferGeometry, place: Matrix4, onShare?: ReadShare): Float64Array {
  const position = geometry.getAttribute("position");
  const count = geometry.index?.count ?? position.count;
  const corners = new Float64Array(3 * count);
  const p = new Vector3();
  for (let i = 0; i < count; i++) {
    if (i % TELL_EVERY === 0) onShare?.((1 + i / count) / 2);
    p.fromBufferAttribute(position, geometry.index ? geometry.index.getX(i) : i).applyMatrix4(place);
    corners[3 * i] = p.z;
    corners[3 * i + 1] = p.x;
    corners[3 * i + 2] = p.y;
  }
  return corners;
}

type Json = Record<string, unknown>;

/** The same GLB with the JSON cut down to nodes, meshes and their positions. */
function geometryOnly(bytes: Uint8Array, fileName: string): ArrayBuffer {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const faulty = (wrong: string) => meshFault(fileName, wrong, "a GLB file (glTF 2.0, binary)");
  if (bytes.length < 20 || view.getUint32(0, true) !== GLB_MAGIC) throw faulty("it does not begin like a GLB file");
  const jsonBytes = view.getUint32(12, true);
  if (
    view.getUint32(16, true) !== JSON_CHUNK ||
    20 + jsonBytes > bytes.length ||
    view.getUint32(8, true) > bytes.length
  ) {
    throw faulty("the file breaks off or its first part is not JSON");
  }
  const json = JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + jsonBytes))) as Json;
  for (const extension of (json.extensionsRequired as string[] | undefined) ?? []) {
    if (/compression/.test(extension)) {
      throw meshFault(fileName, `it is compressed (${extension})`, "a GLB file exported without compression");
    }
  }
  if (((json.buffers as Json[] | undefined) ?? []).some((buffer) => typeof buffer.uri === "string")) {
    throw meshFault(fileName, "its geometry lies in another file", "a GLB file that holds everything");
  }
  const text = new TextEncoder().encode(JSON.stringify(stripped(json)));
  const padded = Math.ceil(text.length / 4) * 4;
  const rest = bytes.subarray(20 + jsonBytes, view.getUint32(8, true));
  const bare = new Uint8Array(20 + padded + rest.length).fill(0x20, 20, 20 + padded);
  const head = new DataView(bare.buffer);
  for (const [i, word] of [GLB_MAGIC, 2, bare.length, padded, JSON_CHUNK].entries()) head.setUint32(4 * i, word, true);
  bare.set(text, 20);
  bare.set(rest, 20 + padded);
  return bare.buffer;
}

function stripped(json: Json): Json {
  const kept = ["asset", "scene", "scenes", "nodes", "meshes", "accessors", "bufferViews", "buffers", "extensionsUsed"];
  const bare: Json = Object.fromEntries(kept.filter((key) => key in json).map((key) => [key, json[key]]));
  bare.nodes = list(json.nodes).map(({ skin: _skin, camera: _camera, ...node }) => node);
  bare.meshes = list(json.meshes).map((mesh) => ({
    primitives: list(mesh.primitives).map(({ attributes, indices, mode }) => ({
      attributes: { POSITION: (attributes as Json | undefined)?.POSITION },
      indices,
      mode,
    })),
  }));
  return bare;
}

function list(value: unknown): Json[] {
  return (value as Json[] | undefined) ?? [];
}
