import { nearestOf } from "./nearest.ts";
import { shortQuote } from "./path.ts";

/** A name in a sum gives way to one character of the private-use area, so that what a name holds is not read as figures. */
const FIRST = 0xe000;
export const PLACEHOLDER = /[\uE000-\uF8FF]/y;
export const ANY_PLACEHOLDER = /[\uE000-\uF8FF]/;

export function placeholderIndex(character: string): number {
  return character.charCodeAt(0) - FIRST;
}

export type ReplacedNames =
  | { readonly ok: true; readonly text: string; readonly names: readonly string[] }
  | { readonly ok: false; readonly code: "missing-point" | "no-sign" | "not-a-length"; readonly message: string };

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
    return { ok: false, code: "not-a-length", message: `Write a point behind =, as in =${known[0] ?? "point"}+12` };
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
      return { ok: false, code: "no-sign", message: `Write + or − behind ${begun}, as in =${begun}+12` };
    }
    const word = (quoted ? rest.split(/["“”]/, 1)[0]! : rest.split(/\s*\+|\s+[-−–]\s*/, 1)[0]!).trim();
    const nearest = nearestOf(word, known);
    const mend = nearest ? ` ${nearest}?` : known.length > 0 ? ` There is ${known.slice(0, 3).join(", ")}` : "";
    return { ok: false, code: "missing-point", message: `There is no point named ${shortQuote(word)}.${mend}` };
  }
}

function endsAfter(rest: string, name: string, quoted: boolean): boolean {
  if (!rest.startsWith(name)) return false;
  const behind = rest.slice(name.length);
  return quoted ? /^["“”]/.test(behind) && AFTER_NAME.test(behind.slice(1)) : AFTER_NAME.test(behind);
}
