/** How single errors add up: all the worst way, and as the root of the sum of their squares. */
export function stackOf(parts: readonly number[]): { readonly worst: number; readonly rootSumSquares: number } {
  return {
    worst: parts.reduce((sum, part) => sum + Math.abs(part), 0),
    rootSumSquares: Math.sqrt(parts.reduce((sum, part) => sum + part * part, 0)),
  };
}

/** Least, 5 %, middle, 95 %, greatest; NaN of nothing. */
export function quantiles(values: readonly number[]): [number, number, number, number, number] {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number): number => {
    const place = share * (sorted.length - 1);
    const low = sorted[Math.floor(place)] ?? Number.NaN;
    const high = sorted[Math.ceil(place)] ?? Number.NaN;
    return low + (high - low) * (place - Math.floor(place));
  };
  return [at(0), at(0.05), at(0.5), at(0.95), at(1)];
}
