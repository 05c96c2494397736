import * as z from "zod";
import { choice, list, name, number, record, threeOf } from "./values.ts";

const share = number(-1e6, 1e6);
/** Three numbers in a part's own axes. */
const shares = threeOf(share, "[u, v, w] in the axes of the part");
const side = choice(["left", "right"]);

/** One body of the model: `piece` tells the halves of a spring apart; what stands in the car once has no side. */
const bodyName = { part: name, piece: choice(["upper", "lower"]).optional(), side: side.optional() };

/**
 * A place of a part: `at` counts in the sizes of the piece of its shape numbered `grip` (geometry/grips.ts), so that it
 * stays where it is on the part when that is moved, turned or made to another size.
 */
const onPart = record({
  ...bodyName,
  grip: number(0, 100_000),
  at: shares,
  is: choice(["centre", "corner", "edge", "surface"]),
});

/** A hard point; of the left side unless it says otherwise. */
const onPoint = record({ point: name, side: side.optional() });

const spot = z.union([onPoint, onPart], {
  error: 'a place: { "point": NAME } or { "part": ID, "grip", "at", "is" }',
});

/** The axis of a round piece, or the way a face looks: a unit direction in the axes of the piece. */
const line = record({
  ...bodyName,
  grip: number(0, 100_000),
  at: shares,
  way: shares,
  is: choice(["axis", "face"]),
});

const common = { id: name, hidden: z.boolean({ error: "true or false" }).optional() };

const measure = z.discriminatedUnion(
  "kind",
  [
    record({ ...common, kind: z.literal("distance"), from: spot, to: spot }),
    /** At `at`, between the ways to the two others. */
    record({ ...common, kind: z.literal("angle"), from: spot, at: spot, to: spot }),
    record({ ...common, kind: z.literal("lines"), a: line, b: line }),
    record({ ...common, kind: z.literal("gap"), a: record(bodyName), b: record(bodyName) }),
  ],
  { error: "a measure: a record with a kind" },
);

/** Measures pinned in the view. Nothing is drawn or checked from them. */
export const measures = list(measure, 0, 500);
