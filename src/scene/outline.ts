type Flat = readonly [number, number];

/** What keeps a closed outline (corners in order, the last joined to the first) from being cut from a plate; null: nothing. */
export function outlineFault(corners: readonly Flat[]): string | null {
  const n = corners.length;
  if (n < 3) return `has ${n} corners`;
  for (let i = 0; i < n; i++) {
    const next = corners[(i + 1) % n]!;
    if (same(corners[i]!, next)) return `repeats the corner [${next.join(", ")}]`;
  }
  for (let i = 0; i < n; i++) {
    const [a, b] = [corners[i]!, corners[(i + 1) % n]!];
    if (foldsBack(a, b, corners[(i + 2) % n]!)) return `folds back on itself at [${b.join(", ")}]`;
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue;
      if (segmentsMeet(a, b, corners[j]!, corners[(j + 1) % n]!)) return `crosses itself near [${a.join(", ")}]`;
    }
  }
  return null;
}

/** Whether every corner of `hole` lies strictly within `outline` and no edges meet. */
export function liesWithin(hole: readonly Flat[], outline: readonly Flat[]): boolean {
  return !edgesMeet(hole, outline) && hole.every((corner) => contains(outline, corner));
}

export function overlap(a: readonly Flat[], b: readonly Flat[]): boolean {
  return edgesMeet(a, b) || contains(a, b[0]!) || contains(b, a[0]!);
}

function edgesMeet(one: readonly Flat[], other: readonly Flat[]): boolean {
  return one.some((a, i) => {
    const b = one[(i + 1) % one.length]!;
    return other.some((c, j) => segmentsMeet(a, b, c, other[(j + 1) % other.length]!));
  });
}

/** Even-odd rule: a ray to +u crosses the outline an odd number of times. */
function contains(outline: readonly Flat[], [u, v]: Flat): boolean {
  let inside = false;
  for (let i = 0; i < outline.length; i++) {
    const [u0, v0] = outline[i]!;
    const [u1, v1] = outline[(i + 1) % outline.length]!;
    if (v0 > v !== v1 > v && u < u0 + ((v - v0) / (v1 - v0)) * (u1 - u0)) inside = !inside;
  }
  return inside;
}

/** Closed segments: touching counts. */
function segmentsMeet(a: Flat, b: Flat, c: Flat, d: Flat): boolean {
  const [abc, abd, cda, cdb] = [turn(a, b, c), turn(a, b, d), turn(c, d, a), turn(c, d, b)];
  if (abc !== abd && cda !== cdb && abc * abd <= 0 && cda * cdb <= 0) return true;
  return (
    (abc === 0 && between(a, b, c)) ||
    (abd === 0 && between(a, b, d)) ||
    (cda === 0 && between(c, d, a)) ||
    (cdb === 0 && between(c, d, b))
  );
}

function turn(a: Flat, b: Flat, c: Flat): number {
  return Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
}

function between(a: Flat, b: Flat, p: Flat): boolean {
  return (
    Math.min(a[0], b[0]) <= p[0] &&
    p[0] <= Math.max(a[0], b[0]) &&
    Math.min(a[1], b[1]) <= p[1] &&
    p[1] <= Math.max(a[1], b[1])
  );
}

function foldsBack(a: Flat, b: Flat, c: Flat): boolean {
  return turn(a, b, c) === 0 && (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) < 0;
}

function same(a: Flat, b: Flat): boolean {
  return a[0] === b[0] && a[1] === b[1];
}
