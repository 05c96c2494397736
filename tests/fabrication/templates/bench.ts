import { readFileSync } from "node:fs";
import type { BodyDocument, MadeDocument, SceneDocument } from "../../../src/scene/document.ts";
import { shapeOfMade } from "../../../src/scene/parts/follow.ts";
import { readScene } from "../../../src/scene/read.ts";
import { usualMade } from "../../../src/scene/recipes/makeShape.ts";

const NAME = "2-hub-and-arm-re-cut-link.json";
const scene = readScene(readFileSync(new URL(`../../../scenes/${NAME}`, import.meta.url), "utf8"), NAME);

/** A corner whose only parts are these, each drawn by its recipe; sizes that are not told are the usual ones. */
export function sceneOf(
  parts: readonly {
    readonly id: string;
    readonly on?: string;
    readonly mirror?: boolean;
    readonly made: MadeDocument;
  }[],
): SceneDocument {
  const empty: SceneDocument = {
    ...scene,
    members: scene.members.map(({ body: _, made: __, ...rest }) => rest),
    bodies: [],
    clearances: { default_mm: 10 },
  };
  const bodies = parts.map(({ id, on = "chassis", mirror = false, made }): BodyDocument => {
    const full = { ...usualMade(made.as), ...made };
    return { id, on, role: "bracket", mirror, made: full, shape: shapeOfMade(empty, full) };
  });
  return { ...empty, bodies };
}
