import { cross, dot, normalise, subtract, type Vec3 } from "../maths/vec3.ts";

/**
 * One eighth (x, y, z ≥ 0) of a triangulated unit sphere, in rows from the pole (+z) to the equator. Row k has
 * `steps[k] + 1` vertices from azimuth 0 (the x, z plane) to 90° (the y, z plane). Coordinates that lie in a coordinate
 * plane are exactly zero there, so mirror images share them.
 */
export interface BallOctant {
  readonly rows: readonly (readonly Vec3[])[];
  /** Corners as [row, place in row], counter-clockwise seen from outside. */
  readonly triangles: readonly (readonly [Place, Place, Place])[];
  /** The vertices must be this much farther out than the sphere for no triangle to cut into it. */
  readonly cornerRatio: number;
}
export type Place = readonly [row: number, place: number];

const cache = new Map<number, BallOctant>();
const CACHE_SIZE = 64;

/** The octant with the fewest triangles found whose vertices stand at most `sagRatio` radii outside the sphere. */
export function ballOctant(sagRatio: number): BallOctant {
  const known = cache.get(sagRatio);
  if (known) return known;
  let best: BallOctant | null = null;
  // rows and steps of equal length are near the best; where the rows meet out of step decides, so a few are tried
  for (const stepPerRow of [0.9, 1, 1.1, 1.2, 1.3, 1.45]) {
    const octant = coarsest(sagRatio, stepPerRow, best?.triangles.length ?? Number.POSITIVE_INFINITY);
    if (octant) best = octant;
  }
  if (!best) throw new RangeError(`no sphere within ${sagRatio} radii`);
  if (cache.size >= CACHE_SIZE) cache.clear();
  cache.set(sagRatio, best);
  return best;
}

/** The first octant within the sag as rows are added, or null once it needs as many triangles as `fewerThan`. */
function coarsest(sagRatio: number, stepPerRow: number, fewerThan: number): BallOctant | null {
  // a triangle's plane lies (circumradius)²/2 below the sphere, and no circumradius is below half of a row's height
  const leastRows = Math.max(2, Math.floor(Math.PI / 4 / Math.sqrt(2 * sagRatio)));
  for (let rowCount = leastRows; ; rowCount++) {
    const steps = rowSteps(rowCount, stepPerRow);
    let count = 0;
    for (let k = 1; k <= rowCount; k++) count += steps[k]! + steps[k - 1]!;
    if (count >= fewerThan) return null;
    const octant = layOut(steps);
    if (octant.cornerRatio - 1 <= sagRatio) return octant;
  }
}

function rowSteps(rowCount: number, stepPerRow: number): number[] {
  const step = (stepPerRow * (Math.PI / 2)) / rowCount;
  return Array.from({ length: rowCount + 1 }, (_, k) =>
    k === 0 ? 0 : Math.max(1, Math.ceil(((Math.PI / 2) * Math.sin((Math.PI / 2) * (k / rowCount))) / step - 1e-9)),
  );
}

function layOut(steps: readonly number[]): BallOctant {
  const rows = steps.map((count, k) => octantRow(k, steps.length - 1, count));
  const triangles: [Place, Place, Place][] = [];
  for (let k = 1; k < rows.length; k++) zip(rows, k, triangles);
  let nearest = Math.cos(Math.PI / (4 * steps.at(-1)!)); // the sides of the equator's ring, which a capsule prolongs
  for (const corners of triangles) {
    const [a, b, c] = corners.map(([row, place]) => rows[row]![place]!) as [Vec3, Vec3, Vec3];
    nearest = Math.min(nearest, dot(normalise(cross(subtract(b, a), subtract(c, a))), a));
  }
  return { rows, triangles, cornerRatio: 1 / nearest };
}

function octantRow(k: number, last: number, count: number): Vec3[] {
  if (k === 0) return [[0, 0, 1]];
  const polar = (Math.PI / 2) * (k / last);
  const z = k === last ? 0 : Math.cos(polar);
  const radius = k === last ? 1 : Math.sin(polar);
  return Array.from({ length: count + 1 }, (_, i): Vec3 => {
    const azimuth = (Math.PI / 2) * (i / count);
    return [
      i === count ? 0 : radius * Math.cos(azimuth),
      i === 0 ? 0 : i === count ? radius : radius * Math.sin(azimuth),
      z,
    ];
  });
}

/** Fills the strip between row k − 1 and row k, always with the shorter of the two next diagonals. */
function zip(rows: readonly (readonly Vec3[])[], k: number, triangles: [Place, Place, Place][]): void {
  const upper = rows[k - 1]!;
  const lower = rows[k]!;
  let i = 0;
  let j = 0;
  while (i < upper.length - 1 || j < lower.length - 1) {
    const alongUpper = i < upper.length - 1 ? squaredDistance(upper[i + 1]!, lower[j]!) : Number.POSITIVE_INFINITY;
    const alongLower = j < lower.length - 1 ? squaredDistance(upper[i]!, lower[j + 1]!) : Number.POSITIVE_INFINITY;
    if (alongLower <= alongUpper) {
      triangles.push([
        [k - 1, i],
        [k, j],
        [k, j + 1],
      ]);
      j++;
    } else {
      triangles.push([
        [k - 1, i],
        [k, j],
        [k - 1, i + 1],
      ]);
      i++;
    }
  }
}

function squaredDistance(a: Vec3, b: Vec3): number {
  return (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2;
}
