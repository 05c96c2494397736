import type { Shape } from "../scene/scene.ts";
import type { ShapeContext } from "./context.ts";
import type { Solid } from "./solid.ts";

/** A shape of the scene, or one of the two parts that a wheel is made of. */
export type ContentShape = Shape | { readonly kind: "tyre" | "rim" };

/**
 * Names what `buildSolid`, `buildTyre` and `buildRim` would make: equal keys mean equal solids, in every session. It is
 * the short name of the record itself with its keys in order, and of the context no more than the shape uses.
 */
export function contentKey(shape: ContentShape, context: ShapeContext): string {
  const files = new Set<string>();
  const wheel = { used: false };
  gather(shape, files, wheel);
  const record = {
    shape,
    tessellation_mm: context.tessellation_mm,
    wheel: wheel.used ? context.wheel : null,
    meshes: [...files].sort().map((file) => {
      const solid = context.meshFiles.get(file);
      return [file, solid ? solidHash(solid) : null];
    }),
  };
  return shortName(stableText(record));
}

function gather(shape: ContentShape, files: Set<string>, wheel: { used: boolean }): void {
  if (shape.kind === "wheel" || shape.kind === "tyre" || shape.kind === "rim") wheel.used = true;
  else if (shape.kind === "mesh") files.add(shape.file);
  else if (shape.kind === "group") for (const part of shape.parts) gather(part, files, wheel);
}

/** Plain data as text, objects with their keys in alphabetical order. Equal text means equal data. */
function stableText(value: unknown): string {
  if (typeof value === "number") return `${value}`;
  if (value === null || typeof value !== "object") return JSON.stringify(value) ?? "null";
  let text = "";
  if (Array.isArray(value)) {
    for (const item of value) text += `${stableText(item)},`;
    return `[${text}]`;
  }
  const record = value as Readonly<Record<string, unknown>>;
  for (const key of Object.keys(record).sort()) {
    if (record[key] !== undefined) text += `${key}:${stableText(record[key])},`;
  }
  return `{${text}}`;
}

/**
 * 128 bits over a text, in hexadecimal (four runs like those of solidHash): names that are kept and joined by the thousand
 * should not be as long as what they name. Two texts of one name do not come by chance.
 */
export function shortName(text: string): string {
  let [a, b, c, d] = [0x811c9dc5 ^ text.length, 0x9747b28c, 0x3c6ef372, 0xa54ff53a];
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    a = stirred(a, unit);
    b = stirred(b, unit);
    c = stirred(c, unit);
    d = stirred(d, unit);
  }
  return hex(a) + hex(b) + hex(c) + hex(d);
}

const hashes = new WeakMap<Solid, string>();

/** 64 bits over a solid's vertices and triangles, in hexadecimal (two FNV-1a runs over 32-bit words). */
export function solidHash(solid: Solid): string {
  let hash = hashes.get(solid);
  if (hash === undefined) {
    const { positions } = solid;
    const words = new Uint32Array(positions.buffer, positions.byteOffset, positions.length);
    const half = (seed: number) => fold(solid.indices, fold(words, seed));
    hash = hex(half(0x811c9dc5)) + hex(half(0x9747b28c));
    hashes.set(solid, hash);
  }
  return hash;
}

function hex(word: number): string {
  return (word >>> 0).toString(16).padStart(8, "0");
}

function fold(words: Uint32Array, seed: number): number {
  let hash = Math.imul(seed ^ words.length, 0x01000193);
  for (const word of words) hash = stirred(hash, word);
  return hash;
}

function stirred(hash: number, word: number): number {
  const product = Math.imul(hash ^ word, 0x01000193);
  // multiplication alone carries nothing downward
  return product ^ (product >>> 15);
}
