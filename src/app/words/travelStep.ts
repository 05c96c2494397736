import type { Unit } from "../store/state.ts";
import { MM_PER_INCH } from "./number.ts";

/** The travel that one press of a key moves: 1 mm, or a sixteenth of an inch. */
export function travelStep_mm(unit: Unit): number {
  return unit === "in" ? MM_PER_INCH / 16 : 1;
}
