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

/** A wanted length: whole millimetres stay whole ("10 mm", "0.39 in"). */
export function wantedText(value_mm: number, unit: Unit): string {
  if (unit === "in") return lengthText(value_mm, unit, { digits: 2 });
  return lengthText(value_mm, unit, { digits: Number.isInteger(value_mm) ? 0 : 1 });
}

export function angleText(value_deg: number, look: Partial<NumberLook> = {}): string {
  return `${numberText(value_deg, { digits: look.digits ?? 2, signed: look.signed })}°`;
}
