import { combine, vector } from "./lanes";
import { BEST, DIRECTION, LEEWAY_FLOOR, LEEWAY_SHARE, POSE } from "./layout";

// How B lies to A. In float64: the columns of the turn and the shift, x and y in two lanes; their z follow.
const WIDE: usize = memory.data(96, 16);
const WIDE_Z: usize = WIDE + 64;
// In float32, four lanes each: columns, rows, columns of absolute values.
const COLUMNS: usize = memory.data(144, 16);
const ROWS: usize = COLUMNS + 48;
const ABSOLUTE: usize = COLUMNS + 96;
// A direction from A to B: in A's axes, then in B's. Of the best pair so far (or the hint's), and of the leaves at hand.
export const BEST_LINE: usize = memory.data(64, 16);
export const OWN_LINE: usize = BEST_LINE + 32;

/** Square of the distance that a pair must be below to be looked for, rounded up to float32. */
export let bestAbove: f32 = 0;

/** What rounding in float32 may add to a gap, as a share of the sizes it is made of: twice what the longest chain of roundings comes to. */
const SLACK: f32 = 3.8147e-6;

export function placeFrame(): void {
  for (let k: usize = 0; k < 4; k++) {
    store<f64>(WIDE + 16 * k, load<f64>(POSE + 8 * k));
    store<f64>(WIDE + 16 * k + 8, load<f64>(POSE + 32 + 8 * k));
    store<f64>(WIDE_Z + 8 * k, load<f64>(POSE + 64 + 8 * k));
  }
  for (let k: usize = 0; k < 3; k++) {
    const column = vector(load<f64>(POSE + 8 * k), load<f64>(POSE + 32 + 8 * k), load<f64>(POSE + 64 + 8 * k));
    v128.store(COLUMNS + 16 * k, column);
    v128.store(ABSOLUTE + 16 * k, f32x4.abs(column));
    const row = POSE + 32 * k;
    v128.store(ROWS + 16 * k, vector(load<f64>(row), load<f64>(row + 8), load<f64>(row + 16)));
  }
}

/** Turns a direction from A's axes into B's. */
@inline
export function intoB(u: v128): v128 {
  return combine(u, v128.load(ROWS), v128.load(ROWS, 16), v128.load(ROWS, 32));
}

/** Turns a direction from B's axes into A's. */
@inline
export function intoA(w: v128): v128 {
  return combine(w, v128.load(COLUMNS), v128.load(COLUMNS, 16), v128.load(COLUMNS, 32));
}

/** Half sizes in A's axes of the upright box around B's of half sizes h. */
@inline
export function turnedHalf(h: v128): v128 {
  return combine(h, v128.load(ABSOLUTE), v128.load(ABSOLUTE, 16), v128.load(ABSOLUTE, 32));
}

@inline
export function placedX(x: f64, y: f64, z: f64): f64 {
  return load<f64>(POSE) * x + load<f64>(POSE + 8) * y + load<f64>(POSE + 16) * z + load<f64>(POSE + 24);
}

@inline
export function placedY(x: f64, y: f64, z: f64): f64 {
  return load<f64>(POSE + 32) * x + load<f64>(POSE + 40) * y + load<f64>(POSE + 48) * z + load<f64>(POSE + 56);
}

@inline
export function placedZ(x: f64, y: f64, z: f64): f64 {
  return load<f64>(POSE + 64) * x + load<f64>(POSE + 72) * y + load<f64>(POSE + 80) * z + load<f64>(POSE + 88);
}

/** From the centre of A's node to that of B's, A's axes: taken in float64, so that what is lost is small beside the distance. */
@inline
export function between(nodeA: usize, nodeB: usize): v128 {
  const x = v128.load_splat<f64>(nodeB);
  const y = v128.load_splat<f64>(nodeB, 8);
  const z = v128.load_splat<f64>(nodeB, 16);
  const xy = f64x2.sub(
    f64x2.add(
      f64x2.add(f64x2.mul(v128.load(WIDE), x), f64x2.mul(v128.load(WIDE, 16), y)),
      f64x2.add(f64x2.mul(v128.load(WIDE, 32), z), v128.load(WIDE, 48)),
    ),
    v128.load(nodeA),
  );
  const height =
    load<f64>(WIDE_Z) * load<f64>(nodeB) +
    load<f64>(WIDE_Z, 8) * load<f64>(nodeB, 8) +
    (load<f64>(WIDE_Z, 16) * load<f64>(nodeB, 16) + load<f64>(WIDE_Z, 24)) -
    load<f64>(nodeA, 16);
  return v128.shuffle<f32>(f32x4.demote_f64x2_zero(xy), f32x4.splat(<f32>height), 0, 1, 4, 2);
}

/** Lane by lane, what to take off a gap of two nodes between whose centres `c` runs. */
@inline
export function slackOf(c: v128, halfA: v128, halfB: v128): v128 {
  return f32x4.mul(f32x4.splat(SLACK), f32x4.add(f32x4.abs(c), f32x4.add(halfA, halfB)));
}

@inline
export function setLine(line: usize, u: v128): void {
  v128.store(line, u);
  v128.store(line + 16, intoB(u));
}

/** Takes a unit vector in A's axes for the direction in which the two are apart. */
export function turnFrame(x: f64, y: f64, z: f64): void {
  store<f64>(DIRECTION, x);
  store<f64>(DIRECTION + 8, y);
  store<f64>(DIRECTION + 16, z);
  setLine(BEST_LINE, vector(x, y, z));
}

/** Nothing that reaches this square counts. */
export function setLimit(squared: f64): void {
  store<f64>(BEST, squared);
  setAbove(squared);
}

/** The smallest square measured so far. */
export function setBest(squared: f64): void {
  store<f64>(BEST, squared);
  const share = load<f64>(LEEWAY_SHARE);
  if (share > 0) {
    const floor = load<f64>(LEEWAY_FLOOR);
    const excess = sqrt(squared) - floor;
    if (excess > 0) {
      const wanted = floor + excess * (1 - share);
      setAbove(wanted * wanted);
      return;
    }
  }
  setAbove(squared);
}

function setAbove(squared: f64): void {
  let above = <f32>squared;
  if (<f64>above < squared) above = reinterpret<f32>(reinterpret<u32>(above) + 1);
  bestAbove = above;
}
