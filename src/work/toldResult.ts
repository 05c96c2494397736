import type { CheckResult, PairVerdict } from "../check/result.ts";
import type { PairsDone } from "./protocol.ts";

/** A result with a name of its own among all that are told. */
export interface NamedResult {
  readonly name: string;
  readonly result: CheckResult;
}

/** A result on its way to the page. */
export interface ToldResult {
  readonly name: string;
  readonly rest: Omit<CheckResult, "pairs">;
  /** In their order; the place in the result that the page has, where the verdict is the same to the last bit. */
  readonly pairs: readonly (PairVerdict | number)[];
}

/** Progress on its way to the page. */
export type ToldProgress = PairsDone & { readonly soFar?: ToldResult; readonly verdicts?: ToldResult };

/** Results that the page may still have: of one check the verdicts and the result, and those of the check before. */
const MOST_KEPT = 4;

/** The worker's end: an edit leaves most verdicts as they were, and these need not cross again. */
export class ResultTeller {
  #kept: readonly NamedResult[] = [];

  /** `have`: name of a result that the page has; null: none. */
  tell(named: NamedResult, have: string | null): ToldResult {
    const told = this.tellOnce(named, have);
    this.#kept = [...this.#kept, named].slice(-MOST_KEPT);
    return told;
  }

  /** The same for a result that will not be built upon. */
  tellOnce(named: NamedResult, have: string | null): ToldResult {
    const base = this.#kept.find(({ name }) => name === have)?.result.pairs ?? [];
    const places = new Map(base.map((pair, place) => [keyOf(pair), place]));
    const { pairs, ...rest } = named.result;
    return {
      name: named.name,
      rest,
      pairs: pairs.map((pair) => {
        const place = places.get(keyOf(pair));
        return place !== undefined && isSame(pair, base[place]) ? place : pair;
      }),
    };
  }
}

/** The page's end: what is the same is the same object, so that nothing is drawn anew for it. */
export function heardResult({ name, rest, pairs }: ToldResult, base: NamedResult | null): NamedResult {
  const had = base?.result.pairs ?? [];
  return { name, result: { ...rest, pairs: pairs.map((pair) => (typeof pair === "number" ? had[pair]! : pair)) } };
}

function keyOf({ side, keys }: PairVerdict): string {
  return `${side}|${keys[0]}|${keys[1]}`;
}

/** Equal in every number to the last bit; of records and lists, as results are made of. */
function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  const names = Object.keys(a);
  if (names.length !== Object.keys(b).length) return false;
  return names.every((name) => isSame(a[name as never], b[name as never]));
}
