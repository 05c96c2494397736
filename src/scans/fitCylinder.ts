import { principalAxes, sumOfOuter } from "../maths/sym3.ts";
import { add, cross, dot, length, normalise, scale, squareTo, subtract, type Vec3 } from "../maths/vec3.ts";
import { middleOf, rootMeanSquare } from "./fitPlane.ts";
import { solveSymmetric } from "./solveSymmetric.ts";

export interface FittedCylinder {
  readonly kind: "cylinder";
  /** On the axis, in the middle of the points along it. */
  readonly at: Vec3;
  /** Unit vector, either way round. */
  readonly axis: Vec3;
  readonly radius_mm: number;
  /** How far along the axis the points reach. */
  readonly length_mm: number;
  readonly rms_mm: number;
}

const MOST_ROUNDS = 60;

/**
 * The cylinder with the least sum of squared distances to the points. It begins with the direction to which the surface's
 * normals are most nearly square and a circle through the points seen along it (I. Kåsa, "A circle fitting procedure and its error
 * analysis", IEEE Trans. Instrum. Meas. 25 (1976) 8), and goes on by Gauss–Newton steps of axis, place and radius (G. Lukács,
 * R. Martin, D. Marshall, "Faithful least-squares fitting of spheres, cylinders, cones and tori", ECCV 1998; cited from memory).
 * `normals` are unit vectors, one a point. Null where the points tell no cylinder (a plane, a ball).
 */
export function fitCylinder(points: readonly Vec3[], normals: readonly Vec3[]): FittedCylinder | null {
  if (points.length < 6) return null;
  const about = middleOf(points);
  const off = points.map((p) => subtract(p, about));
  const size = Math.sqrt(off.reduce((sum, p) => sum + dot(p, p), 0) / off.length);
  const { values, axes } = principalAxes(sumOfOuter(normals));
  // of a plane all normals are one, of a ball they spread in every direction
  if (!(values[1] > 1e-4 * values[0]) || values[2] > 0.5 * values[1]) return null;
  const first = circleAbout(off, axes[2]);
  if (first === null) return null;
  let now: Guess = { axis: axes[2], ...first };
  let worth = rootMeanSquare(leftOver(off, now));
  let damping = 1e-6;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const step = stepOf(off, now, damping);
    if (step === null) break;
    const next = moved(now, step);
    const nextWorth = rootMeanSquare(leftOver(off, next));
    const isBetter = nextWorth <= worth;
    if (isBetter) [now, worth] = [next, nextWorth];
    damping = isBetter ? Math.max(1e-12, damping / 10) : damping * 10;
    if (Math.hypot(...step) < 1e-12 * size || damping > 1e6) break;
  }
  if (!(now.radius > 0) || now.radius > 20 * size) return null;
  const along = off.map((p) => dot(p, now.axis));
  const [low, high] = [Math.min(...along), Math.max(...along)];
  const onAxis = add(now.at, scale(now.axis, (low + high) / 2 - dot(now.at, now.axis)));
  return {
    kind: "cylinder",
    at: add(about, onAxis),
    axis: now.axis,
    radius_mm: now.radius,
    length_mm: high - low,
    rms_mm: worth,
  };
}

/** Relative to the middle of the points. */
interface Guess {
  readonly at: Vec3;
  readonly axis: Vec3;
  readonly radius: number;
}

/** Kåsa's circle: linear in the centre and in r² − |centre|². */
function circleAbout(points: readonly Vec3[], axis: Vec3): Pick<Guess, "at" | "radius"> | null {
  const u = squareTo(axis);
  const v = cross(axis, u);
  const matrix = [0, 1, 2].map(() => [0, 0, 0]);
  const right = [0, 0, 0];
  for (const p of points) {
    const row = [dot(p, u), dot(p, v), 1];
    const square = row[0]! ** 2 + row[1]! ** 2;
    for (let i = 0; i < 3; i++) {
      right[i]! += row[i]! * square;
      for (let j = 0; j < 3; j++) matrix[i]![j]! += row[i]! * row[j]!;
    }
  }
  const found = solveSymmetric(matrix, right);
  if (found === null) return null;
  const [a, b] = [found[0]! / 2, found[1]! / 2];
  return { at: add(scale(u, a), scale(v, b)), radius: Math.sqrt(Math.max(0, found[2]! + a * a + b * b)) };
}

function leftOver(points: readonly Vec3[], { at, axis, radius }: Guess): number[] {
  return points.map((p) => length(cross(subtract(p, at), axis)) - radius);
}

/** Shift across the axis along u and v, lean of the axis towards u and v, growth of the radius. */
function stepOf(points: readonly Vec3[], { at, axis, radius }: Guess, damping: number): number[] | null {
  const u = squareTo(axis);
  const v = cross(axis, u);
  const matrix = Array.from({ length: 5 }, () => [0, 0, 0, 0, 0]);
  const right = [0, 0, 0, 0, 0];
  for (const p of points) {
    const from = subtract(p, at);
    const along = dot(from, axis);
    const across = subtract(from, scale(axis, along));
    const far = length(across);
    if (far === 0) continue;
    const [nu, nv] = [dot(across, u) / far, dot(across, v) / far];
    const row = [-nu, -nv, -along * nu, -along * nv, -1];
    for (let i = 0; i < 5; i++) {
      right[i]! -= row[i]! * (far - radius);
      for (let j = 0; j < 5; j++) matrix[i]![j]! += row[i]! * row[j]!;
    }
  }
  for (let i = 0; i < 5; i++) matrix[i]![i]! *= 1 + damping;
  return solveSymmetric(matrix, right);
}

function moved({ at, axis, radius }: Guess, step: readonly number[]): Guess {
  const u = squareTo(axis);
  const v = cross(axis, u);
  return {
    at: add(at, add(scale(u, step[0]!), scale(v, step[1]!))),
    axis: normalise(add(axis, add(scale(u, step[2]!), scale(v, step[3]!)))),
    radius: radius + step[4]!,
  };
}
