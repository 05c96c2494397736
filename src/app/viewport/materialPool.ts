import type { Material } from "three";

/**
 * Materials that no mesh wears just now, to be worn again: the last material of a kind that is disposed takes its compiled
 * program with it, and the next one would make the page wait for the compiler in the middle of a pull.
 */
export class MaterialPool<Kind extends Material> {
  readonly #make: () => Kind;
  readonly #spare: Kind[] = [];

  constructor(make: () => Kind) {
    this.#make = make;
  }

  take(): Kind {
    return this.#spare.pop() ?? this.#make();
  }

  giveBack(material: Kind): void {
    this.#spare.push(material);
  }

  /** Of those that are not worn. */
  dispose(): void {
    for (const material of this.#spare) material.dispose();
    this.#spare.length = 0;
  }
}
