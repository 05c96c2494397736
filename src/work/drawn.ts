import type { ModelBody } from "../check/model.ts";
import type { ContactPatch, PatchMesh } from "../clearance/types.ts";
import { creaseNormals, type ShadedMesh } from "../geometry/creaseNormals.ts";
import type { Solid } from "../geometry/solid.ts";
import { tyreMesh } from "../geometry/tyreLook.ts";

/** A body with what a view draws of it, made off the page's thread. */
export interface DrawnBody extends ModelBody {
  readonly drawn?: ShadedMesh;
}

/** A patch as a view draws it: its vertices doubled along creases. */
export interface DrawnPatch extends PatchMesh {
  /** 3 per vertex, unit. */
  readonly normals: Float32Array;
}

export interface DrawnContact extends ContactPatch {
  readonly a: DrawnPatch;
  readonly b: DrawnPatch;
}

/** The surface that the eye should see of a body, ready to be shaded. */
export function drawing({ solid, look }: Pick<ModelBody, "solid" | "look">): ShadedMesh {
  const mesh = (look === "tyre" ? tyreMesh(solid) : null) ?? solid;
  return creaseNormals(mesh.positions, mesh.indices);
}

/** A body as it goes to the page: without its solid and what is drawn of it where the page has those of equal content. */
export type SentBody = Omit<DrawnBody, "solid"> & { readonly solid: Solid | null };

/** `have`: contents of bodies that the page has. Bodies of equal content share one drawing. */
export function drawnBodies(bodies: readonly ModelBody[], have: ReadonlySet<string>): SentBody[] {
  const drawings = new Map<string, ShadedMesh>();
  return bodies.map((body): SentBody => {
    if (have.has(body.content)) return { ...body, solid: null };
    // a coil is drawn from its sizes
    if (body.look === "coil") return body;
    const name = `${body.look ?? ""}|${body.content}`;
    const drawn = drawings.get(name) ?? drawing(body);
    drawings.set(name, drawn);
    return { ...body, drawn };
  });
}

export function drawnContact({ a, b, crossing }: ContactPatch): DrawnContact {
  return { a: drawnPatch(a), b: drawnPatch(b), crossing };
}

/** Flat corners of the patch get the same smooth look as the part below. */
function drawnPatch({ positions, indices, clearance_mm, area_mm2 }: PatchMesh): DrawnPatch {
  const shaded = creaseNormals(positions, indices);
  const clearance = new Float32Array(shaded.positions.length / 3);
  for (let c = 0; c < indices.length; c++) clearance[shaded.indices[c]!] = clearance_mm[indices[c]!]!;
  return { ...shaded, clearance_mm: clearance, area_mm2 };
}

/** Buffers that may go over to the page instead of being copied: nobody else has them. */
export function buffersOfBodies(bodies: readonly SentBody[]): Transferable[] {
  return [...new Set(bodies.flatMap(({ drawn }) => (drawn ? buffersOfMesh(drawn) : [])))];
}

export function buffersOfContact({ a, b, crossing }: DrawnContact): Transferable[] {
  return [a, b]
    .flatMap((patch) => [...buffersOfMesh(patch), patch.clearance_mm.buffer])
    .concat(crossing.map(({ buffer }) => buffer));
}

function buffersOfMesh({ positions, normals, indices }: ShadedMesh): Transferable[] {
  return [positions.buffer, normals.buffer, indices.buffer];
}
