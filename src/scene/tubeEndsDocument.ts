import * as z from "zod";
import { above, choice, length_mm, list, name, record, size_mm } from "./values.ts";

const end = z.discriminatedUnion(
  "kind",
  [
    record({
      joint: name,
      kind: z.literal("rod end"),
      /** Diameter and rise of the thread. */
      thread_mm: above(0, 100, "mm"),
      pitch_mm: above(0, 10, "mm"),
      hand: choice(["right", "left"]).optional(),
      /** From the eye's centre to the end of the shank. */
      eye_mm: size_mm,
      /** Of the shank, how much bears thread; left out: all of it that can go in. */
      shank_mm: size_mm.optional(),
      /** How far the adapter's face stands beyond the end of the tube; left out: flush. */
      adapter_mm: length_mm.optional(),
      /** How deep the adapter is threaded. */
      depth_mm: size_mm,
      /** Height of the lock nut; left out: a thin nut's, half the thread. */
      nut_mm: length_mm.optional(),
      /** How much thread shall be in as it is set; left out: the middle of what may be. */
      engaged_mm: size_mm.optional(),
    }),
    /** The tube is coped to a sleeve or housing across it. */
    record({ joint: name, kind: z.literal("sleeve"), outside_mm: size_mm }),
    /** The tube ends square, so far before the joint's centre. */
    record({ joint: name, kind: z.literal("square"), short_mm: length_mm }),
  ],
  { error: 'an end: a record with the kind "rod end", "sleeve" or "square"' },
);

/** What stands between the tubes of links and wishbones and the centres of their joints. Nothing is drawn or checked for clearance from it. */
export const tubeEnds = list(end, 0, 200);
