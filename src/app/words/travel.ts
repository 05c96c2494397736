import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { lengthNumber } from "./number.ts";

/** Travel this near to ride height is called ride height. */
const RIDE_mm = 0.05;

/** Wheel travel as a signed number in the shown unit: "+38", "−69.4", "0". */
export function travelNumber(travel_mm: number, unit: Unit): string {
  if (Math.abs(travel_mm) < RIDE_mm) return "0";
  if (unit === "in") return lengthNumber(travel_mm, unit, { digits: 2, signed: true });
  const digits = Math.abs(travel_mm - Math.round(travel_mm)) < 0.05 ? 0 : 1;
  return lengthNumber(travel_mm, unit, { digits, signed: true });
}

export function travelWord(travel_mm: number): "bump" | "droop" | "ride" {
  if (Math.abs(travel_mm) < RIDE_mm) return "ride";
  return travel_mm > 0 ? "bump" : "droop";
}

/** "+38 bump", "−70 droop", "ride height". */
export function travelText(travel_mm: number, unit: Unit): string {
  return t(`words.travel.${travelWord(travel_mm)}`, { travel: travelNumber(travel_mm, unit) });
}

/** For the ear, where the word carries the sign: "38 bump", "70 droop", "ride height". */
export function spokenTravel(travel_mm: number, unit: Unit): string {
  const travel = travelNumber(Math.abs(travel_mm), unit).replace("+", "");
  return t(`words.travel.${travelWord(travel_mm)}`, { travel });
}

/** "−6 to +80". */
export function travelRange(from_mm: number, to_mm: number, unit: Unit): string {
  return t("words.travelRange", { from: travelNumber(from_mm, unit), to: travelNumber(to_mm, unit) });
}
