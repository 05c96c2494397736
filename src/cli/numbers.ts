import { InputError } from "../scene/error.ts";

function refuse(option: string, text: string, wanted: string): InputError {
  return new InputError("wrong-value", { path: `--${option}` }, `"${text}" does not fit`, wanted);
}

/** A number of an option; `fallback` where it is not given. Throws InputError. */
export function numberOf(option: string, text: string | undefined, fallback: number, least = -Infinity): number {
  if (text === undefined) return fallback;
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (!Number.isFinite(value) || value < least) {
    throw refuse(option, text, least === -Infinity ? "a number" : `a number of ${least} or more`);
  }
  return value;
}

/** FROM:TO. Throws InputError. */
export function rangeOf(option: string, text: string): [number, number] {
  const [from, to, ...rest] = numbersIn(text, ":");
  if (from === undefined || to === undefined || rest.length > 0 || !(from <= to)) {
    throw refuse(option, text, "FROM:TO, the lower number first");
  }
  return [from, to];
}

/** Three numbers F,O,U. Throws InputError. */
export function tripleOf(option: string, text: string): [number, number, number] {
  const [forward, out, up, ...rest] = numbersIn(text, ",");
  if (forward === undefined || out === undefined || up === undefined || rest.length > 0) {
    throw refuse(option, text, "three numbers FORWARD,OUT,UP");
  }
  return [forward, out, up];
}

/** I/N, counted from 1. Throws InputError. */
export function shareOf(text: string | undefined): { index: number; of: number } {
  if (text === undefined) return { index: 0, of: 1 };
  const [index, of, ...rest] = numbersIn(text, "/");
  const isGood = index !== undefined && of !== undefined && rest.length === 0;
  if (!isGood || !Number.isInteger(index) || !Number.isInteger(of) || index < 1 || of < index || of > 100_000) {
    throw refuse("shard", text, "I/N, shard I of N, counted from 1, such as 3/16");
  }
  return { index: index - 1, of };
}

/** NAME=VALUE. Throws InputError. */
export function namedOf(option: string, text: string): [name: string, value: string] {
  const at = text.lastIndexOf("=");
  if (at < 1) throw refuse(option, text, "NAME=VALUE");
  return [text.slice(0, at), text.slice(at + 1)];
}

/** All of them numbers, or none. */
function numbersIn(text: string, between: string): number[] {
  const numbers = text.split(between).map((part) => (part.trim() === "" ? Number.NaN : Number(part)));
  return numbers.every(Number.isFinite) ? numbers : [];
}

/** FROM:TO:STEP as the numbers from one to the other, the step exact from FROM on. Throws InputError. */
export function stepsOf(option: string, text: string, most: number): number[] {
  const [from, to, step, ...rest] = numbersIn(text, ":");
  const isGood = from !== undefined && to !== undefined && step !== undefined && rest.length === 0;
  if (
    !isGood ||
    !(step > 0) ||
    from > to ||
    Math.max(Math.abs(from), Math.abs(to)) > most ||
    (to - from) / step > 1e4
  ) {
    throw refuse(option, text, `FROM:TO:STEP, the lower number first, within ±${most}, such as 0:4:0.5`);
  }
  return Array.from({ length: Math.floor((to - from) / step + 1e-9) + 1 }, (_, k) => from + k * step);
}
