import { cross, dot, length, mirror, normalise, squareTo, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { Side } from "../../scene/scene.ts";

/** A length that a tape could be laid along: from station a on the left to station b on either side. */
export interface Candidate {
  readonly a: number;
  readonly b: number;
  readonly far: Side;
  /** Car coordinates, mm. */
  readonly from: Vec3;
  readonly to: Vec3;
}

/** How far a mount may be out of place before any tape is laid, and how well a tape tells, mm (standard deviations; common practice, no source). */
const PLACED_mm = 5;
const TAPE_mm = 1;
/** A length is worth its line while the others foretell it worse than this, mm. */
const FORETOLD_mm = 1.5;

/** How a length grows with a step of some stations on the table: pairs of a coordinate's index and its share. */
type Row = readonly (readonly [index: number, share: number])[];

/**
 * Every width from one side to the other, and beside those as few lengths as hold all stations to each other on the table, heights being measured by themselves:
 * one after another, each time the one that the others foretell worst (linear least squares: Gauss–Newton covariance, updated a row at a time by
 * Sherman–Morrison). A length over both sides or along one is measured a second time as its mirror image, and counts twice.
 */
export function chosenLengths(candidates: readonly Candidate[], stations: number, up: Vec3): Candidate[] {
  const rows = candidates.map((candidate) => rowsOf(candidate, stations, up));
  const unknowns = 4 * stations;
  const covariance = Array.from({ length: unknowns }, (_, i) =>
    Float64Array.from({ length: unknowns }, (__, j) => (i === j ? PLACED_mm ** 2 : 0)),
  );
  const chosen = new Set<number>();
  const choose = (i: number): void => {
    chosen.add(i);
    for (const row of rows[i]!) learn(covariance, row);
  };
  for (const [i, { a, b }] of candidates.entries()) if (a === b) choose(i);
  for (;;) {
    let best = -1;
    let most = FORETOLD_mm ** 2;
    for (const i of candidates.keys()) {
      if (chosen.has(i)) continue;
      const variance = varianceOf(covariance, rows[i]![0]!);
      if (variance <= most) continue;
      most = variance;
      best = i;
    }
    if (best < 0) break;
    choose(best);
  }
  return [...chosen].sort((a, b) => a - b).map((i) => candidates[i]!);
}

/** The row of a length and, where it has one, of its mirror image. Unknowns: forward and out of each station, left then right. */
function rowsOf({ a, b, far, from, to }: Candidate, stations: number, up: Vec3): Row[] {
  const way = subtract(to, from);
  if (length(way) === 0) return [[]];
  const along = normalise(way);
  const one = squareTo(up);
  const two = cross(up, one);
  const index = (station: number, side: Side): number => 2 * (station + (side === "left" ? 0 : stations));
  const row = (near: Side, other: Side, direction: Vec3): Row => {
    const [here, there] = [index(a, near), index(b, other)];
    const shares = [dot(direction, one), dot(direction, two)] as const;
    return [
      [here, -shares[0]],
      [here + 1, -shares[1]],
      [there, shares[0]],
      [there + 1, shares[1]],
    ];
  };
  const asDrawn = row("left", far, along);
  if (a === b) return [asDrawn];
  return [asDrawn, far === "left" ? row("right", "right", mirror(along)) : row("right", "left", mirror(along))];
}

function varianceOf(covariance: readonly Float64Array[], row: Row): number {
  let sum = 0;
  for (const [i, left] of row) for (const [j, right] of row) sum += left * covariance[i]![j]! * right;
  return sum;
}

function learn(covariance: readonly Float64Array[], row: Row): void {
  const times = covariance.map((line) => row.reduce((sum, [j, share]) => sum + line[j]! * share, 0));
  const whole = varianceOf(covariance, row) + TAPE_mm ** 2;
  for (const [i, line] of covariance.entries())
    for (let j = 0; j < line.length; j++) line[j]! -= (times[i]! * times[j]!) / whole;
}
