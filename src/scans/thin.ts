import { MeshoptSimplifier } from "meshoptimizer/simplifier";
import { shellsOf } from "../geometry/shells.ts";
import type { Solid } from "../geometry/solid.ts";
import { withoutUnused } from "../geometry/weld.ts";
import type { Poll } from "../maths/poll.ts";
import { InputError } from "../scene/error.ts";
import type { MeshThinning } from "../scene/scene.ts";
import { provenWithin } from "./deviation.ts";

/** The simplifier's error is a mean of a kind; the farthest point is some three times as far off. Tried in this order. */
const SHARES = [1 / 2, 1 / 3, 1 / 5, 1 / 10, 1 / 30] as const;

/** Of the mesh's size. */
const PICTURE_ERROR = 0.005;

export interface Thinned {
  readonly solid: Solid;
  readonly thinned: MeshThinning;
}

/**
 * The mesh with as few triangles as the simplifier (quadric errors, M. Garland, P. Heckbert 1997, as meshoptimizer has them) finds for
 * an error of `error_mm`. Its vertices are some of the mesh's own. The same on every machine: it is one compiled program.
 */
export async function simplified(mesh: Solid, error_mm: number): Promise<Solid> {
  await MeshoptSimplifier.ready;
  const [indices] = MeshoptSimplifier.simplify(mesh.indices, mesh.positions, 3, 0, error_mm, ["ErrorAbsolute"]);
  return shellsOf(withoutUnused(mesh.positions, indices));
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
    const error_mm = within_mm * share;
    const solid = await simplified(mesh, error_mm);
    poll?.();
    if (solid.indices.length >= mesh.indices.length) return null;
    if (solid.indices.length === 0 || hasOpened(mesh, solid)) continue;
    if (provenWithin(mesh, solid, within_mm, poll).isWithin) return { solid, thinned: { within_mm, error_mm } };
  }
  return null;
}

/** The same thinning again, as a scene tells it. Throws InputError `mesh` where the bound that the scene states does not hold. */
export async function thinAgain(
  mesh: Solid,
  { within_mm, error_mm }: MeshThinning,
  file: string,
  poll?: Poll,
): Promise<Solid> {
  const solid = await simplified(mesh, error_mm);
  poll?.();
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
