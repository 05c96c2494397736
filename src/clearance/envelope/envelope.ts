import { POSE_SIZE } from "../../maths/pose.ts";
import type { CollisionTree } from "../kernel.ts";
import { distanceField, type Lattice } from "./field.ts";
import { fillWithin } from "./outside.ts";
import { type LevelSurface, levelSurface } from "./tetrahedra.ts";

/** Placements of a body that stand for all of its motion. */
export interface SweptStates {
  /** 12 numbers each (maths/pose.ts), into the axes in which the room is told. */
  readonly poses: Float64Array;
  /** At every moment of the motion each point of the body is at most so far from where one of the placements has it. */
  readonly between_mm: number;
}

export interface Envelope extends LevelSurface {
  /** No point of the surface is farther than this from the room that is truly swept. */
  readonly accuracy_mm: number;
}

/** The finest lattice that memory and patience allow. */
const MOST_NODES = 40_000_000;
/** Cubes of the lattice that the surface may pass through, each of which makes some five triangles. */
const MOST_CUBES = 120_000;
/** How much too far nodes may be told, of the lattice's spacing: half of the queries are saved. */
const SLACK = 0.2;
/** Of float32 coordinates and distances, and of vertices that keep off their edges' ends. */
const ROUNDING_mm = 2e-3;
/** The first, coarse look at how large the surface is. */
const COARSER = 4;

/**
 * The room that a body sweeps through as one closed surface, never inside the true one: the surface on which the distance to
 * the nearest placement, interpolated linearly within the tetrahedra of a lattice of spacing h, is
 *
 *   c = between + slack + (√3/2)·h.
 *
 * Of a place x with the weights wᵢ of its tetrahedron's nodes pᵢ the interpolated value f differs from the true distance d, which
 * changes by no more than one goes, by |f − d| ≤ Σ wᵢ·|x − pᵢ| ≤ √(Σ wᵢ·|x − pᵢ|²) (Jensen) ≤ R, for that sum of squares is
 * R² less the square of x's distance from the tetrahedron's circumcentre; R = (√3/2)·h is half the cube's diagonal. So
 * wherever the body comes, d ≤ between and f ≤ c, as nodes are told up to a slack too far (field.ts): no such place is outside.
 * And on the surface d ≤ c + R: it is at most between + slack + √3·h outside of the true room, which is the accuracy told.
 * Hollows without a way out count as room too.
 *
 * `accuracy_mm` is asked; where the lattice would grow too large it is coarser, and the answer tells by how much. Yields the
 * share done. Throws RangeError for an accuracy that `between_mm` alone uses up.
 */
export function* sweptEnvelope(
  tree: CollisionTree,
  states: SweptStates,
  accuracy_mm: number,
): Generator<number, Envelope> {
  const { poses, between_mm } = states;
  let spacing_mm = (accuracy_mm - between_mm) / (Math.sqrt(3) + SLACK);
  if (!(spacing_mm > 0)) throw new RangeError(`placements ${between_mm} mm apart cannot tell ${accuracy_mm} mm`);
  if (tree.nodeCount === 0 || poses.length === 0) {
    const nothing = { positions: new Float32Array(0), normals: new Float32Array(0), indices: new Uint32Array(0) };
    return { ...nothing, accuracy_mm };
  }
  const box = sweptBox(tree, poses);
  const volume = box.size[0] * box.size[1] * box.size[2];
  spacing_mm = Math.max(spacing_mm, Math.cbrt(volume / MOST_NODES));
  const coarse = yield* fieldAt(tree, states, box, COARSER * spacing_mm, 0, 0.08);
  const cubes = COARSER * COARSER * cubesCrossed(coarse);
  if (cubes > MOST_CUBES) spacing_mm *= Math.sqrt(cubes / MOST_CUBES);
  const { field, lattice, level_mm } = yield* fieldAt(tree, states, box, spacing_mm, 0.08, 0.85);
  fillWithin(field, lattice, level_mm);
  const surface = yield* shareOf(levelSurface(field, lattice, level_mm), 0.93, 0.07);
  return { ...surface, accuracy_mm: between_mm + (Math.sqrt(3) + SLACK) * spacing_mm + 2 * ROUNDING_mm };
}

