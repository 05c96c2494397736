import { create } from "zustand";
import type { SceneDocument } from "../../scene/document.ts";
import type { Side } from "../../scene/scene.ts";
import type { AsBuilt } from "../../studies/asBuilt/asBuilt.ts";
import { askedStudy } from "../studies/askedStudy.ts";

interface AsBuiltLook {
  /** The side whose welded places are entered. */
  readonly side: Side;
}

/** Neither saved nor undone. */
export const useAsBuiltLook = create<AsBuiltLook>()(() => ({ side: "left" }));

export interface AsBuiltQuestion {
  readonly document: SceneDocument;
}

export const asBuiltStudy = askedStudy<AsBuiltQuestion, AsBuilt>();
