import { create } from "zustand";
import { drawnPart } from "../../scene/aside.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { Side } from "../../scene/scene.ts";
import type { AsBuilt } from "../../studies/asBuilt/asBuilt.ts";
import type { Means } from "../../studies/asBuilt/means.ts";
import type { PullRequest, WeldPull } from "../../studies/asBuilt/weldPull.ts";
import type { AsBuiltQuestion } from "../../work/protocol.ts";
import { app } from "../store/useApp.ts";
import { askedStudy } from "../studies/askedStudy.ts";

interface AsBuiltLook {
  /** The side whose welded places are entered. */
  readonly side: Side;
  /** What can be set on the car, each side alike. */
  readonly means: readonly Means[];
  /** How far welding may pull any mount, mm. */
  readonly pull_mm: number;
}

// a jigged arm pulls by 1 to 2 mm (builders' logs)
const LOOK: AsBuiltLook = { side: "left", means: [], pull_mm: 2 };

/** Neither saved nor undone. */
export const useAsBuiltLook = create<AsBuiltLook>()(() => LOOK);

export const asBuiltStudy = askedStudy<AsBuiltQuestion, AsBuilt>();
export const pullStudy = askedStudy<PullRequest, WeldPull>();

app.subscribe((state, before) => {
  if (state.fileName !== before.fileName) useAsBuiltLook.setState(LOOK);
});

/** How near the angles shall come again: finer than a string box tells, common practice, no source. */
export const WITHIN = { toeWithin_deg: 0.02, camberWithin_deg: 0.1 } as const;

export function builtQuestion(document: SceneDocument, means: readonly Means[]): AsBuiltQuestion {
  return { document, stated: means.length > 0 ? { means, ...WITHIN } : null };
}

/** Every named point that holds a member pulled by the same. */
export function pullQuestion(
  document: SceneDocument,
  points: readonly string[],
  { means, pull_mm }: Pick<AsBuiltLook, "means" | "pull_mm">,
): PullRequest {
  const pulls = Object.fromEntries(points.map((point) => [point, pull_mm]));
  return { document: drawnPart(document), pull_mm: pulls, means, ...WITHIN };
}
