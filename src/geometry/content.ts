import type { Shape } from "../scene/scene.ts";
import type { ShapeContext } from "./context.ts";
import type { Solid } from "./solid.ts";

/** A shape of the scene, or one of the two parts that a wheel is made of. */
export type ContentShape = Shape | { readonly kind: "tyre" | "rim" };

/**
 * Names what `buildSolid`, `buildTyre` and `buildRim` would make: equal keys mean equal solids, in every session. It is
 * the record itself with its keys in order, and of the context no more than the shape uses.
 */
export function contentKey(shape: ContentShape, context: ShapeContext): string {
  const files = new Set<string>();
  const wheel = { used: false };
  gather(shape, files, wheel);
  return stableJson({
    shape,
    tessellation_mm: context.tessellation_mm,
    wheel: wheel.used ? context.wheel : null,
    meshes: [...files].sort().map((file) => {
      const solid = context.meshFiles.get(file);
      return [file, solid ? solidHash(solid) : null];
    }),
  });
}

function gather(shape: ContentShape, files: Set<string>, wheel: { used: boolean }): void {
  if (shape.kind === "wheel" || shape.kind === "tyre" || shape.kind === "rim") wheel.used = true;
  else if (shape.kind === "mesh") files.add(shape.file);
  else if (shape.kind === "group") for (const part of shape.parts) gather(part, files, wheel);
}

/** JSON whose objects list their keys in alphabetical order. */
export function stableJson(value: unknown): string {
  return JSON.stringify(value, (_key, inner: unknown) =>
    inner !== null && typeof inner === "object" && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}

const hashes = new WeakMap<Solid, string>();

/** 64 bits over a solid's vertices and triangles, in hexadecimal (two FNV-1a runs over 32-bit words). */
export function solidHash(solid: Solid): string {
  let hash = hashes.get(solid);
  if (hash === undefined) {
    const { positions } = solid;
    const words = new Uint32Array(positions.buffer, positions.byteOffset, positions.length);
    const half = (seed: number) => fold(solid.indices, fold(words, seed));
    hash = [half(0x811c9dc5), half(0x9747b28c)].map((part) => part.toString(16).padStart(8, "0")).join("");
    hashes.set(solid, hash);
  }
  return hash;
}

function fold(words: Uint32Array, seed: number): number {
  let hash = Math.imul(seed ^ words.length, 0x01000193);
  for (const word of words) {
    hash = Math.imul(hash ^ word, 0x01000193);
    // multiplication alone carries nothing downward
    hash ^= hash >>> 15;
  }
  return hash >>> 0;
}
