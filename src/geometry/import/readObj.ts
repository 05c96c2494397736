import type { BufferGeometry, Mesh } from "three";
import { OBJLoader } from "three/examples/jsm/loaders/OBJLoader.js";

/** Corners of the triangles of all objects in the file, 9 coordinates each, in the file's unit. Lines and points are left out. */
export function readObj(bytes: Uint8Array): Float32Array {
  const parts: Float32Array[] = [];
  new OBJLoader().parse(new TextDecoder().decode(bytes)).traverse((object) => {
    const mesh = object as Mesh<BufferGeometry>;
    const position = mesh.isMesh ? mesh.geometry.getAttribute("position") : undefined;
    if (position) parts.push(position.array as Float32Array);
  });
  const corners = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    corners.set(part, at);
    at += part.length;
  }
  return corners;
}
