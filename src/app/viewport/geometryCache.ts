import { BufferAttribute, BufferGeometry } from "three";
import type { ModelBody } from "../../check/model.ts";
import { creaseNormals, type ShadedMesh } from "../../geometry/creaseNormals.ts";
import type { DrawnBody } from "../../work/drawn.ts";
import { tyreMesh } from "./tyreLook.ts";

/** Drawable geometry of bodies, one for equal content; released when no body of the newest list has it. */
export class GeometryCache {
  readonly #byContent = new Map<string, BufferGeometry>();

  get(body: DrawnBody): BufferGeometry {
    const key = contentKey(body);
    let geometry = this.#byContent.get(key);
    if (geometry === undefined) {
      geometry = drawable(body);
      this.#byContent.set(key, geometry);
    }
    return geometry;
  }

  keepOnly(bodies: readonly ModelBody[]): void {
    const wanted = new Set(bodies.map(contentKey));
    for (const [key, geometry] of this.#byContent) {
      if (wanted.has(key)) continue;
      geometry.dispose();
      this.#byContent.delete(key);
    }
  }

  dispose(): void {
    this.keepOnly([]);
  }
}

function contentKey(body: ModelBody): string {
  return `${body.look ?? ""}|${body.content}`;
}

/** What the workshop has drawn of a body, or the drawing where the eye sees something else than the solid. */
function shaded(body: DrawnBody): ShadedMesh {
  if (body.drawn) return body.drawn;
  const mesh = (body.look === "tyre" ? tyreMesh(body.solid) : null) ?? body.solid;
  return creaseNormals(mesh.positions, mesh.indices);
}

function drawable(body: DrawnBody): BufferGeometry {
  const { positions, normals, indices } = shaded(body);
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(positions, 3));
  geometry.setAttribute("normal", new BufferAttribute(normals, 3));
  geometry.setIndex(new BufferAttribute(indices, 1));
  geometry.computeBoundingSphere();
  return geometry;
}
