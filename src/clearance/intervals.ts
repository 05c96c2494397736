/** A stretch of travel [from, to], mm, from ≤ to. */
export type TravelInterval = readonly [number, number];

/** The union of stretches of travel, ascending; those that touch or lie at most `join_mm` apart become one. */
export function uniteIntervals(intervals: readonly TravelInterval[], join_mm: number): TravelInterval[] {
  const sorted = [...intervals].sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  const united: [number, number][] = [];
  for (const [from, to] of sorted) {
    const last = united[united.length - 1];
    if (last && from - last[1] <= join_mm) last[1] = Math.max(last[1], to);
    else united.push([from, to]);
  }
  return united;
}
