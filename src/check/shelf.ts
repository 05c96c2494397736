import type { Motion } from "../clearance/types.ts";
import type { Solid } from "../geometry/solid.ts";

/** Values by a name that tells all they depend on. Kept is what was asked for since the last turn or between the two before. */
export class Kept<T> {
  #now = new Map<string, T>();
  #before = new Map<string, T>();

  recall(name: string, make: () => T): T {
    let value = this.#now.get(name);
    if (value === undefined) {
      value = this.#before.get(name) ?? make();
      this.#now.set(name, value);
    }
    return value;
  }

  /** The last value of that name becomes `value`, unless it was one alike. Gives what is kept. */
  settle(name: string, value: T, alike: (last: T, value: T) => boolean): T {
    const last = this.#now.get(name) ?? this.#before.get(name);
    const settled = last !== undefined && alike(last, value) ? last : value;
    this.#now.set(name, settled);
    return settled;
  }

  turn(): void {
    this.#before = this.#now;
    this.#now = new Map();
  }
}

/**
 * What one check leaves to the next, so that an edit costs only what it touches: each by what it depends on, never by the
 * document. It holds as much as two checks use. One shelf for checks that follow each other on one thread.
 */
export class CheckShelf {
  /** By content, and mirror images by the content of what they mirror. */
  readonly solids = new Kept<Solid>();
  /** How far a body's points get from an axis or a point. */
  readonly reaches = new Kept<number>();
  /** Motions of the powertrain at shares of its way to a pose, by the share. */
  readonly ways = new Kept<Map<number, Motion>>();
  readonly #motions = new Kept<Motion>();

  /** The motion of that name in the check before if it is the same to the last bit: what is kept by object then stays. */
  sameMotion(name: string, motion: Motion): Motion {
    return this.#motions.settle(name, motion, alike);
  }

  /** A check was made ready. */
  turn(): void {
    for (const kept of [this.solids, this.reaches, this.ways, this.#motions]) kept.turn();
  }
}

/** Whether two motions are the same to the last bit. */
export function alike(last: Motion, motion: Motion): boolean {
  return sameNumbers(last.travel_mm, motion.travel_mm) && sameNumbers(last.poses, motion.poses);
}

export function sameNumbers(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** The value of that name, made and kept if there is none. */
export function recall<K, T>(kept: Map<K, T>, name: K, make: () => T): T {
  let value = kept.get(name);
  if (value === undefined) {
    value = make();
    kept.set(name, value);
  }
  return value;
}
