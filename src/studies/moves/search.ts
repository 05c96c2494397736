import { add, length, scale, type Vec3 } from "../../maths/vec3.ts";

/** Whether a move does what is wanted. */
export type Clears = (by: Vec3) => boolean;

/** Directions along one axis each. */
export const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
];

/** Places along a line that are looked at before the first that clears is narrowed down, mm. */
const AXIS_STEP_mm = 1;
/** Moves are told to this, mm. */
export const FINE_mm = 0.05;

/** The smallest move along a direction: the first whole step that clears, narrowed down to 0.05 mm; null: none within the reach. */
export function smallestAlong(direction: Vec3, reach_mm: number, clears: Clears): Vec3 | null {
  const way = smallestAmount({ step: AXIS_STEP_mm, reach: reach_mm, fine: FINE_mm }, (amount) =>
    clears(scale(direction, amount)),
  );
  return way === null ? null : scale(direction, way);
}

/** The first whole step of some amount that clears, narrowed down to `fine`; null: none within the reach. */
export function smallestAmount(
  { step, reach, fine }: { readonly step: number; readonly reach: number; readonly fine: number },
  clears: (amount: number) => boolean,
): number | null {
  for (let k = 1; k * step <= reach + 1e-9; k++) {
    if (clears(k * step)) return narrowedAmount((k - 1) * step, k * step, fine, clears);
  }
  return null;
}

/** Between a way that does not clear and one that does. */
function narrowed(direction: Vec3, from_mm: number, to_mm: number, clears: Clears): number {
  return narrowedAmount(from_mm, to_mm, FINE_mm, (amount) => clears(scale(direction, amount)));
}

function narrowedAmount(from: number, to: number, fine: number, clears: (amount: number) => boolean): number {
  let [low, high] = [from, to];
  while (high - low > fine) {
    const middle = (low + high) / 2;
    if (clears(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * The smallest free move that clears, shorter than `below_mm`: all places of a lattice in the order of their distance, up to the first
 * that clears and one lattice step beyond it, each of those that clear then brought nearer: straight back, and by steps in every
 * direction that get smaller. What lies between the places of the lattice and is cut off from all of them can be missed. Null: none.
 */
export function smallestFree(below_mm: number, step_mm: number, clears: Clears): Vec3 | null {
  const lattice = latticeWithin(below_mm, step_mm);
  const starts: Vec3[] = [];
  let enough_mm = Number.POSITIVE_INFINITY;
  for (const place of lattice) {
    if (length(place) > enough_mm || starts.length >= MOST_STARTS) break;
    if (!clears(place)) continue;
    starts.push(place);
    enough_mm = Math.min(enough_mm, length(place) + step_mm);
  }
  let best: Vec3 | null = null;
  for (const start of starts) {
    const near = brought(start, step_mm, clears);
    if (!best || length(near) < length(best)) best = near;
  }
  return best;
}

const MOST_STARTS = 6;

/** Nearest first; of equally far ones in the order of their coordinates. Where the point is now is left out. */
function latticeWithin(reach_mm: number, step_mm: number): Vec3[] {
  const most = Math.floor(reach_mm / step_mm);
  const places: Vec3[] = [];
  for (let x = -most; x <= most; x++) {
    for (let y = -most; y <= most; y++) {
      for (let z = -most; z <= most; z++) {
        const place: Vec3 = [x * step_mm, y * step_mm, z * step_mm];
        const way = length(place);
        if (way > 0 && way < reach_mm) places.push(place);
      }
    }
  }
  return places.sort((a, b) => length(a) - length(b));
}

/** 26 directions: to the faces, edges and corners of a cube. */
const AROUND: readonly Vec3[] = [-1, 0, 1]
  .flatMap((x) => [-1, 0, 1].flatMap((y) => [-1, 0, 1].map((z): Vec3 => [x, y, z])))
  .filter((direction) => length(direction) > 0)
  .map((direction) => scale(direction, 1 / length(direction)));

function brought(start: Vec3, step_mm: number, clears: Clears): Vec3 {
  let place = straightBack(start, clears);
  for (let step = step_mm / 2; step > FINE_mm / 2; step /= 2) {
    for (let isNearer = true; isNearer; ) {
      isNearer = false;
      for (const direction of AROUND) {
        const next = add(place, scale(direction, step));
        if (length(next) > length(place) - FINE_mm / 4 || !clears(next)) continue;
        place = next;
        isNearer = true;
      }
    }
  }
  return place;
}

/** As far back towards where the point is as it keeps clear on the way. */
function straightBack(start: Vec3, clears: Clears): Vec3 {
  const way = length(start);
  const direction = scale(start, 1 / way);
  let near = way;
  while (near - AXIS_STEP_mm > 0 && clears(scale(direction, near - AXIS_STEP_mm))) near -= AXIS_STEP_mm;
  return scale(direction, narrowed(direction, Math.max(0, near - AXIS_STEP_mm), near, clears));
}

/** Two moves along an axis each, together. */
export interface Together {
  readonly first: Vec3;
  readonly second: Vec3;
}

/**
 * Of two moves along given directions that clear together the pair with the least root of the sum of squares: all pairs of steps in that
 * order, then each made smaller in turn. Null: none within the reach.
 */
export function smallestTogether(
  directions: readonly [Vec3, Vec3],
  below_mm: number,
  step_mm: number,
  clears: (first: Vec3, second: Vec3) => boolean,
): Together | null {
  const most = Math.floor(below_mm / step_mm);
  const pairs: [number, number][] = [];
  for (let i = 1; i <= most; i++) for (let j = 1; j <= most; j++) pairs.push([i * step_mm, j * step_mm]);
  pairs.sort((a, b) => Math.hypot(...a) - Math.hypot(...b));
  const at = (i: number, way: number) => scale(directions[i]!, way);
  const found = pairs.find(([a, b]) => Math.hypot(a, b) < below_mm && clears(at(0, a), at(1, b)));
  if (!found) return null;
  let [a, b] = found;
  for (let step = step_mm / 2; step > FINE_mm / 2; step /= 2) {
    if (a > step && clears(at(0, a - step), at(1, b))) a -= step;
    if (b > step && clears(at(0, a), at(1, b - step))) b -= step;
  }
  return { first: at(0, a), second: at(1, b) };
}
