import { InputError } from "../../src/scene/error.ts";
import { Refused } from "./door.ts";

const LONGEST = 1200;
/** What JavaScript says of a fault of a program; no builder can mend a file by it. */
const OF_THE_PROGRAM =
  /is not a function|not iterable|Cannot (?:read|convert|mix|set)|undefined|\[object |call stack|Invalid (?:typed|array|string)|out of (?:range|bounds|memory)|Offset is outside|allocation|NaN|\bat \S+ \(|\bfile:\/\/|node_modules|invalid distance|unexpected EOF/i;
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be shown
const GARBLES = /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/;

/** What is wrong with how something was refused; null: it is refused as it should be. */
export function faultOfRefusal(error: unknown): string | null {
  if (error instanceof Refused) return null;
  if (!(error instanceof InputError)) {
    const { name, message, stack } = error instanceof Error ? error : { name: typeof error, message: "", stack: "" };
    return `${name}: ${message}\n${stack ?? String(error)}`.slice(0, 1500);
  }
  const { message, wrong, wanted } = error;
  if (wrong.trim() === "" || wanted.trim() === "") return `says nothing: ${message}`;
  return faultOfText(message, wrong);
}

/** The same of a sentence; what it quotes of the builder's own, in `wrong`, is not judged. */
export function faultOfText(message: string, wrong = message): string | null {
  if (message.length > LONGEST) return `is ${message.length} characters long: ${message.slice(0, 300)}`;
  if (GARBLES.test(message)) return `garbles a terminal: ${JSON.stringify(message.slice(0, 300))}`;
  const said = OF_THE_PROGRAM.exec(wrong.replace(/"[^"]*"/g, '""'))?.[0];
  if (said) return `speaks of the program ("${said}"): ${message}`;
  return null;
}
