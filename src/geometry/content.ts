import type { Poll } from "../maths/poll.ts";
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
    leastBendSteps: context.leastBendSteps,
    wheel: wheel.used ? context.wheel : null,
    meshes: [...files].sort().map((file) => {
      const solid = context.meshFiles.get(file);
      return [file, solid ? solidHash(solid) : null];
    }),
  };
  const stir = new Stir();
  stir.data(record);
  return stir.name();
}

function gather(shape: ContentShape, files: Set<string>, wheel: { used: boolean }): void {
  if (shape.kind === "wheel" || shape.kind === "tyre" || shape.kind === "rim") wheel.used = true;
  else if (shape.kind === "mesh") files.add(shape.file);
  else if (shape.kind === "group") for (const part of shape.parts) gather(part, files, wheel);
}

/** 128 bits over a text, in hexadecimal (four runs like those of solidHash): a short name for it, to keep and join by the thousand. */
export function shortName(text: string): string {
  const stir = new Stir();
  stir.text(text);
  return stir.name();
}

/** Stirs plain data into 128 bits, of objects their keys in alphabetical order. Other data of the same name does not come by chance. */
class Stir {
  #a = 0x811c9dc5;
  #b = 0x9747b28c;
  #c = 0x3c6ef372;
  #d = 0xa54ff53a;
  readonly #double = new Float64Array(1);
  readonly #words = new Uint32Array(this.#double.buffer);

  /** Each kind of data begins with a word of its own, and tells how much of it follows. */
  data(value: unknown): void {
    if (typeof value === "number") this.#number(value);
    else if (typeof value === "string") this.text(value);
    else if (Array.isArray(value)) {
      this.#word(2);
      this.#word(value.length);
      for (let i = 0; i < value.length; i++) this.data(value[i]);
    } else if (typeof value === "object" && value !== null) this.#record(value as Readonly<Record<string, unknown>>);
    else {
      this.#word(4);
      this.text(String(value));
    }
  }

  text(value: string): void {
    this.#word(1);
    this.#word(value.length);
    for (let i = 0; i < value.length; i++) this.#word(value.charCodeAt(i));
  }

  name(): string {
    return hex(this.#a) + hex(this.#b) + hex(this.#c) + hex(this.#d);
  }

  #number(value: number): void {
    this.#word(0);
    // −0 is no other number
    this.#double[0] = value + 0;
    this.#word(this.#words[0]!);
    this.#word(this.#words[1]!);
  }

  #record(value: Readonly<Record<string, unknown>>): void {
    const keys = Object.keys(value).filter((key) => value[key] !== undefined);
    this.#word(3);
    this.#word(keys.length);
    for (const key of keys.sort()) {
      this.text(key);
      this.data(value[key]);
    }
  }

  #word(word: number): void {
    this.#a = stirred(this.#a, word);
    this.#b = stirred(this.#b, word);
    this.#c = stirred(this.#c, word);
    this.#d = stirred(this.#d, word);
  }
}

/** Some milliseconds. */
const WORDS_A_POLL = 1 << 19;

const hashes = new WeakMap<Solid, string>();

/** 64 bits over a solid's vertices and triangles, in hexadecimal (two FNV-1a runs over 32-bit words). */
export function solidHash(solid: Solid, poll?: Poll): string {
  let hash = hashes.get(solid);
  if (hash === undefined) {
    // what stands for a mesh that is not read is told apart by what is said of it
    if (solid.refused) return shortName(JSON.stringify(solid.refused));
    const { positions } = solid;
    const words = new Uint32Array(positions.buffer, positions.byteOffset, positions.length);
    const half = (seed: number) => fold(solid.indices, fold(words, seed, poll), poll);
    hash = hex(half(0x811c9dc5)) + hex(half(0x9747b28c));
    hashes.set(solid, hash);
  }
  return hash;
}

function hex(word: number): string {
  return (word >>> 0).toString(16).padStart(8, "0");
}

function fold(words: Uint32Array, seed: number, poll?: Poll): number {
  let hash = Math.imul(seed ^ words.length, 0x01000193);
  for (let from = 0; from < words.length; from += WORDS_A_POLL) {
    const to = Math.min(words.length, from + WORDS_A_POLL);
    for (let i = from; i < to; i++) hash = stirred(hash, words[i]!);
    poll?.();
  }
  return hash;
}

function stirred(hash: number, word: number): number {
  const product = Math.imul(hash ^ word, 0x01000193);
  // multiplication alone carries nothing downward
  return product ^ (product >>> 15);
}
