import type { CheckResult, PairVerdict } from "../../check/result.ts";
import { pairKey } from "./state.ts";

const found = new WeakMap<CheckResult, ReadonlyMap<string, PairVerdict>>();

/** The pairs of a result by pairKey; looked up at every change of the store, so each result is gone through once. */
export function pairsByKey(result: CheckResult): ReadonlyMap<string, PairVerdict> {
  let pairs = found.get(result);
  if (!pairs) {
    pairs = new Map(result.pairs.map((pair) => [pairKey(pair), pair]));
    found.set(result, pairs);
  }
  return pairs;
}
