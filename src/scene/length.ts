import { ANY_PLACEHOLDER, type NameFault, namesReplaced, PLACEHOLDER, placeholderIndex } from "./lengthNames.ts";

/** One inch is 25.4 mm exactly (international yard and pound agreement, 1959). */
export const MM_PER_INCH = 25.4;

export type LengthUnit = "mm" | "in";

export interface LengthFormat {
  /** Digits after the point of a decimal; 1 for mm and 3 for inches unless said otherwise. */
  readonly decimals?: number;
  /** Inches as a fraction to the nearest 1/16 or so, not as a decimal. */
  readonly fraction?: 2 | 4 | 8 | 16 | 32 | 64;
  /** Append the unit. */
  readonly withUnit?: boolean;
  /** Write + before what is above zero. */
  readonly signed?: boolean;
}

/** A length for people: 239.7, 9.45 in, 9 7/16 in. Negative ones carry a true minus sign (U+2212), zero none. */
export function formatLength(mm: number, unit: LengthUnit, format: LengthFormat = {}): string {
  const value = unit === "mm" ? mm : mm / MM_PER_INCH;
  const { decimals = unit === "mm" ? 1 : 3, fraction, withUnit = false, signed = false } = format;
  const size =
    unit === "in" && fraction !== undefined
      ? mixedFraction(Math.abs(value), fraction)
      : Math.abs(value).toFixed(decimals);
  const sign = !/[1-9]/.test(size) ? "" : value < 0 ? "−" : signed ? "+" : "";
  return `${sign}${size}${withUnit ? ` ${unit}` : ""}`;
}

