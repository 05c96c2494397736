import type { SceneDocument } from "../document.ts";
import { InputError } from "../error.ts";
import { readable } from "../parts/parts.ts";
import { barQuestions } from "./barQuestions.ts";
import { damperQuestions } from "./damperQuestions.ts";
import { FRAME_QUESTIONS } from "./frameQuestions.ts";
import { GAP_QUESTIONS } from "./gapQuestions.ts";
import { KIND_PLANS } from "./memberPlans.ts";
import { bareMember, memberQuestions, withDrawnMembers } from "./memberQuestions.ts";
import { ASSUMED, isAssumedPoint } from "./places.ts";
import { POWERTRAIN_QUESTIONS } from "./powertrainQuestions.ts";
import type { Answer, Question, Standing } from "./question.ts";
import { type CornerKind, SETUP_ROLE } from "./setupDocument.ts";
import { SHAFT_QUESTIONS } from "./shaftQuestions.ts";
import {
  CAR_QUESTIONS,
  TRAVEL_QUESTIONS,
  USUAL_TITLE,
  USUAL_TRAVEL,
  USUAL_WHEEL,
  WHEEL_QUESTIONS,
} from "./wheelQuestions.ts";

/**
 * The guided set-up: questions as data, in the order in which a builder can reach things. Every answer is an edit of the
 * scene, and what an answer is now is read from the scene; `setup` in it only keeps which answers were measured and which
 * are assumed. So a set-up is resumed wherever the scene is opened, and points and parts may be edited beside it.
 */

const known = new Map<CornerKind, readonly Question[]>();

/** All questions for a kind of corner, also those that are asked in some cases only. */
export function questionsOf(kind: CornerKind): readonly Question[] {
  let questions = known.get(kind);
  if (!questions) {
    const plan = KIND_PLANS[kind];
    questions = [
      ...CAR_QUESTIONS,
      ...WHEEL_QUESTIONS,
      ...memberQuestions(plan),
      ...TRAVEL_QUESTIONS,
      ...POWERTRAIN_QUESTIONS,
      ...FRAME_QUESTIONS,
      ...damperQuestions(plan),
      ...barQuestions(plan),
      ...SHAFT_QUESTIONS,
      ...GAP_QUESTIONS,
    ];
    known.set(kind, questions);
  }
  return questions;
}

/** A scene of that kind of which nothing is measured yet: usual places, and only the wheel drawn. */
export function beginSetup(kind: CornerKind): SceneDocument {
  const { members } = KIND_PLANS[kind];
  const centre = [0, 740, 305] as const;
  const assumed = (at: readonly number[]) => ({ at: at as [number, number, number], how: ASSUMED });
  const ends = members.flatMap((member) => member.ends);
  const points = Object.fromEntries(
    ends.map(({ point, offset_mm }) => [point, assumed(offset_mm.map((mm, i) => mm + centre[i]!))]),
  );
  return readable({
    format: "elbowroom.scene",
    version: 1,
    title: USUAL_TITLE,
    sides: "both",
    points: { [USUAL_WHEEL.centre]: assumed(centre), ...points },
    wheel: USUAL_WHEEL,
    travel: USUAL_TRAVEL,
    members: members.map(bareMember),
    bodies: [],
    clearances: {
      default_mm: 10,
      rules: [
        { a: "tyre", b: "*", mm: 15 },
        { a: `role:${SETUP_ROLE}`, b: "*", mm: 25 },
      ],
    },
    setup: { kind, measured: [], assumed: [] },
  });
}

/** The same with every question skipped: a corner to put measured numbers into one by one. */
export function blankCorner(kind: CornerKind): SceneDocument {
  let document = beginSetup(kind);
  for (let next = firstOpen(document); next; next = firstOpen(document)) document = assume(document, next.id);
  return document;
}

/** The questions that make sense as the scene is, in their order. */
export function askedQuestions(document: SceneDocument): readonly Question[] {
  return document.setup ? questionsOf(document.setup.kind).filter((question) => question.isAsked(document)) : [];
}

