import { create } from "zustand";
import type { SceneDocument } from "../../scene/document.ts";
import type { Question } from "../../scene/setup/question.ts";
import { askedQuestions, firstOpen, standingOf } from "../../scene/setup/setup.ts";
import type { Direction } from "../points/usePointMove.ts";

interface SetupLook {
  /** The question that is looked at; null: the first open one. */
  readonly questionId: string | null;
  /** Whether all answers are listed instead of one question. */
  readonly list: boolean;
  /** The coordinate whose field has the focus: its arrow is the loud one. */
  readonly direction: Direction | null;
  /** Whether a kind of corner is being chosen. */
  readonly beginning: boolean;
}

/** How the builder looks at the set-up; neither saved nor undone. */
export const useSetup = create<SetupLook>()(() => ({
  questionId: null,
  list: false,
  direction: null,
  beginning: false,
}));

export function showBegin(): void {
  useSetup.setState({ beginning: true });
}

export function goTo(questionId: string | null): void {
  useSetup.setState({ questionId, list: false, direction: null });
}

/** The question that the sheet shows; null: every one has its answer. */
export function shownQuestion(document: SceneDocument, questionId: string | null): Question | null {
  return askedQuestions(document).find(({ id }) => id === questionId) ?? firstOpen(document);
}

/** The open question after this one, else the first open one. */
export function openAfter(document: SceneDocument, id: string): string | null {
  const asked = askedQuestions(document);
  const after = asked.slice(asked.findIndex((question) => question.id === id) + 1);
  const open = after.find((question) => standingOf(document, question) === null);
  return (open ?? firstOpen(document))?.id ?? null;
}
