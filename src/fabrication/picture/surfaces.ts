import type { ModelBody } from "../../check/model.ts";
import type { PatchMesh } from "../../clearance/types.ts";
import { creaseNormals, type ShadedMesh } from "../../geometry/creaseNormals.ts";
import type { Solid } from "../../geometry/solid.ts";
import { tyreMesh } from "../../geometry/tyreLook.ts";
import type { DrawnSurface } from "./soup.ts";

/** Shading a part takes longer than drawing it, and it is the same in every picture. */
const shaded = new WeakMap<Solid, ShadedMesh>();

/** The surface that the eye should see of a body. */
export function shadedBody({ solid, look }: Pick<ModelBody, "solid" | "look">): ShadedMesh {
  let mesh = shaded.get(solid);
  if (!mesh) {
    const { positions, indices } = (look === "tyre" ? tyreMesh(solid) : null) ?? solid;
    mesh = creaseNormals(positions, indices);
    shaded.set(solid, mesh);
  }
  return mesh;
}

/** The surface of a patch with its clearance, its vertices doubled along creases. */
export function shadedPatch({
  positions,
  indices,
  clearance_mm,
}: PatchMesh): Required<Pick<DrawnSurface, "mesh" | "clearance_mm">> {
  const mesh = creaseNormals(positions, indices);
  const clearance = new Float32Array(mesh.positions.length / 3);
  for (let c = 0; c < indices.length; c++) clearance[mesh.indices[c]!] = clearance_mm[indices[c]!]!;
  return { mesh, clearance_mm: clearance };
}
