import * as z from "zod";
import { above, list, name, number, record, size_mm, text, vector_mm } from "./values.ts";

/** A tape as it was read, with where its stud stood then: later moves of a point that served as stud change nothing here. */
const tapeLine = record({ stud: text(80, "what the stud is called"), at: vector_mm, length_mm: size_mm });

const measuredPoint = record({
  at: vector_mm,
  tolerance_mm: number(0, 1000, "mm").optional(),
  how: text(500).optional(),
  tapes: record({ accuracy_mm: above(0, 1000, "mm"), lines: list(tapeLine, 0, 50) }).optional(),
});

const measuredPoints = z.record(name, measuredPoint, {
  error: 'a record of measured points { "NAME": { "at": [x, y, z] } }',
});

/**
 * What was measured on the car, by side and point, in car coordinates (the right side's Y below zero). Data beside the
 * drawing: nothing is drawn or checked from it.
 */
export const measured = record({ left: measuredPoints.optional(), right: measuredPoints.optional() });