function mixedFraction(inches: number, denominator: number): string {
  const parts = Math.round(inches * denominator);
  const whole = Math.floor(parts / denominator);
  let [over, under] = [parts % denominator, denominator];
  if (over === 0) return String(whole);
  while (over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  return `${whole === 0 ? "" : `${whole} `}${over}/${under}`;
}

/** What is wrong with a typed length, and what a sentence about it names; a code never changes its meaning. */
export type LengthFault =
  | { readonly code: "not-a-length" | "too-far" }
  /** What was typed, and how to write the one meaning and the other. */
  | { readonly code: "two-ways"; readonly written: string; readonly first: string; readonly second: string }
  | NameFault;

export type ParsedLength = { readonly ok: true; readonly mm: number } | LengthRefusal;
export type LengthRefusal = { readonly ok: false } & LengthFault;

const NOT_A_LENGTH: ParsedLength = { ok: false, code: "not-a-length" };

/** The points that a field's sum may name. */
export interface LengthReferences {
  readonly names: readonly string[];
  /** The named point's own coordinate along the field's direction, mm. */
  readonly valueOf_mm: (name: string) => number;
}

/** Longer than any sum of named points that somebody types; what looks for two readings takes the square of it. */
const LONGEST_TYPED = 2000;
const FARTHEST_MM = 1_000_000;
const TOO_FAR: ParsedLength = { ok: false, code: "too-far" };

/** Tenths of a millimetre in one unit: whole numbers, so that a length is rounded once only. */
const TENTHS_OF_MM: Readonly<Record<string, number>> = { mm: 10, cm: 100, m: 10_000, in: 254 };

const BLANKS = /\s*/y;
const SIGN = /\s*([+-])?\s*/y;
const MIXED = /(?:(\d+)\s+)?(\d+)\s*\/\s*(\d+)/y;
const DECIMAL = /\d+(?:[.,]\d*)?|[.,]\d+/y;
const FEET = /\s*(?:'(?!')|′(?!′)|’(?!’)|(?:ft|feet|foot)(?![a-z]))/iy;
const INCHES = /\s*(?:(?:inches|inch|in)(?![a-z])|"|″|”|'')/iy;
const UNIT = /\s*(mm|cm|m|inches|inch|in|"|″|”|'')(?![a-z])/iy;

/**
 * Reads what a builder types into a length field: `9.5in`, `9 7/16`, `3/8"`, `1' 4 1/4"`, `12+4`, `-3`, `3.5cm`, `9,5`. A
 * bare number means the unit shown, after feet it means inches. Where the field gives `references`, `=` begins a sum that
 * may name points too: `=upper.in`, `=upper.in + 12`, `="2nd link" - 3/8in`. What can be read two ways is refused, since
 * steel is cut from it: `9-7/16` (nine and seven sixteenths, or nine minus them), `1'-4` (the same) and `1,200` (twelve
 * hundred, or a decimal comma).
 */
export function parseLength(text: string, unit: LengthUnit, references?: LengthReferences): ParsedLength {
  if (text.length > LONGEST_TYPED) return NOT_A_LENGTH;
  const written = text.trim().replace(/⁄/g, "/");
  if (ANY_PLACEHOLDER.test(written)) return NOT_A_LENGTH;
  const isSum = references !== undefined && written.startsWith("=");
  const named = isSum ? namesReplaced(written.slice(1).trim(), references.names) : null;
  if (named && !named.ok) return named;
  const input = (named ? named.text : written).replace(/[−–]/g, "-");
  const twoWays = readsTwoWays(input);
  if (twoWays !== null) return { ok: false, ...twoWays };
  let at = 0;
  let total_mm = 0;
  do {
    const sign = take(SIGN)?.[1];
    const place = take(PLACEHOLDER)?.[0];
    if (place !== undefined && named && references) {
      const mm = references.valueOf_mm(named.names[placeholderIndex(place)]!);
      total_mm += sign === "-" ? -mm : mm;
      continue;
    }
    const size = number();
    if (size === null) return NOT_A_LENGTH;
    if (take(FEET) !== null) {
      const inches = inchesAfterFeet(size);
      if (inches === null) return NOT_A_LENGTH;
      total_mm += (sign === "-" ? -inches : inches) * MM_PER_INCH;
      continue;
    }
    const typed = take(UNIT)?.[1]?.toLowerCase();
    const tenths = TENTHS_OF_MM[typed === undefined ? unit : /^[mc]/.test(typed) ? typed : "in"]!;
    const mm = (size.over * tenths) / (size.under * 10);
    total_mm += sign === "-" ? -mm : mm;
  } while (/^\s*[+-]/.test(input.slice(at)));
  if (at < input.length) return NOT_A_LENGTH;
  if (!(Math.abs(total_mm) <= FARTHEST_MM)) return TOO_FAR;
  // a sum of binary fractions carries a tail (217.48749999999998) that nobody typed
  return { ok: true, mm: Math.round(total_mm * 1e9) / 1e9 };

  /** The inches that follow feet are fewer than twelve, and follow whole feet only; none may follow. */
  function inchesAfterFeet(feet: { over: number; under: number }): number | null {
    take(BLANKS);
    const more = number();
    if (more === null) return (feet.over * 12) / feet.under;
    take(INCHES);
    const inches = more.over / more.under;
    return inches < 12 && Number.isInteger(feet.over) && feet.under === 1 ? feet.over * 12 + inches : null;
  }

  /** A mixed fraction as whole numbers over and under, or a decimal over 1. */
  function number(): { over: number; under: number } | null {
    const mixed = take(MIXED);
    if (mixed !== null) {
      const [whole, over, under] = [Number(mixed[1] ?? 0), Number(mixed[2]), Number(mixed[3])];
      if (under === 0 || (mixed[1] !== undefined && over >= under)) return null;
      return { over: whole * under + over, under };
    }
    const decimal = take(DECIMAL);
    return decimal === null ? null : { over: Number(decimal[0].replace(",", ".")), under: 1 };
  }

  function take(pattern: RegExp): RegExpExecArray | null {
    pattern.lastIndex = at;
    const found = pattern.exec(input);
    at += found?.[0].length ?? 0;
    return found;
  }
}

function readsTwoWays(input: string): Extract<LengthFault, { code: "two-ways" }> | null {
  const dashed = /(?:^|[^\d/.,])(\d+)\s*-(\d+\/\d+)/.exec(input);
  if (dashed) return twoWays(`${dashed[1]}-${dashed[2]}`, `${dashed[1]} ${dashed[2]}`, `${dashed[1]} - ${dashed[2]}`);
  const feet = /(\d+)\s*(?:'(?!')|′|’|ft)\s*-(\d+)/i.exec(input);
  if (feet) return twoWays(`${feet[1]}'-${feet[2]}`, `${feet[1]}' ${feet[2]}`, `${feet[1]}' - ${feet[2]}`);
  const grouped = /(?:^|[^\d.,])([1-9]\d{0,2}),(\d{3})(?!\d)/.exec(input);
  if (grouped)
    return twoWays(`${grouped[1]},${grouped[2]}`, `${grouped[1]}${grouped[2]}`, `${grouped[1]}.${grouped[2]}`);
  return null;
}

function twoWays(written: string, first: string, second: string): Extract<LengthFault, { code: "two-ways" }> {
  return { code: "two-ways", written, first, second };
}
