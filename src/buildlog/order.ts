import type { Verdict } from "../check/result.ts";

const GRAVITY: Readonly<Record<Verdict, number>> = { clash: 0, tight: 1, clear: 2, accepted: 3 };

interface Judged {
  readonly verdict: Verdict;
  readonly clearance_mm: number;
  readonly required_mm: number;
}

/**
 * Worst first: clash before tight before clear before accepted; clashes by depth, the rest by how much of the room
 * they want is missing.
 */
export function byGravity(a: Judged, b: Judged): number {
  if (a.verdict !== b.verdict) return GRAVITY[a.verdict] - GRAVITY[b.verdict];
  if (a.verdict === "clash") return a.clearance_mm - b.clearance_mm;
  return a.clearance_mm - a.required_mm - (b.clearance_mm - b.required_mm);
}
