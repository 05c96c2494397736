import { InputError } from "./error.ts";
import { childPath, shortQuote } from "./path.ts";

/** Deeper than any scene; keeps recursion over a scene from overflowing the stack. */
export const DEEPEST_NESTING = 64;

/** Many times what the largest scene holds, and no more than a reader's memory bears. */
const MOST_VALUES = 2_000_000;

const BLANK = /[ \t\n\r]*/y;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON forbids them inside a text (RFC 8259, section 7)
const PLAIN_RUN = /[^"\\\u0000-\u001f]*/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
const WORDS: readonly (readonly [string, unknown])[] = [
  ["true", true],
  ["false", false],
  ["null", null],
];

/**
 * Reads JSON (RFC 8259) as JSON.parse does, but tells line and column of a fault, and refuses what JSON.parse lets
 * pass to the reader's harm: a key that stands twice in a record (one of two values would be dropped in silence) and
 * nesting deeper than DEEPEST_NESTING. Throws InputError `not-json` or `wrong-value`.
 */
export function parseJson(text: string, file: string): unknown {
  let at = 0;
  let values = 0;
  const value = readValue("", 0);
  skipBlanks();
  if (at < text.length) fault("there is something after the end of the scene", "nothing more");
  return value;

  function readValue(path: string, depth: number): unknown {
    skipBlanks();
    if (++values > MOST_VALUES) {
      const wrong = `holds more than ${MOST_VALUES} values`;
      throw new InputError("too-large", { file }, wrong, "a scene file; scans belong in mesh files beside it");
    }
    const first = text[at];
    if (first === "{" || first === "[") {
      if (depth >= DEEPEST_NESTING) {
        throw new InputError(
          "wrong-value",
          { file, path: shortened(path) },
          "is nested too deeply",
          `at most ${DEEPEST_NESTING} levels`,
        );
      }
      return first === "{" ? readRecord(path, depth) : readList(path, depth);
    }
    if (first === '"') return readText("a text");
    const digits = match(NUMBER);
    if (digits !== null) return Number(digits);
    for (const [word, value] of WORDS) {
      if (text.startsWith(word, at)) {
        at += word.length;
        return value;
      }
    }
    return fault(found(), "a value");
  }

  function readRecord(path: string, depth: number): Record<string, unknown> {
    const result: Record<string, unknown> = {};
    at++;
    if (closes("}")) return result;
    for (;;) {
      skipBlanks();
      const key = readText('a key in double quotes, such as "title"');
      const keyPath = childPath(path, key);
      if (key === "__proto__") refuseKey(file, keyPath, key);
      if (Object.hasOwn(result, key)) {
        throw new InputError(
          "wrong-value",
          { file, path: keyPath },
          `stands twice (again in ${place()})`,
          "each key once",
        );
      }
      skipBlanks();
      if (text[at] !== ":") fault(found(), `":" after the key ${shortQuote(key)}`);
      at++;
      result[key] = readValue(keyPath, depth + 1);
      if (closes("}")) return result;
      if (text[at] !== ",") fault(found(), '"," or "}"');
      at++;
    }
  }

  function readList(path: string, depth: number): unknown[] {
    const result: unknown[] = [];
    at++;
    if (closes("]")) return result;
    for (;;) {
      result.push(readValue(childPath(path, result.length), depth + 1));
      if (closes("]")) return result;
      if (text[at] !== ",") fault(found(), '"," or "]"');
      at++;
    }
  }

  /** Run by run: one regular expression for a whole text overflows its stack when the text is long. */
  function readText(wanted: string): string {
    if (text[at] !== '"') return fault(found(), wanted);
    const start = at++;
    do match(PLAIN_RUN);
    while (match(ESCAPE) !== null);
    if (text[at] !== '"') {
      const wrong = at >= text.length ? "a text is not closed" : "a text holds a character that JSON forbids";
      return fault(wrong, 'a text on one line that ends in "');
    }
    at++;
    return JSON.parse(text.slice(start, at)) as string;
  }

  function closes(bracket: string): boolean {
    skipBlanks();
    if (text[at] !== bracket) return false;
    at++;
    return true;
  }

  function skipBlanks(): void {
    match(BLANK);
  }

  function match(pattern: RegExp): string | null {
    pattern.lastIndex = at;
    const token = pattern.exec(text)?.[0] ?? null;
    if (token !== null) at += token.length;
    return token;
  }

  function found(): string {
    return at >= text.length ? "the file ends too early" : `found ${shortQuote(text[at]!)}`;
  }

  function place(): string {
    const before = text.slice(0, at).split("\n");
    return `line ${before.length}, column ${before.at(-1)!.length + 1}`;
  }

  function fault(wrong: string, wanted: string): never {
    throw new InputError("not-json", { file }, `is no JSON: ${wrong} in ${place()}`, wanted);
  }
}

/** A key that would reach into JavaScript's own objects. */
export function refuseKey(file: string, path: string, key: string): never {
  throw new InputError("unknown-key", { file, path }, `the key ${shortQuote(key)} is not allowed`, "another name");
}

function shortened(path: string): string {
  return path.length > 80 ? `${path.slice(0, 77)}...` : path;
}
