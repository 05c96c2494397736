import { z } from "zod";
import type { LimitVerdict, PairVerdict } from "../check/result.ts";

export const CLASH_STATES = ["open", "fixed", "accepted"] as const;

export type ClashState = (typeof CLASH_STATES)[number];

/**
 * What the builder said about one clash, tight pair or limit. Decisions are only ever added; the last one about a thing holds,
 * so the log keeps who said what and when.
 */
export interface ClashDecision {
  readonly id: string;
  /** Title of the scene that it is about. */
  readonly scene: string;
  /** `pairKey` or `limitKey`. */
  readonly key: string;
  readonly state: ClashState;
  /** Who sees to it; "" for nobody yet. */
  readonly owner: string;
  /** Why; an accepted one has a reason. */
  readonly why: string;
  /** ISO 8601 in UTC. */
  readonly made: string;
}

export const decisionSchema = z
  .strictObject({
    id: z.string().min(1),
    scene: z.string(),
    key: z.string().min(1),
    state: z.enum(CLASH_STATES),
    owner: z.string(),
    why: z.string(),
    made: z.iso.datetime(),
  })
  .refine(({ state, why }) => state !== "accepted" || why.trim() !== "", {
    path: ["why"],
    message: "accepted without a reason",
  }) satisfies z.ZodType<ClashDecision>;

export function pairKey({ side, a, b }: Pick<PairVerdict, "side" | "a" | "b">): string {
  return JSON.stringify(["pair", side, a, b]);
}

/** Shortest and longest of one length are two limits: the last word tells them apart. */
export function limitKey({ side, what, joint, verdict, value, limit }: LimitVerdict): string {
  const isLeast = verdict === "clash" ? value < limit : value > limit;
  return JSON.stringify(["limit", side, what, joint ?? "", isLeast ? "least" : "most"]);
}
