import { create } from "zustand";
import { drawnPart } from "../../scene/aside.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { WantedAngles } from "../../studies/jig/inverse.ts";
import type { JigRequest, JigResult } from "../../studies/jig/jig.ts";
import type { CorrectionOfMount } from "../../work/corrections.ts";
import type { Question } from "../../work/protocol.ts";
import type { Told } from "../store/reports.ts";
import { app } from "../store/useApp.ts";
import { askedStudy } from "../studies/askedStudy.ts";

export type JigTab = "mounts" | "together" | "gaps" | "right";
export type JigQuestion = Question<JigRequest>;

/** What is asked of the mounts, and how the builder works. */
export type JigAsked = Omit<JigQuestion, "document" | "withClearances">;

interface JigLook {
  readonly tab: JigTab;
  readonly asked: JigAsked;
  /** The mount whose row stands open. */
  readonly openMount: string | null;
  /** Angles that are wanted at ride height; null: those that the scene means. */
  readonly wanted: WantedAngles | null;
}

const LOOK: JigLook = {
  tab: "mounts",
  // a tenth of a degree of toe, a quarter of camber, a millimetre in a jig: common practice, no source
  asked: { toeWithin_deg: 0.1, camberWithin_deg: 0.25, accuracy_mm: 1, tolerance_mm: {}, samples: 500, seed: 1 },
  openMount: null,
  wanted: null,
};

/** Neither saved nor undone. */
export const useJigLook = create<JigLook>()(() => LOOK);

export function setAsked(part: Partial<JigAsked>): void {
  useJigLook.setState({ asked: { ...useJigLook.getState().asked, ...part } });
}

const UNTOLD = { report: null, stale: false, error: null } as const;

/** What the workshop told last of the mounts and the angles. */
export const useJigTold = create<Told<JigResult>>()(() => UNTOLD);

/** Where each mount must go, and the question. */
export interface Corrections {
  readonly wanted: WantedAngles;
  readonly document: SceneDocument;
  readonly mounts: readonly CorrectionOfMount[];
}

export const useCorrectionsTold = create<Told<Corrections>>()(() => UNTOLD);

/** Every clearance with all tolerances takes long. */
export const jigGaps = askedStudy<JigQuestion, JigResult>();

app.subscribe((state, before) => {
  if (state.fileName === before.fileName) return;
  useJigLook.setState({ ...LOOK, tab: useJigLook.getState().tab });
  useJigTold.setState(UNTOLD);
  useCorrectionsTold.setState(UNTOLD);
});

export function gapsQuestion(document: SceneDocument, asked: JigAsked): JigQuestion {
  return { document: drawnPart(document), ...asked, withClearances: true };
}

export function wantedOf(document: SceneDocument, wanted: WantedAngles | null): WantedAngles {
  const { toe_deg, camber_deg } = document.wheel;
  return wanted ?? { toe_deg, camber_deg };
}
