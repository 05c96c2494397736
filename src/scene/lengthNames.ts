import { nearestOf } from "./nearest.ts";
import { shortQuote } from "./path.ts";

/** A name in a sum gives way to one character of the private-use area, so that what a name holds is not read as figures. */
const FIRST = 0xe000;
export const PLACEHOLDER = /[\uE000-\uF8FF]/y;
export const ANY_PLACEHOLDER = /[\uE000-\uF8FF]/;

export function placeholderIndex(character: string): number {
  return character.charCodeAt(0) - FIRST;
}

export type NameFault =
  /** Nothing stands behind the =; a point that there is. */
  | { readonly code: "no-name"; readonly example: string }
  /** Behind this point the sum must go on with a sign. */
  | { readonly code: "no-sign"; readonly name: string }
  /** What is no point; the one that was meant, or some that there are. */
  | {
      readonly code: "missing-point";
      readonly word: string;
      readonly nearest: string | null;
      readonly known: readonly string[];
    };

export type ReplacedNames =
  | { readonly ok: true; readonly text: string; readonly names: readonly string[] }
  | ({ readonly ok: false } & NameFault);

/** So many points are named where none is near to what was typed. */
const MOST_KNOWN = 3;

const GAP = /[\s]*[+\-−–]?[\s]*/y;
const FIGURES = /[\d.,][^+\-−–]*/y;
/** A name ends where the sum goes on or ends. */
const AFTER_NAME = /^\s*(?:$|[+\-−–])/;

/**
 * The names of points in a sum, the longest that fits first: `left-rail - 3` is 3 below the point `left-rail` where there
 * is one. A name that begins with a figure is written in quotation marks.
 */
export function namesReplaced(sum: string, known: readonly string[]): ReplacedNames {
  if (sum === "") {
    return { ok: false, code: "no-name", example: known[0] ?? "point" };
  }
  const longestFirst = [...known].sort((a, b) => b.length - a.length);
  const names: string[] = [];
  let text = "";
  let at = 0;
  while (at < sum.length) {
    const from = at;
    take(GAP);
    take(FIGURES);
    text += sum.slice(from, at);
    if (at >= sum.length || /[+\-−–]/.test(sum[at]!)) {
      if (at === from) break;
      continue;
    }
    const quoted = /^["“”]/.test(sum.slice(at));
    const rest = sum.slice(quoted ? at + 1 : at);
    const name = longestFirst.find((candidate) => endsAfter(rest, candidate, quoted));
    if (name === undefined) return unknown(rest, quoted);
    names.push(name);
    text += String.fromCharCode(FIRST + names.length - 1);
    at += name.length + (quoted ? 2 : 0);
  }
  return { ok: true, text, names };

  function take(pattern: RegExp): void {
    pattern.lastIndex = at;
    at += pattern.exec(sum)?.[0].length ?? 0;
  }

  function unknown(rest: string, quoted: boolean): ReplacedNames {
    const begun = quoted ? undefined : longestFirst.find((name) => rest.startsWith(`${name} `));
    if (begun !== undefined) {
      return { ok: false, code: "no-sign", name: begun };
    }
    const word = (quoted ? rest.split(/["“”]/, 1)[0]! : rest.split(/\s*\+|\s+[-−–]\s*/, 1)[0]!).trim();
    const nearest = nearestOf(word, known) ?? null;
    return { ok: false, code: "missing-point", word: shortQuote(word), nearest, known: known.slice(0, MOST_KNOWN) };
  }
}

function endsAfter(rest: string, name: string, quoted: boolean): boolean {
  if (!rest.startsWith(name)) return false;
  const behind = rest.slice(name.length);
  return quoted ? /^["“”]/.test(behind) && AFTER_NAME.test(behind.slice(1)) : AFTER_NAME.test(behind);
}
