import { MeshoptSimplifier, type SimplifierFlags } from "meshoptimizer/simplifier";
import { createPointQuery, createSurfacePoint } from "../clearance/distancePoint.ts";
import { buildTree } from "../clearance/tree.ts";
import { shellsOf } from "../geometry/shells.ts";
import type { Solid } from "../geometry/solid.ts";
import { withoutUnused } from "../geometry/weld.ts";
import { Pacer, type Poll } from "../maths/poll.ts";
import { InputError } from "../scene/error.ts";
import type { MeshThinning } from "../scene/scene.ts";
import { provenWithin } from "./deviation.ts";

/** Of the bound that is asked for, what the simplifier is asked for: its error is a mean of a kind. Tried in this order. */
const SHARES = [1 / 2, 1 / 4, 1 / 10] as const;
/** Vertices that come to lie farther off than this share of the bound stay where they are in the next round. */
const STAY_SHARE = 0.75;
const MOST_ROUNDS = 6;
/** Visits to a vertex before polling: some milliseconds. */
const STRETCH = 3000;

/** Of the mesh's size. */
const PICTURE_ERROR = 0.005;

export interface Thinned {
  readonly solid: Solid;
  readonly thinned: MeshThinning;
}

/**
 * The mesh with as few triangles as the simplifier (quadric errors, M. Garland, P. Heckbert 1997, as meshoptimizer has them) finds for
 * an error of `error_mm`; its vertices are some of the mesh's own. Its error is no bound: where a vertex comes to lie near
 * `within_mm` from what is left, it is done again with that vertex held, until there is none. The same on every machine: the simplifier is
 * one compiled program, and which vertices are held hangs on exact distances alone.
 */
async function simplified(mesh: Solid, { within_mm, error_mm }: MeshThinning, poll?: Poll): Promise<Solid> {
  await MeshoptSimplifier.ready;
  const { positions, indices } = mesh;
  const isHeld = new Uint8Array(positions.length / 3);
  const pacer = new Pacer(poll, STRETCH);
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
    const solid = shellsOf(withoutUnused(positions, left));
    if (left.length === 0 || round === MOST_ROUNDS) return solid;
    if (!holdFar(positions, solid, STAY_SHARE * within_mm, isHeld, pacer)) return solid;
  }
}

const NO_ATTRIBUTES = new Float32Array();
const ERROR_IN_MM: SimplifierFlags[] = ["ErrorAbsolute"];

/** Marks the vertices that are farther than that from the solid; false: there is none that was not marked already. */
function holdFar(positions: Float32Array, solid: Solid, far_mm: number, isHeld: Uint8Array, pacer: Pacer): boolean {
  const query = createPointQuery(buildTree(solid));
  const found = createSurfacePoint();
  let isNew = false;
  for (let i = 0; i < isHeld.length; i++) {
    pacer.spend(1);
    if (isHeld[i] === 1) continue;
    const [x, y, z] = [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
    query.nearest(x, y, z, Number.POSITIVE_INFINITY, found, far_mm);
    if (found.distance_mm < far_mm) continue;
    isHeld[i] = 1;
    isNew = true;
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
    const solid = await simplified(mesh, thinned, poll);
    if (solid.indices.length >= mesh.indices.length) return null;
    if (solid.indices.length === 0 || hasOpened(mesh, solid)) continue;
    if (provenWithin(mesh, solid, within_mm, poll).isWithin) return { solid, thinned };
  }
  return null;
}

/** The same thinning again, as a scene tells it. Throws InputError `mesh` where the bound that the scene states does not hold. */
export async function thinAgain(mesh: Solid, thinned: MeshThinning, file: string, poll?: Poll): Promise<Solid> {
  const { within_mm, error_mm } = thinned;
  const solid = await simplified(mesh, thinned, poll);
  const deviation = solid.indices.length > 0 ? provenWithin(mesh, solid, within_mm, poll) : null;
  if (deviation?.isWithin) return solid;
  const wrong = deviation
    ? `thinned out with an error of ${error_mm} mm it is ${deviation.seen_mm.toFixed(3)} mm off at least, more than within_mm, ${within_mm}`
    : `thinned out with an error of ${error_mm} mm nothing of it is left`;
  throw new InputError("mesh", { file }, wrong, "a smaller thinned.error_mm, or a larger thinned.within_mm");
}

/** An inside that was there must be there afterwards too. */
function hasOpened(before: Solid, after: Solid): boolean {
  const closed = ({ shells }: Solid) => shells.every((shell) => shell.closed);
  return closed(before) && !closed(after);
}
