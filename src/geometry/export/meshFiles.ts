import { BufferAttribute, BufferGeometry, Group, Mesh } from "three";
import { OBJExporter } from "three/examples/jsm/exporters/OBJExporter.js";
import { STLExporter } from "three/examples/jsm/exporters/STLExporter.js";

/** Triangles under a name: 3 coordinates a vertex, mm; 3 vertices a triangle, counterclockwise from outside. */
export interface NamedMesh {
  readonly key: string;
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
}

/** One mesh as binary STL. */
export function stlOf(mesh: NamedMesh): Uint8Array<ArrayBuffer> {
  const view = new STLExporter().parse(meshOf(mesh), { binary: true });
  return new Uint8Array(view.buffer as ArrayBuffer);
}

/** All as one Wavefront OBJ, an object each. */
export function objOf(meshes: readonly NamedMesh[]): string {
  const all = new Group();
  for (const mesh of meshes) all.add(meshOf(mesh));
  all.updateMatrixWorld(true);
  return new OBJExporter().parse(all);
}

function meshOf({ key, positions, indices }: NamedMesh): Mesh {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(positions, 3));
  geometry.setIndex(new BufferAttribute(indices, 1));
  const mesh = new Mesh(geometry);
  mesh.name = key;
  mesh.updateMatrixWorld(true);
  return mesh;
}
