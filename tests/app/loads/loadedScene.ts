import type { SceneDocument } from "../../../src/scene/document.ts";
import { smallScene } from "../smallScene.ts";

type Loads = NonNullable<SceneDocument["loads"]>;

/** The small corner with a damper on its lower wishbone, and what its wheels carry. */
export function loadedScene(loads: Partial<Loads> = { cornerMass_kg: 250 }): SceneDocument {
  return smallScene({
    damper: { top: [0, 480, 620], bottom: [0, 600, 210], on: "lower", closed_mm: 300, open_mm: 560, body_mm: 60 },
    loads,
  });
}
