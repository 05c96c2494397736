import { InputError } from "./error.ts";
import { shortQuote } from "./path.ts";

/** The parts of a tyre size designation. */
export interface TyreSize {
  /** Nominal section width. */
  readonly sectionWidth_mm: number;
  /** Nominal aspect ratio, percent: section height over section width. */
  readonly aspect: number;
  /** Nominal rim diameter code, inches for sizes written this way. */
  readonly rimDiameter_in: number;
}

/** Optional P or LT; width/aspect; R, ZR, D, B or a dash for the construction; rim code; load and speed marks may follow. */
const DESIGNATION =
  /^(?:P|LT)?(\d{2,3})\/(\d{2,3}) ?(?:ZR|R|D|B|-) ?(\d{1,2}(?:\.5)?)(?: ?C)?(?: \(?\d{2,3}(?:\/\d{2,3})? ?[A-Z]\d?\)?)?(?: XL)?$/;

/**
 * Reads a size such as "205/55R16", "P205/60R15", "205/55 R16" or "205/55ZR16 91W" (designation: UN Regulation No. 30,
 * paragraph 2; the P and LT prefixes are those of North American sizes). Throws InputError `tyre` for what is no size
 * or lies outside anything a car wears.
 */
export function parseTyre(designation: string, place: { file?: string; path?: string } = {}): TyreSize {
  const parts = DESIGNATION.exec(designation.trim().replace(/\s+/g, " ").toUpperCase());
  if (parts === null) {
    throw new InputError("tyre", place, `${shortQuote(designation)} is no tyre size`, 'a size such as "205/55R16"');
  }
  const size = { sectionWidth_mm: Number(parts[1]), aspect: Number(parts[2]), rimDiameter_in: Number(parts[3]) };
  within("section width", size.sectionWidth_mm, 80, 500, " mm");
  within("aspect ratio", size.aspect, 20, 100, "");
  within("rim diameter", size.rimDiameter_in, 8, 30, " in");
  return size;

  function within(what: string, value: number, min: number, max: number, unit: string): void {
    if (value >= min && value <= max) return;
    throw new InputError(
      "tyre",
      place,
      `the ${what} of ${shortQuote(designation)} is ${value}${unit}`,
      `${min} to ${max}${unit}`,
    );
  }
}
