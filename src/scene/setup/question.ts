import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import type { Side } from "../scene.ts";
import type { NumberUnit, SetupFault } from "./faults.ts";

/** What was typed and kept, or what stands there until it is. */
export type Standing = "measured" | "assumed";

/** In the order in which a builder can reach things. */
export const SECTIONS = [
  "car",
  "wheel",
  "members",
  "travel",
  "powertrain",
  "frame",
  "damper",
  "shaft",
  "gaps",
] as const;
export type Section = (typeof SECTIONS)[number];

/** What the picture beside a question shows, and which of its dimensions is meant. */
export type Picture =
  | { readonly of: "corner" }
  | { readonly of: "place"; readonly side: Side }
  | { readonly of: "tyre" }
  | { readonly of: "rim"; readonly mark: "width" | "offset" }
  | { readonly of: "angle"; readonly mark: "toe" | "camber" }
  | { readonly of: "travel"; readonly mark: "bump" | "droop" }
  | { readonly of: "tube" }
  | { readonly of: "box"; readonly mark: "length" | "width" | "height" }
  | { readonly of: "rock"; readonly mark: "pulling" | "overrun" }
  | { readonly of: "damper"; readonly mark: "closed" | "open" | "body" | "spring" | "touches" | "solid" | "rate" }
  | { readonly of: "shaft"; readonly mark: "diameter" | "shortest" | "longest" | "inner" | "outer" }
  | { readonly of: "gap" };

interface QuestionBase<Answer> {
  readonly id: string;
  readonly section: Section;
  /** Tells questions of one id apart, where kinds of corner ask it of different parts: they are worded differently. */
  readonly of?: "wishbone" | "strut";
  readonly picture: Picture;
  /** Without it the wheel's way cannot be worked out. */
  readonly isNeeded: boolean;
  /** Whether it makes sense as things are: the damper's length is asked once there is a damper. */
  isAsked(document: SceneDocument): boolean;
  /** What the scene holds; null: nothing. */
  read(document: SceneDocument): Answer | null;
  /** What is assumed while nobody has measured it; common practice, no source. */
  usual(document: SceneDocument): Answer;
  /** The scene with that answer, not read through yet: what is assumed beside it may have to follow first. */
  put(document: SceneDocument, answer: Answer, standing: Standing): SceneDocument;
  /** Why the answer cannot be right; null: it can. */
  fault(answer: Answer, document: SceneDocument): SetupFault | null;
}

/** A place in car coordinates, mm, asked for on one side of the car. */
export interface PlaceQuestion extends QuestionBase<Vec3> {
  readonly kind: "place";
  readonly side: Side;
  /** The hard point that it makes; null: a place that no point names. */
  readonly point: string | null;
}
export interface LengthQuestion extends QuestionBase<number> {
  readonly kind: "length";
}
export interface NumberQuestion extends QuestionBase<number> {
  readonly kind: "number";
  readonly unit: NumberUnit;
  readonly step: number;
}
export interface TextQuestion extends QuestionBase<string> {
  readonly kind: "text";
}
export interface ChoiceQuestion extends QuestionBase<string> {
  readonly kind: "choice";
  /** The answers; ids of members among them where one of these is asked for. */
  options(document: SceneDocument): readonly string[];
}

export type Question = PlaceQuestion | LengthQuestion | NumberQuestion | TextQuestion | ChoiceQuestion;
export type Answer = Vec3 | number | string;

/** A part that may be there or not; nothing of it is asked until it is. */
export const YES = "yes";
export const NO = "no";

export const always = (): boolean => true;