/** Of the surface of the box round a sweep, about as much has the sweep itself; only to choose placements by. */
const SHARE_OF_BOX = 0.6;

/**
 * The accuracy that the lattice will likely allow where that is coarser than what is asked, by the box round some placements: so
 * that no more of them are made than it can use.
 */
export function likelyAccuracy(tree: CollisionTree, poses: Float64Array, accuracy_mm: number): number {
  if (tree.nodeCount === 0 || poses.length === 0) return accuracy_mm;
  const [x, y, z] = sweptBox(tree, poses).size;
  const area = 2 * (x * y + y * z + z * x) * SHARE_OF_BOX;
  return Math.max(accuracy_mm, (Math.sqrt(3) + SLACK) * Math.sqrt(area / MOST_CUBES));
}

interface SweptBox {
  readonly low: readonly [number, number, number];
  readonly size: readonly [number, number, number];
}

/** The box round the body's box in every placement. */
function sweptBox(tree: CollisionTree, poses: Float64Array): SweptBox {
  const centre = [tree.boxes[0]!, tree.boxes[1]!, tree.boxes[2]!];
  const half = [tree.boxes[3]!, tree.boxes[4]!, tree.boxes[5]!];
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let at = 0; at < poses.length; at += POSE_SIZE) {
    for (let row = 0; row < 3; row++) {
      let middle = poses[at + 4 * row + 3]!;
      let reach = 0;
      for (let k = 0; k < 3; k++) {
        middle += poses[at + 4 * row + k]! * centre[k]!;
        reach += Math.abs(poses[at + 4 * row + k]!) * half[k]!;
      }
      low[row] = Math.min(low[row]!, middle - reach);
      high[row] = Math.max(high[row]!, middle + reach);
    }
  }
  return { low, size: [high[0]! - low[0], high[1]! - low[1], high[2]! - low[2]] };
}

interface FieldAt {
  readonly field: Float32Array;
  readonly lattice: Lattice;
  readonly level_mm: number;
}

function* fieldAt(
  tree: CollisionTree,
  { poses, between_mm }: SweptStates,
  { low, size }: SweptBox,
  spacing_mm: number,
  from: number,
  share: number,
): Generator<number, FieldAt> {
  const slack_mm = SLACK * spacing_mm;
  const level_mm = between_mm + slack_mm + (Math.sqrt(3) / 2) * spacing_mm + ROUNDING_mm;
  // beyond it no node has a neighbour, along any edge of a tetrahedron, that is below the level
  const cutoff_mm = level_mm + Math.sqrt(3) * spacing_mm;
  const room_mm = cutoff_mm + spacing_mm;
  const count = (axis: number) => Math.ceil((size[axis]! + 2 * room_mm) / spacing_mm) + 1;
  const lattice: Lattice = {
    low: [low[0] - room_mm, low[1] - room_mm, low[2] - room_mm],
    spacing_mm,
    counts: [count(0), count(1), count(2)],
  };
  const field = yield* shareOf(distanceField(tree, poses, lattice, cutoff_mm, slack_mm), from, share);
  return { field, lattice, level_mm };
}

/** How many cubes of the lattice the level passes through, the inner side of it too. */
function cubesCrossed({ field, lattice: { counts }, level_mm }: FieldAt): number {
  const [nx, ny, nz] = counts;
  const rows = nx * ny;
  let crossed = 0;
  for (let k = 0; k < nz - 1; k++) {
    for (let j = 0; j < ny - 1; j++) {
      for (let i = 0; i < nx - 1; i++) {
        const node = i + nx * j + rows * k;
        const isIn = field[node]! < level_mm;
        for (const step of [1, nx, rows, 1 + nx + rows]) {
          if (field[node + step]! < level_mm === isIn) continue;
          crossed++;
          break;
        }
      }
    }
  }
  return crossed;
}

function* shareOf<T>(work: Generator<number, T>, from: number, share: number): Generator<number, T> {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
    yield from + share * step.value;
  }
}
