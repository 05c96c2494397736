import { BufferAttribute, BufferGeometry } from "three";
import type { ModelBody } from "../../check/model.ts";
import { type DrawnBody, drawing } from "../../work/drawn.ts";

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

function drawable(body: DrawnBody): BufferGeometry {
  const { positions, normals, indices } = body.drawn ?? drawing(body);
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(positions, 3));
  geometry.setAttribute("normal", new BufferAttribute(normals, 3));
  geometry.setIndex(new BufferAttribute(indices, 1));
  geometry.computeBoundingSphere();
  return geometry;
}
