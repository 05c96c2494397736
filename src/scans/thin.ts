import { MeshoptSimplifier, type SimplifierFlags } from "meshoptimizer/simplifier";
import { edgeTable, nextHalfEdge } from "../geometry/edgeTable.ts";
import { shellsOf } from "../geometry/shells.ts";
import type { Solid } from "../geometry/solid.ts";
import { withoutUnused } from "../geometry/weld.ts";
import type { Poll } from "../maths/poll.ts";
import { InputError } from "../scene/error.ts";
import type { MeshThinning } from "../scene/scene.ts";
import { holdUnproven } from "./deviation.ts";

/** Of the bound that is asked for, what the simplifier is asked for: its error is a mean of a kind. Tried in this order. */
const SHARES = [1 / 2, 1 / 4, 1 / 10] as const;
/** Commonly two to five are enough. */
const MOST_ROUNDS = 12;

/** Of the mesh's size. */
const PICTURE_ERROR = 0.005;

export interface Thinned {
  readonly solid: Solid;
  readonly thinned: MeshThinning;
}

interface Simplified {
  readonly solid: Solid;
  /** Proved: no point of the mesh is farther from it than it may be, and it is closed where the mesh is. */
  readonly isSound: boolean;
  readonly seen_mm: number;
}

/**
 * The mesh with as few triangles as the simplifier (quadric errors, M. Garland, P. Heckbert 1997, as meshoptimizer has them) finds for
 * an error of `error_mm`; its vertices are some of the mesh's own. Its error is no bound: what comes to lie farther than `within_mm`
 * from what is left is held where it is, and it is done again, until the bound is proved or nothing more can be held. The same
 * on every machine: the simplifier is one compiled program, and what is held hangs on distances alone.
 */
async function simplified(mesh: Solid, { within_mm, error_mm }: MeshThinning, poll?: Poll): Promise<Simplified> {
  await MeshoptSimplifier.ready;
  const { positions, indices } = mesh;
  const isHeld = new Uint8Array(positions.length / 3);
  for (let round = 1; ; round++) {
    const [left] = MeshoptSimplifier.simplifyWithAttributes(
      indices,
      positions,
      3,
      NO_ATTRIBUTES,
      0,
      [],
      isHeld,
      0,
      error_mm,
      ERROR_IN_MM,
    );
    poll?.();
    const solid = shellsOf(withoutUnused(positions, left.slice()));
    if (left.length === 0) return { solid, isSound: false, seen_mm: Number.POSITIVE_INFINITY };
    const { isWithin, isNew, seen_mm } = holdUnproven(mesh, solid, within_mm, isHeld, poll);
    const hasOpened = isWithin && isClosed(mesh) && !isClosed(solid);
    const goesOn = hasOpened ? holdOpen(mesh, left, isHeld) : !isWithin && isNew;
    if (!goesOn || round === MOST_ROUNDS) return { solid, isSound: isWithin && !hasOpened, seen_mm };
  }
}

const NO_ATTRIBUTES = new Float32Array();
const ERROR_IN_MM: SimplifierFlags[] = ["ErrorAbsolute"];

/**
 * Marks all vertices of the mesh round the ends of edges that have not two triangles (two sheets that were brought together), so that
 * it stays there as it is; false: all were marked already.
 */
function holdOpen(mesh: Solid, left: Uint32Array, isHeld: Uint8Array): boolean {
  const { uses, first, edgeCount } = edgeTable(left);
  const isEnd = new Uint8Array(isHeld.length);
  for (let edge = 0; edge < edgeCount; edge++) {
    if (uses[edge] === 2) continue;
    isEnd[left[first[edge]!]!] = 1;
    isEnd[left[nextHalfEdge(first[edge]!)]!] = 1;
  }
  let isNew = false;
  for (let t = 0; t < mesh.indices.length; t += 3) {
    const corners = mesh.indices.subarray(t, t + 3);
    if (!corners.some((corner) => isEnd[corner] === 1)) continue;
    for (const corner of corners) {
      isNew ||= isHeld[corner] === 0;
      isHeld[corner] = 1;
    }
  }
  return isNew;
}

/** No more triangles than that where it can be, for a picture: nothing is proved of it. */
export async function reduced(mesh: Solid, triangles: number): Promise<Pick<Solid, "positions" | "indices">> {
  if (mesh.indices.length <= 3 * triangles) return mesh;
  await MeshoptSimplifier.ready;
  const [indices] = MeshoptSimplifier.simplify(mesh.indices, mesh.positions, 3, 3 * triangles, PICTURE_ERROR);
  return withoutUnused(mesh.positions, indices);
}

/** Thinned out as far as is found with no point of the mesh farther than `within_mm` from what is left; null where nothing can go. */
export async function thinWithin(mesh: Solid, within_mm: number, poll?: Poll): Promise<Thinned | null> {
  for (const share of SHARES) {
    const thinned = { within_mm, error_mm: within_mm * share };
    const { solid, isSound } = await simplified(mesh, thinned, poll);
    if (isSound && solid.indices.length < mesh.indices.length) return { solid, thinned };
  }
  return null;
}

/** The same thinning again, as a scene tells it. Throws InputError `mesh` where the bound that the scene states does not hold. */
export async function thinAgain(mesh: Solid, thinned: MeshThinning, file: string, poll?: Poll): Promise<Solid> {
  const { within_mm, error_mm } = thinned;
  const { solid, isSound, seen_mm } = await simplified(mesh, thinned, poll);
  if (isSound) return solid;
  const wrong =
    solid.indices.length > 0
      ? `thinned out with an error of ${error_mm} mm it cannot be proved to be within ${within_mm} mm (${seen_mm.toFixed(3)} mm were seen)`
      : `thinned out with an error of ${error_mm} mm nothing of it is left`;
  throw new InputError("mesh", { file }, wrong, "a smaller thinned.error_mm, or a larger thinned.within_mm");
}

function isClosed({ shells }: Solid): boolean {
  return shells.every((shell) => shell.closed);
}
