import { OF_CLEARANCE } from "./quantities/ofClearance.ts";
import { OF_LOADS } from "./quantities/ofLoads.ts";
import { OF_PAPER } from "./quantities/ofPaper.ts";
import { OF_STUDIES } from "./quantities/ofStudies.ts";
import { OF_THE_WHEEL } from "./quantities/ofTheWheel.ts";

/** A quantity that the program states, and the check against something outside the project that holds it. */
export interface Row {
  readonly name: string;
  /** Of the agreement; null: it has no amount, it is the same or not. */
  readonly unit: string | null;
  /** Every number that this check compares, as `StatedNumbers` names them; the same number may be held by several rows. */
  readonly states: readonly string[];
  /** Of a check that compares no stated number but what one is made of: the row of that number. */
  readonly beneath?: string;
  /** The outside truth: standard, handbook, closed form, other library. */
  readonly against: string;
  /** The test that holds it, and that reports how far apart the two are (`agrees` of agreement.ts). */
  readonly file: string;
  readonly test: string;
}

export const QUANTITIES = {
  ...OF_THE_WHEEL,
  ...OF_CLEARANCE,
  ...OF_LOADS,
  ...OF_STUDIES,
  ...OF_PAPER,
} satisfies Record<string, Row>;

export type QuantityId = keyof typeof QUANTITIES;

export const ROWS: readonly (readonly [QuantityId, Row])[] = Object.entries(QUANTITIES) as [QuantityId, Row][];