/** null: open. A point whose `how` was written since counts as measured. */
export function standingOf(document: SceneDocument, { id, kind, ...question }: Question): Standing | null {
  const { measured = [], assumed = [] } = document.setup ?? {};
  if (measured.includes(id)) return "measured";
  if (!assumed.includes(id)) return null;
  const point = kind === "place" && "point" in question ? question.point : null;
  return point !== null && !isAssumedPoint(document, point) ? "measured" : "assumed";
}

export function firstOpen(document: SceneDocument): Question | null {
  return askedQuestions(document).find((question) => standingOf(document, question) === null) ?? null;
}

/** What is open without which the wheel's way cannot be worked out. */
export function stillMissing(document: SceneDocument): readonly Question[] {
  return askedQuestions(document).filter((one) => one.isNeeded && standingOf(document, one) === null);
}

/** The answer kept. Throws InputError as the question's `put`, and `wrong-value` for a question that is not asked. */
export function answer(document: SceneDocument, id: string, value: Answer): SceneDocument {
  return settle(document, id, value, "measured");
}

/** The question skipped: the scene keeps the assumed value, listed as assumed. Throws InputError as `answer`. */
export function assume(document: SceneDocument, id: string): SceneDocument {
  const question = questionOf(document, id);
  return settle(document, id, question.usual(document), "assumed");
}

/** The document after a hard point was measured by other means, such as tape: its question counts as answered. */
export function withPointMeasured(document: SceneDocument, point: string): SceneDocument {
  if (!document.setup) return document;
  const question = askedQuestions(document).find((one) => one.kind === "place" && one.point === point);
  return question ? drawn(marked(document, question.id, "measured")) : document;
}

/** Puts the set-up away, or takes it up again; what it knows stays. */
export function withSetupClosed(document: SceneDocument, isClosed: boolean): SceneDocument {
  if (!document.setup) return document;
  const { closed: _, ...rest } = document.setup;
  return { ...document, setup: isClosed ? { ...rest, closed: true } : rest };
}

function questionOf(document: SceneDocument, id: string): Question {
  const question = askedQuestions(document).find((one) => one.id === id);
  if (question) return question;
  throw new InputError(
    "wrong-value",
    { path: "setup" },
    `nothing is asked as ${id}`,
    "the id of a question that is asked",
  );
}

function settle(before: SceneDocument, id: string, value: Answer, standing: Standing): SceneDocument {
  const question = questionOf(before, id);
  const put = question.put as (document: SceneDocument, value: Answer, standing: Standing) => SceneDocument;
  const after = marked(put(before, value, standing), id, standing);
  return readable(drawn(followed(before, after)));
}

function marked(document: SceneDocument, id: string, standing: Standing): SceneDocument {
  const setup = document.setup!;
  const without = (ids: readonly string[]) => ids.filter((one) => one !== id);
  const lists = { measured: without(setup.measured), assumed: without(setup.assumed) };
  return { ...document, setup: { ...setup, ...lists, [standing]: [...lists[standing], id] } };
}

/** What is open and still stands where it was assumed to be goes along with what it is assumed from. */
function followed(before: SceneDocument, after: SceneDocument): SceneDocument {
  let now = after;
  for (const question of askedQuestions(after)) {
    if (question.kind === "choice" || standingOf(now, question) !== null || !question.isAsked(before)) continue;
    const usual = question.usual(now);
    if (isSame(question.read(now), usual) || !isSame(question.read(before), question.usual(before))) continue;
    const put = question.put as (document: SceneDocument, value: Answer, standing: Standing) => SceneDocument;
    now = put(now, usual, "assumed");
  }
  return now;
}

/** Members appear once all their points are known. */
function drawn(document: SceneDocument): SceneDocument {
  const { setup } = document;
  if (!setup) return document;
  const isKnown = (id: string) => setup.measured.includes(id) || setup.assumed.includes(id);
  return withDrawnMembers(document, KIND_PLANS[setup.kind], isKnown);
}

function isSame(a: Answer | null, b: Answer): boolean {
  if (typeof a === "object" && a !== null && typeof b === "object")
    return a.every((value, i) => Math.abs(value - b[i]!) < 1e-9);
  return a === b;
}
