import fc from "fast-check";
import type { Door, Handed } from "./door.ts";

/** The case of that number: always the same for one seed. */
export function caseOf(door: Door, seed: number, index: number): Handed {
  const mixed = Math.imul(seed ^ Math.imul(index + 1, 0x9e3779b1), 0x85ebca6b) | 0;
  return fc.sample(door.cases, { seed: mixed, numRuns: 1 })[0]!;
}
