import { add, type Vec3 } from "../../src/maths/vec3.ts";
import { randomFrom } from "../clearance/kernel/meshes.ts";

/** A seeded stream of choices. */
export interface Dice {
  /** Evenly spread from `low` to `high`. */
  between(low: number, high: number): number;
  /** A whole number from 0 to count − 1. */
  below(count: number): number;
  chance(share: number): boolean;
  pick<T>(list: readonly T[]): T;
  /** Each coordinate evenly within ±spread of the place. */
  near(place: Vec3, spread: number): Vec3;
  /** A direction within some 60° of the given one at `lean` 1. */
  leaning(direction: Vec3, lean: number): Vec3;
}

export function diceOf(seed: number): Dice {
  // neighbouring seeds of the generator begin alike
  const random = randomFrom(Math.imul(seed, 0x9e3779b1) ^ 0x5bd1e995);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const below = (count: number): number => Math.floor(random() * count);
  const near = (place: Vec3, spread: number): Vec3 =>
    add(place, [between(-spread, spread), between(-spread, spread), between(-spread, spread)]);
  return {
    between,
    below,
    chance: (share) => random() < share,
    pick: (list) => list[below(list.length)]!,
    near,
    leaning: (direction, lean) => near(direction, lean),
  };
}
