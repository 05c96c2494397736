import type * as z from "zod";
import { InputError, type InputErrorCode } from "./error.ts";
import { describe, jsonPath, shortQuote } from "./path.ts";

type Issue = z.core.$ZodIssue;

/**
 * Turns what the schema found into one InputError. Of several faults an unknown key is told first, because a mistyped
 * key shows up as a missing one too.
 */
export function explain(issues: readonly Issue[], value: unknown, file: string): InputError {
  const deepest = issues.map(deepestIssue);
  const issue = deepest.find((candidate) => candidate.code === "unrecognized_keys") ?? deepest[0]!;
  const path = [...issue.path];
  if (issue.code === "unrecognized_keys") {
    path.push(issue.keys[0]!);
    return error("unknown-key", path, `unknown key ${shortQuote(issue.keys[0]!)}`, issue.message);
  }
  const found = valueAt(value, path);
  if (issue.code === "invalid_key") {
    const wanted = issue.issues[0]?.message ?? issue.message;
    return error("wrong-value", path, `the name ${shortQuote(String(path.at(-1)))} cannot be used`, wanted);
  }
  if (issue.code === "invalid_union" && issue.discriminator !== undefined) {
    const options = (issue as { options?: readonly unknown[] }).options ?? [];
    return error("wrong-value", path, describe(found), `one of ${options.join(", ")}`);
  }
  return error("wrong-value", path, describe(found), issue.message);

  function error(code: InputErrorCode, at: readonly PropertyKey[], wrong: string, wanted: string): InputError {
    return new InputError(code, { file, path: jsonPath(at) }, wrong, wanted);
  }
}

/** Goes into the branch of a union that the value was evidently meant for: the one that got past the outermost type. */
function deepestIssue(issue: Issue): Issue {
  if (issue.code !== "invalid_union") return issue;
  for (const branch of issue.errors) {
    const inner = branch.find((candidate) => candidate.code === "unrecognized_keys") ?? branch[0];
    if (inner === undefined || (inner.code === "invalid_type" && inner.path.length === 0)) continue;
    return deepestIssue({ ...inner, path: [...issue.path, ...inner.path] });
  }
  return issue;
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  let at = value;
  for (const key of path) {
    if (typeof at !== "object" || at === null || !Object.hasOwn(at, key)) return undefined;
    at = (at as Record<PropertyKey, unknown>)[key];
  }
  return at;
}
