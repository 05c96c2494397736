import type { PairVerdict, Verdict } from "./result.ts";

/** clash below 0, tight from 0 to the required clearance, clear above. */
export function verdictOf(clearance_mm: number, required_mm: number): Exclude<Verdict, "accepted"> {
  if (clearance_mm < 0) return "clash";
  return clearance_mm < required_mm ? "tight" : "clear";
}

const RANK: Readonly<Record<Verdict, number>> = { clash: 0, tight: 1, clear: 2, accepted: 3 };

/** Worst first: clash, tight, clear, accepted; within a verdict the smaller clearance, then the names. */
export function worstFirst(a: PairVerdict, b: PairVerdict): number {
  return (
    RANK[a.verdict] - RANK[b.verdict] ||
    a.clearance_mm - b.clearance_mm ||
    compareText(a.side, b.side) ||
    compareText(a.a, b.a) ||
    compareText(a.b, b.b)
  );
}

export function countVerdicts(pairs: readonly { readonly verdict: Verdict }[]): Record<Verdict, number> {
  const counts = { clash: 0, tight: 0, clear: 0, accepted: 0 };
  for (const { verdict } of pairs) counts[verdict]++;
  return counts;
}

/** Order of code units, the same on every machine. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

type Range = readonly [number, number];

/** The union of closed ranges, ascending. */
export function uniteRanges(ranges: readonly Range[]): Range[] {
  const united: [number, number][] = [];
  for (const [from, to] of [...ranges].sort((a, b) => a[0] - b[0])) {
    const last = united.at(-1);
    if (last && from <= last[1]) last[1] = Math.max(last[1], to);
    else united.push([from, to]);
  }
  return united;
}
