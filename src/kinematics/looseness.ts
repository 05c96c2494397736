import { add, cross, dot, length, normalise, scale, type Vec3 } from "../maths/vec3.ts";
import { EQUATION_COUNT, FREEDOM_COUNT } from "./equations.ts";
import { LARGEST_RATE, REACH_mm } from "./solver.ts";

/** Of an exactly free movement rounding leaves no more. */
const ROUNDING = 1e-12;

/** A movement that the members leave free, or all but free, although they take five freedoms: about a line, or along a direction. */
export interface FreeMovement {
  readonly kind: "turn" | "slide";
  /** How far the wheel goes for each mm of play in the joints, mm: as shift and turn at REACH_mm; infinite where nothing holds it. */
  readonly perPlay: number;
  readonly direction: Vec3;
  /** A point on the line; for a slide, the wheel centre. */
  readonly point: Vec3;
}

/**
 * The movement left to the carrier with its wheel's height held, freely or all but freely, or null when there is none. It is the null vector of
 * the 6×6 matrix of the five constraint rows and the row of the wheel's height (singular values by one-sided Jacobi
 * rotations: Golub & Van Loan, Matrix Computations, "Jacobi SVD"). All but free is what goes farther for a mm of play or rise than the solver
 * lets the hub go for one: it would take the corner for locked where it is drawn.
 */
export function freeMovement(jacobian: Float64Array, wheelCentre: Vec3): FreeMovement | null {
  const columns: number[][] = [];
  for (let column = 0; column < FREEDOM_COUNT; column++) {
    const weight = column < 3 ? 1 / REACH_mm : 1;
    const values: number[] = [];
    for (let row = 0; row < EQUATION_COUNT; row++) values.push(jacobian[row * FREEDOM_COUNT + column]! * weight);
    values.push(column === FREEDOM_COUNT - 1 ? 1 : 0);
    columns.push(values);
  }
  const right = orthogonalise(columns);
  const sizes = columns.map((column) => Math.hypot(...column));
  const largest = Math.max(...sizes);
  const least = Math.min(...sizes);
  if (least * LARGEST_RATE >= 1) return null;
  const perPlay = least > ROUNDING * largest ? 1 / least : Number.POSITIVE_INFINITY;
  const free = right[sizes.indexOf(least)]!;
  const turn: Vec3 = [free[0]! / REACH_mm, free[1]! / REACH_mm, free[2]! / REACH_mm];
  const shift: Vec3 = [free[3]!, free[4]!, free[5]!];
  const rate = length(turn);
  if (rate * REACH_mm < 1e-6 * length(shift)) {
    return { kind: "slide", perPlay, direction: towardsPositive(normalise(shift)), point: wheelCentre };
  }
  // the screw axis of the movement lies (ω × v)/ω² from the wheel centre
  const foot = add(wheelCentre, scale(cross(turn, shift), 1 / dot(turn, turn)));
  const direction = towardsPositive(normalise(turn));
  return { kind: "turn", perPlay, direction, point: foot };
}

const PLAY_mm = 0.1;

/** "turn about the line through forward -20, out 650, up 430 mm along forward 0.1, out 0.99, up 0.02 without rising" */
export function describeMovement(movement: FreeMovement): string {
  const direction = inWords(movement.direction, 3);
  const how =
    movement.kind === "slide"
      ? `slide along ${direction}`
      : `turn about the line through ${inWords(movement.point, 1)} mm along ${direction}`;
  if (movement.perPlay === Number.POSITIVE_INFINITY) return `${how} without rising`;
  return `${how} without rising, all but freely: ${PLAY_mm} mm of play in the joints lets it go some ${Math.round(PLAY_mm * movement.perPlay)} mm`;
}

function inWords(v: Vec3, decimals: number): string {
  const [forward, out, up] = v.map((value) => (Math.round(value * 10 ** decimals) / 10 ** decimals + 0).toString());
  return `forward ${forward}, out ${out}, up ${up}`;
}

function towardsPositive(direction: Vec3): Vec3 {
  const leading = direction.reduce((a, b) => (Math.abs(b) > Math.abs(a) + 1e-9 ? b : a));
  return leading < 0 ? scale(direction, -1) : direction;
}

/** Makes the columns square to each other by rotations among them; gives the columns of those rotations' product. */
function orthogonalise(columns: number[][]): number[][] {
  const n = columns.length;
  const product = columns.map((_, i) => columns.map((_, j) => (i === j ? 1 : 0)));
  for (let sweep = 0; sweep < 40; sweep++) {
    let turned = false;
    for (let p = 0; p < n - 1; p++) {
      for (let q = p + 1; q < n; q++) {
        const alpha = inner(columns[p]!, columns[p]!);
        const beta = inner(columns[q]!, columns[q]!);
        const gamma = inner(columns[p]!, columns[q]!);
        if (Math.abs(gamma) <= 1e-15 * Math.sqrt(alpha * beta)) continue;
        turned = true;
        const zeta = (beta - alpha) / (2 * gamma);
        const t = (zeta < 0 ? -1 : 1) / (Math.abs(zeta) + Math.sqrt(1 + zeta * zeta));
        const c = 1 / Math.sqrt(1 + t * t);
        rotate(columns[p]!, columns[q]!, c, c * t);
        rotate(product[p]!, product[q]!, c, c * t);
      }
    }
    if (!turned) break;
  }
  return product;
}

function inner(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * b[i]!, 0);
}

function rotate(a: number[], b: number[], c: number, s: number): void {
  for (let i = 0; i < a.length; i++) {
    const x = a[i]!;
    const y = b[i]!;
    a[i] = c * x - s * y;
    b[i] = s * x + c * y;
  }
}
