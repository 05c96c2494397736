import type { SceneDocument } from "../../scene/document.ts";
import type { InputError } from "../../scene/error.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Answer, Question } from "../../scene/setup/question.ts";
import { answer, assume, stillMissing, withSetupClosed } from "../../scene/setup/setup.ts";
import { editParts } from "../parts/partEdits.ts";
import { liveCorner } from "../store/corners.ts";
import { app } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { answerName } from "./questionText.ts";
import { goTo, openAfter } from "./setupStore.ts";

/** One named step of the scene, then the next open question. Gives why it cannot be; null: kept. */
export function keepAnswer(question: Question, value: Answer): InputError | null {
  return settle(question, t("setup.steps.measured", { answer: answerName(question) }), (now) =>
    answer(now, question.id, value),
  );
}

export function skip(question: Question): InputError | null {
  return settle(question, t("setup.steps.assumed", { answer: answerName(question) }), (now) =>
    assume(now, question.id),
  );
}

function settle(question: Question, step: string, edit: (document: SceneDocument) => SceneDocument): InputError | null {
  const refused = editParts(step, (now) => held(edit(now)));
  const { document } = app.getState();
  if (refused === null && document) goTo(openAfter(document, question.id));
  return refused;
}

/** Refuses the last number that makes a corner whose wheel is loose or fixed: mended best where it was typed. */
function held(document: SceneDocument): SceneDocument {
  if (stillMissing(document).length > 0) return document;
  const scene = resolveScene(document);
  for (const side of scene.sides) liveCorner(scene, side);
  return document;
}

export function putAway(): void {
  const { document } = app.getState();
  if (!document?.setup) return;
  app.getState().edit(t("setup.steps.putAway"), withSetupClosed(document, true));
  app.getState().setPlace("corner");
}

export function takeUp(): void {
  const { document } = app.getState();
  if (!document?.setup) return;
  if (document.setup.closed) app.getState().edit(t("setup.steps.takeUp"), withSetupClosed(document, false));
  goTo(null);
  app.getState().setPlace("setup");
}
