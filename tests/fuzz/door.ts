import type fc from "fast-check";

/** What somebody hands in: a file as bytes or text, or what they typed. */
export interface Handed {
  readonly file: string;
  readonly content: Uint8Array | string;
}

/** A way by which something from outside comes into the program. */
export interface Door {
  readonly name: string;
  /** Cases of it in every thousand. */
  readonly share: number;
  /** The ending of a case that is saved. */
  readonly ending: string;
  readonly cases: fc.Arbitrary<Handed>;
  /**
   * Reads it as the app or the terminal does. Resolves when that gave a true reading, having asserted what holds for it;
   * rejects with the program's own refusal, or with what must not be.
   */
  open(handed: Handed): Promise<void>;
}

/** What the program refused in words alone, which were judged. */
export class Refused extends Error {
  override readonly name = "Refused";
}

/** A reading that is not true. */
export class Untrue extends Error {
  override readonly name = "Untrue";
}

export function holds(isTrue: boolean, what: string): void {
  if (!isTrue) throw new Untrue(what);
}
