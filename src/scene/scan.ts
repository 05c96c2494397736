import { InputError } from "./error.ts";
import { DEEPEST_NESTING, refuseKey } from "./json.ts";
import { childPath } from "./path.ts";

const RESERVED_KEYS = new Set(["__proto__", "constructor", "prototype"]);

/**
 * What must hold before a value from outside is looked at any closer: every number finite (JSON has no NaN, but 1e999
 * reads as Infinity), no key that names JavaScript's own machinery, nesting within DEEPEST_NESTING. Throws InputError.
 */
export function scanValue(value: unknown, file: string, path = "", depth = 0): void {
  if (typeof value === "number") {
    if (!Number.isFinite(value))
      throw new InputError("not-finite", { file, path }, "is not a finite number", "a finite number");
    return;
  }
  if (typeof value !== "object" || value === null) return;
  if (depth >= DEEPEST_NESTING) {
    throw new InputError(
      "wrong-value",
      { file, path: path.slice(0, 80) },
      "is nested too deeply",
      `at most ${DEEPEST_NESTING} levels`,
    );
  }
  if (Array.isArray(value)) {
    for (const [i, item] of value.entries()) scanValue(item, file, childPath(path, i), depth + 1);
    return;
  }
  for (const [key, item] of Object.entries(value)) {
    if (RESERVED_KEYS.has(key)) refuseKey(file, childPath(path, key), key);
    scanValue(item, file, childPath(path, key), depth + 1);
  }
}
