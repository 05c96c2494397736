import { type BufferGeometry, type InstancedMesh, Matrix4, type Mesh, Vector3 } from "three";
import { GLTFLoader } from "three/examples/jsm/loaders/GLTFLoader.js";
import { refuseHeavyJson } from "../../scene/jsonWeight.ts";
import { shortQuote } from "../../scene/path.ts";
import { glbDocument } from "./glbDocument.ts";
import { meshFault } from "./meshFault.ts";
import { type ReadShare, TELL_EVERY } from "./readShare.ts";

const GLB_MAGIC = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;
const BINARY_CHUNK = 0x004e4942;

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
      parts.push(cornersOf(mesh.geometry, place, fileName, onShare));
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

function cornersOf(geometry: BufferGeometry, place: Matrix4, fileName: string, onShare?: ReadShare): Float64Array {
  const position = geometry.getAttribute("position");
  const count = geometry.index?.count ?? position.count;
  const corners = new Float64Array(3 * count);
  const p = new Vector3();
  for (let i = 0; i < count; i++) {
    if (i % TELL_EVERY === 0) onShare?.((1 + i / count) / 2);
    const vertex = geometry.index ? geometry.index.getX(i) : i;
    if (!(vertex < position.count)) {
      throw meshFault(fileName, `a face names vertex ${vertex}, which is not there`, "faces of vertices in the file");
    }
    p.fromBufferAttribute(position, vertex).applyMatrix4(place);
    corners[3 * i] = p.z;
    corners[3 * i + 1] = p.x;
    corners[3 * i + 2] = p.y;
  }
  return corners;
}

/** The same GLB with the JSON cut down to nodes, meshes and their positions, and whole. */
function geometryOnly(bytes: Uint8Array, fileName: string): ArrayBuffer {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const faulty = (wrong: string) => meshFault(fileName, wrong, "a GLB file (glTF 2.0, binary)");
  if (bytes.length < 20 || view.getUint32(0, true) !== GLB_MAGIC) throw faulty("it does not begin like a GLB file");
  const end = view.getUint32(8, true);
  const jsonBytes = view.getUint32(12, true);
  const jsonEnd = 20 + jsonBytes;
  if (view.getUint32(16, true) !== JSON_CHUNK || jsonEnd > bytes.length || end > bytes.length || jsonEnd > end) {
    throw faulty("the file breaks off or its first part is not JSON");
  }
  const binary = binaryPart();
  const json = parsed(new TextDecoder().decode(bytes.subarray(20, jsonEnd)));
  mustBeWhole(json);
  const text = new TextEncoder().encode(JSON.stringify(glbDocument(json, binary.length, fileName)));
  const textBytes = Math.ceil(text.length / 4) * 4;
  const binaryBytes = Math.ceil(binary.length / 4) * 4;
  const bare = new Uint8Array(20 + textBytes + 8 + binaryBytes).fill(0x20, 20, 20 + textBytes);
  const head = new DataView(bare.buffer);
  for (const [i, word] of [GLB_MAGIC, 2, bare.length, textBytes, JSON_CHUNK].entries()) {
    head.setUint32(4 * i, word, true);
  }
  bare.set(text, 20);
  head.setUint32(20 + textBytes, binaryBytes, true);
  head.setUint32(24 + textBytes, BINARY_CHUNK, true);
  bare.set(binary, 28 + textBytes);
  return bare.buffer;

  /** Comes right after the JSON, if at all (glTF 2.0, 4.4.3). */
  function binaryPart(): Uint8Array {
    if (jsonEnd + 8 > end || view.getUint32(jsonEnd + 4, true) !== BINARY_CHUNK) return new Uint8Array();
    const length = view.getUint32(jsonEnd, true);
    if (jsonEnd + 8 + length > end) throw faulty("the file breaks off within its numbers");
    return bytes.subarray(jsonEnd + 8, jsonEnd + 8 + length);
  }

  function parsed(text: string): unknown {
    refuseHeavyJson(text, fileName);
    try {
      return JSON.parse(text);
    } catch {
      throw faulty("its first part is no JSON");
    }
  }

  function mustBeWhole(json: unknown): void {
    const { extensionsRequired, buffers } = (json ?? {}) as Readonly<Record<string, unknown>>;
    for (const extension of Array.isArray(extensionsRequired) ? extensionsRequired : []) {
      if (typeof extension === "string" && /compression/.test(extension)) {
        const wrong = `it is compressed (${shortQuote(extension)})`;
        throw meshFault(fileName, wrong, "a GLB file exported without compression");
      }
    }
    for (const buffer of Array.isArray(buffers) ? buffers : []) {
      if (typeof buffer === "object" && buffer !== null && typeof Reflect.get(buffer, "uri") === "string") {
        throw meshFault(fileName, "its geometry lies in another file", "a GLB file that holds everything");
      }
    }
  }
}
