import * as z from "zod";
import { choice, list, record, text } from "../values.ts";

/** The kinds of corner that the guided set-up knows. */
export const CORNER_KINDS = ["hub-and-arm", "wishbones", "semi-trailing", "strut", "five-links"] as const;
export type CornerKind = (typeof CORNER_KINDS)[number];

/** The role that the set-up asks a wanted gap for, whether or not a part has it yet. */
export const SETUP_ROLE = "exhaust";

const questionIds = list(text(80), 0, 500);

/**
 * How far the guided set-up has come. The answers themselves are the scene: its points, sizes and parts. Only what the
 * scene cannot tell is kept here: which of them were measured and which are assumed.
 */
export const setup = record({
  kind: choice(CORNER_KINDS),
  /** Ids of questions that were answered. */
  measured: questionIds,
  /** Ids of questions that were skipped: the value in the scene is assumed. */
  assumed: questionIds,
  /** true: the builder has put the set-up away. */
  closed: z.literal(true, { error: "true, or left out" }).optional(),
});
