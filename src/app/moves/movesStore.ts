import { create } from "zustand";
import type { SceneDocument } from "../../scene/document.ts";
import type { MovesRequest, MovesResult } from "../../studies/moves/moves.ts";
import type { Fit } from "../../studies/places/move.ts";
import type { PlaceLimits } from "../../studies/places/placeLimits.ts";
import type { Question } from "../../work/protocol.ts";
import { app } from "../store/useApp.ts";
import { askedStudy } from "../studies/askedStudy.ts";
import { openStudy } from "../studies/studiesStore.ts";

export type MovesQuestion = Question<MovesRequest>;
export type FitChoice = Fit | "either";

interface MovesLook {
  /** The pair "a/b" to clear; null: all that clash or are tight. */
  readonly pair: string | null;
  /** Points that may move; null: every mount. */
  readonly points: readonly string[] | null;
  readonly fit: FitChoice;
  readonly within_mm: number;
  readonly limits: Pick<PlaceLimits, "toeChange_deg" | "camber_deg" | "halfTrackChange_mm">;
}

const LOOK: MovesLook = { pair: null, points: null, fit: "either", within_mm: 40, limits: {} };

/** Neither saved nor undone. */
export const useMovesLook = create<MovesLook>()(() => LOOK);

export const movesStudy = askedStudy<MovesQuestion, MovesResult>();

app.subscribe((state, before) => {
  if (state.fileName !== before.fileName) useMovesLook.setState(LOOK);
});

/** Travels that are asked lie so far apart, mm. */
const TRAVEL_STEP_mm = 10;
/** As many of the smallest are checked in full. */
const PROVED = 3;

/** What the look asks of a scene. */
export function movesQuestion(document: SceneDocument, look: MovesLook): MovesQuestion {
  return {
    document,
    pair: look.pair,
    points: look.points ?? [],
    fits: look.fit === "either" ? ["cut", "bolted"] : [look.fit],
    within_mm: look.within_mm,
    limits: look.limits,
    travelStep_mm: TRAVEL_STEP_mm,
    proved: PROVED,
  };
}

/** Looks for what clears a pair, or all where it is null; the car is taken as it is kept. */
export function clearPair(pair: string | null): void {
  useMovesLook.setState({ pair });
  openStudy("moves");
  const { document } = app.getState();
  if (document) movesStudy.ask(movesQuestion(document, useMovesLook.getState()));
}
