/**
 * Joins segments, each given by the names of its two ends, into runs of names: open runs first, then closed ones, which
 * end with the name they begin with. Where more than two segments meet, runs pass through in some order.
 */
export function chainSegments(segments: readonly (readonly [string, string])[]): string[][] {
  const atEnd = new Map<string, number[]>();
  segments.forEach((ends, index) => {
    for (const name of ends) {
      const there = atEnd.get(name);
      if (there === undefined) atEnd.set(name, [index]);
      else there.push(index);
    }
  });
  const used = new Uint8Array(segments.length);
  const runs: string[][] = [];
  const follow = (start: string): void => {
    const run = [start];
    let name = start;
    for (;;) {
      const index = atEnd.get(name)!.find((segment) => used[segment] === 0);
      if (index === undefined) break;
      used[index] = 1;
      const [p, q] = segments[index]!;
      name = p === name ? q : p;
      run.push(name);
    }
    if (run.length > 1) runs.push(run);
  };
  for (const [name, there] of atEnd) if (there.length % 2 === 1) follow(name);
  for (const [p] of segments) follow(p);
  return runs;
}
