import type { SceneDocument } from "../scene/document.ts";
import { resolveScene } from "../scene/resolve.ts";
import { correctMount, type MountCorrection, type WantedAngles } from "../studies/jig/inverse.ts";
import { mountsOf } from "../studies/jig/sensitivity.ts";

/** A mount, and where it alone must go; null: it alone cannot set it. */
export interface CorrectionOfMount {
  readonly point: string;
  readonly found: MountCorrection | null;
}

/** Of every mount where it must go for the wanted angles at ride height, in the order of the file. Throws InputError. */
export function correctionsOf(document: SceneDocument, wanted: WantedAngles): CorrectionOfMount[] {
  return mountsOf(document, resolveScene(document)).map(({ point }) => ({
    point,
    found: correctMount(document, point, wanted),
  }));
}
