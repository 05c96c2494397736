import type { Vec3 } from "../maths/vec3.ts";
import type { PointDocument } from "./document.ts";
import { type LengthRefusal, type LengthUnit, MM_PER_INCH, parseLength } from "./length.ts";
import { isVector } from "./pointResolver.ts";

/**
 * POINTs and rows of lengths as people type them or paste them from a table: `120; 455; 462`, a hard point by its name, or
 * a step from one: `upper.in: 0; 15; 1`. Lengths are parted by semicolons, tabs, or commas with a blank behind them; blanks
 * alone part them too where no fraction is among them. Forward, left, up in car coordinates, bare numbers in `unit`.
 */
export interface TypedRow {
  /** The hard point that the row begins with; null: none. */
  readonly from: string | null;
  readonly lengths_mm: readonly number[];
}

/** Why a typed text cannot be: a code, and what tells where. */
export type TextFault =
  | { readonly code: "missing" | "noPlace" | "notAboveZero" | "threeNumbers" | "ball" }
  | { readonly code: "noPoint"; readonly word: string }
  | { readonly code: "noLength"; readonly word: string | null; readonly length: LengthRefusal }
  | { readonly code: "lengths"; readonly number: number }
  | { readonly code: "row" | "hole"; readonly number: number; readonly fault: TextFault };

export type Typed<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly fault: TextFault };

export function parseRow(text: string, unit: LengthUnit, names: readonly string[]): Typed<TypedRow> {
  const written = text.trim();
  const from = leadingName(written, names);
  const rest = (from === null ? written : written.slice(from.length).replace(/^\s*:/, "")).trim();
  const lengths_mm: number[] = [];
  for (const word of rest === "" ? [] : wordsOf(rest)) {
    const length = parseLength(word, unit);
    if (!length.ok) return refused(unknownOr(word, length));
    lengths_mm.push(length.mm);
  }
  return { ok: true, value: { from, lengths_mm } };
}

/** A name or three lengths, or both. */
export function parsePlace(text: string, unit: LengthUnit, names: readonly string[]): Typed<PointDocument> {
  const row = parseRow(text, unit, names);
  if (!row.ok) return row;
  return placeOf(row.value) ?? refused({ code: "noPlace" });
}

/** The row as a POINT; null where it holds neither three lengths nor a name. */
export function placeOf({ from, lengths_mm }: TypedRow): Typed<PointDocument> | null {
  if (lengths_mm.length === 0) return from === null ? null : { ok: true, value: from };
  if (lengths_mm.length !== 3) return null;
  const by = lengths_mm as unknown as Vec3;
  return { ok: true, value: from === null ? by : { from, by } };
}

export function placeText(point: PointDocument, unit: LengthUnit): string {
  if (typeof point === "string") return point;
  return isVector(point) ? numbersText(point, unit) : `${point.from}: ${numbersText(point.by, unit)}`;
}

/** To a ten-thousandth of a millimetre or of an inch, as files are written. */
export function numbersText(lengths_mm: readonly number[], unit: LengthUnit): string {
  return lengths_mm.map((mm) => lengthFigure(mm, unit)).join("; ");
}

export function lengthFigure(mm: number, unit: LengthUnit): string {
  return String(Math.round((unit === "mm" ? mm : mm / MM_PER_INCH) * 1e4) / 1e4);
}

export function refused(fault: TextFault): { readonly ok: false; readonly fault: TextFault } {
  return { ok: false, fault };
}

/** The longest name that the text begins with, followed by a colon or by nothing. */
function leadingName(text: string, names: readonly string[]): string | null {
  const found = names.filter(
    (name) => text === name || (text.startsWith(name) && /^\s*:/.test(text.slice(name.length))),
  );
  return found.sort((a, b) => b.length - a.length)[0] ?? null;
}

function wordsOf(text: string): string[] {
  const parted = text.split(/\s*[;\t]\s*|,\s+/).filter((word) => word !== "");
  return parted.length > 1 || text.includes("/") ? parted : text.split(/\s+/);
}

function unknownOr(word: string, length: LengthRefusal): TextFault {
  return /^[A-Za-z]/.test(word) ? { code: "noPoint", word } : { code: "noLength", word, length };
}
