import { faultOf } from "../geometry/refused.ts";
import type { Refusal, Solid } from "../geometry/solid.ts";
import type { Scene, Shape } from "../scene/scene.ts";

/** A part that is neither drawn nor checked, since a mesh file of it is larger than what is read. */
export interface UncheckedPart extends Refusal {
  readonly id: string;
}

/** Parts of the scene that are left out, in its order: those with a piece whose mesh is not read. */
export function uncheckedParts({ bodies }: Scene, meshFiles: ReadonlyMap<string, Solid>): UncheckedPart[] {
  return bodies.flatMap(({ id, shape }) => {
    const refused = refusalOf(shape, meshFiles);
    return refused ? [{ id, ...refused }] : [];
  });
}

/** For work that would be wrong without them. Throws InputError `mesh` naming the file of the first. */
export function requireWhole({ unchecked: [first] }: { readonly unchecked: readonly UncheckedPart[] }): void {
  if (first) throw faultOf(first);
}

function refusalOf(shape: Shape, meshFiles: ReadonlyMap<string, Solid>): Refusal | undefined {
  if (shape.kind === "mesh") return meshFiles.get(shape.file)?.refused;
  if (shape.kind !== "group") return undefined;
  for (const part of shape.parts) {
    const refused = refusalOf(part, meshFiles);
    if (refused) return refused;
  }
  return undefined;
}
