import { withMarksTold } from "./shownText.ts";

const PLAIN_KEY = /^[A-Za-z_$][\w$]*$/;

/** The JSON path of a child: `members` + 2 → `members[2]`; keys that are no plain words are quoted: `points["upper.in"]`. */
export function childPath(parent: string, key: string | number): string {
  if (typeof key === "number") return `${parent}[${key}]`;
  if (!PLAIN_KEY.test(key)) return `${parent}[${shortQuote(key)}]`;
  return parent === "" ? key : `${parent}.${key}`;
}

export function jsonPath(keys: readonly PropertyKey[]): string {
  return keys.reduce<string>((path, key) => childPath(path, typeof key === "number" ? key : String(key)), "");
}

/** A value in quotes for a one-line message, cut when long. */
export function shortQuote(text: string): string {
  const quoted = JSON.stringify(text.length > 60 ? `${text.slice(0, 57)}...` : text);
  return withMarksTold(quoted);
}

/** What a value is, in a few plain words for an error message. */
export function describe(value: unknown): string {
  if (value === undefined) return "is missing";
  if (value === null) return "is null";
  if (typeof value === "string") return value === "" ? "is an empty text" : `is the text ${shortQuote(value)}`;
  if (typeof value === "number" || typeof value === "boolean") return `is ${value}`;
  if (Array.isArray(value)) return value.length === 1 ? "is a list of 1" : `is a list of ${value.length}`;
  return "is a record";
}
