/**
 * The candidate that a mistyped `word` was most likely meant to be, or null when none is near. Near means an edit
 * distance (Levenshtein 1966: insert, delete, replace) of at most a third of the word's length, at least 2.
 */
export function nearestOf(word: string, candidates: Iterable<string>): string | null {
  const allowed = Math.max(2, Math.floor(word.length / 3));
  let best: string | null = null;
  let bestDistance = allowed + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - word.length) >= bestDistance) continue;
    const distance = editDistance(word.toLowerCase(), candidate.toLowerCase());
    if (distance < bestDistance && distance < Math.max(word.length, candidate.length)) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = previous[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(replaced, previous[j]! + 1, row[j - 1]! + 1));
    }
    previous = row;
  }
  return previous[b.length]!;
}
