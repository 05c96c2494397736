import type { ModelBody } from "../../check/model.ts";
import { objOf, stlOf } from "../../geometry/export/meshFiles.ts";
import { InputError } from "../../scene/error.ts";
import type { Scene } from "../../scene/scene.ts";
import { glbOf } from "./glb.ts";
import { stlZip } from "./partsZip.ts";
import { type StandingState, standingParts } from "./standing.ts";

/** glb: metres, Y up; obj and stl: mm; stl: one part; stls: a zip with an STL of each. */
export type ModelFormat = "glb" | "obj" | "stl" | "stls";

/**
 * The bodies that are checked as they stand in one state, as a file. `part`: only what has this id or key; null: all. Throws InputError
 * for a part that is not there, for several in one STL, and as standingParts does.
 */
export async function modelFile(
  scene: Scene,
  bodies: readonly ModelBody[],
  state: StandingState,
  format: ModelFormat,
  part: string | null,
): Promise<Uint8Array<ArrayBuffer>> {
  const all = standingParts(scene, bodies, state);
  const parts = part === null ? all : all.filter(({ key }) => key === part || key.startsWith(`${part}@`));
  if (parts.length === 0)
    throw new InputError(
      "missing-id",
      { path: "part" },
      `no part is called "${part}"`,
      `one of ${all.map(({ key }) => key).join(", ")}`,
    );
  switch (format) {
    case "glb":
      return (await glbOf(parts)) as Uint8Array<ArrayBuffer>;
    case "obj":
      return new TextEncoder().encode(objOf(parts));
    case "stls":
      return stlZip(parts);
    case "stl": {
      if (parts.length > 1)
        throw new InputError(
          "wrong-value",
          { path: "part" },
          `an STL holds one part, and there are ${parts.length}`,
          `one of ${parts.map(({ key }) => key).join(", ")}, or an STL of each`,
        );
      return stlOf(parts[0]!);
    }
  }
}
