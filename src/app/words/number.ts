import { formatLength } from "../../scene/length.ts";
import type { Unit } from "../store/state.ts";

export const MINUS = "−";
export const MM_PER_INCH = 25.4;

interface NumberLook {
  readonly digits: number;
  /** A plus before what is above zero. */
  readonly signed?: boolean;
}

/** A number with a true minus; what rounds to zero carries no sign. */
export function numberText(value: number, { digits, signed = false }: NumberLook): string {
  const size = Math.abs(value).toFixed(digits);
  if (Number(size) === 0) return size;
  if (value < 0) return MINUS + size;
  return signed ? `+${size}` : size;
}

/** A length in the shown unit, without the unit's name: a tenth of a millimetre or a thousandth of an inch unless told otherwise. */
export function lengthNumber(value_mm: number, unit: Unit, look: Partial<NumberLook> = {}): string {
  const digits = look.digits ?? (unit === "in" ? 3 : 1);
  return numberText(unit === "in" ? value_mm / MM_PER_INCH : value_mm, { digits, signed: look.signed });
}

export function lengthText(value_mm: number, unit: Unit, look: Partial<NumberLook> = {}): string {
  return `${lengthNumber(value_mm, unit, look)} ${unit}`;
}

/** Inches as a rule reads them, to the nearest thirty-second: "9 7/16 in". */
export function fractionText(value_mm: number): string {
  return formatLength(value_mm, "in", { fraction: 32, withUnit: true });
}

/** From one length to another as they are shown: what a reader gets who takes the printed figures from each other, mm. */
export function shownDifference(from_mm: number, to_mm: number, unit: Unit): number {
  return asShown(to_mm, unit) - asShown(from_mm, unit);
}

/** The length that the shown figure says, mm. */
export function asShown(value_mm: number, unit: Unit): number {
  return unit === "in" ? Number((value_mm / MM_PER_INCH).toFixed(3)) * MM_PER_INCH : Number(value_mm.toFixed(1));
}

/** A wanted length: whole millimetres stay whole ("10 mm", "0.39 in"). */
export function wantedText(value_mm: number, unit: Unit): string {
  if (unit === "in") return lengthText(value_mm, unit, { digits: 2 });
  return lengthText(value_mm, unit, { digits: Number.isInteger(value_mm) ? 0 : 1 });
}

export function angleText(value_deg: number, look: Partial<NumberLook> = {}): string {
  return `${numberText(value_deg, { digits: look.digits ?? 2, signed: look.signed })}°`;
}
