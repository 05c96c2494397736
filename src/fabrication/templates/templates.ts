import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { resolveScene } from "../../scene/resolve.ts";
import { cutParts } from "./cutParts.ts";
import { type Drawing, inARow, withNotes } from "./drawing.ts";
import type { FlatPart } from "./flatPart.ts";
import { checkFolding, type Folding, USUAL_FOLDING } from "./fold.ts";
import { foldedPlate, foldingOf } from "./foldedPlates.ts";
import { plateNotes, wrapNotes } from "./notes.ts";
import { plateDrawing } from "./plateDrawing.ts";
import { platesOf } from "./plates.ts";
import { fittedEnds } from "./tubeEnds.ts";
import { type Note, TEMPLATE_ENGLISH, type TemplateWords } from "./words.ts";
import { type SquareEnd, type WrapPart, wrapDrawing, wrapsOf } from "./wrap.ts";

export interface TemplateWishes {
  /** Parts by name; null: everything that the builder makes. A part that is named is taken whatever it is. */
  readonly parts: readonly string[] | null;
  /** Parts that are folded from one plate where they can be. */
  readonly folded: readonly string[];
  readonly folding: Folding;
}

export const USUAL_WISHES: TemplateWishes = { parts: null, folded: [], folding: USUAL_FOLDING };

export type TemplatePart = FlatPart | WrapPart;

/** Every template of a scene. */
export interface Templates {
  readonly plates: readonly FlatPart[];
  readonly wraps: readonly WrapPart[];
  readonly square: readonly SquareEnd[];
  /** Parts that could be folded from one plate, though they are not. */
  readonly canFold: readonly string[];
}

/**
 * Plates laid flat and tube ends to wrap, of the scene as it is drawn. Throws InputError for a part that is not there or has nothing to
 * cut, for folds that do not fit, and what resolveScene throws.
 */
export function templatesOf(document: SceneDocument, wishes: TemplateWishes = USUAL_WISHES): Templates {
  checkFolding(wishes.folding);
  const parts = cutParts(resolveScene(document), document);
  const known = new Set(parts.map(({ id }) => id));
  const missing = [...(wishes.parts ?? []), ...wishes.folded].find((id) => !known.has(id));
  if (missing !== undefined)
    throw new InputError(
      "missing-id",
      { path: "part" },
      `no part with a shape of its own is called "${missing}"`,
      `one of ${[...known].join(", ")}`,
    );
  const isWanted = ({ id, isBuilt }: { id: string; isBuilt: boolean }) => wishes.parts?.includes(id) ?? isBuilt;
  const canFold: string[] = [];
  const plates = parts.filter(isWanted).flatMap((part) => {
    const how = foldingOf(part);
    const isAsked = wishes.folded.includes(part.id);
    if (how === null && isAsked)
      throw new InputError(
        "wrong-value",
        { path: "fold" },
        `${part.id} is not a part that folds from one plate`,
        "a clevis with a base, as its recipe draws it",
      );
    if (how === "wanted" && !isAsked) canFold.push(part.id);
    return how === "always" || isAsked ? [foldedPlate(part, wishes.folding)] : platesOf(part);
  });
  const { wraps, square } = wrapsOf(fittedEnds(parts, isWanted));
  const empty = wishes.parts?.find((id) => ![...plates, ...wraps, ...square].some(({ of }) => of === id));
  if (empty !== undefined)
    throw new InputError(
      "wrong-value",
      { path: "part" },
      `${empty} has neither a plate nor a tube that ends at another part`,
      "a part with plates (up to 20 mm thick) or with such a tube",
    );
  return { plates, wraps, square, canFold };
}

export function drawingOf(part: TemplatePart, words: TemplateWords): Drawing {
  return part.kind === "plate" ? plateDrawing(part, words) : wrapDrawing(part, words);
}

/** As a file for a cutter: a template with what is said about it, or several side by side. */
export function fileDrawing(parts: readonly TemplatePart[], words: TemplateWords = TEMPLATE_ENGLISH): Drawing {
  const lines = (part: TemplatePart) => notesOf(part, words).map(({ text }) => text);
  return inARow(parts.map((part) => withNotes(drawingOf(part, words), lines(part))));
}

/** What is written beside a template; what falls short of a rule is among it, so nothing goes out without. */
export function notesOf(part: TemplatePart, words: TemplateWords = TEMPLATE_ENGLISH): Note[] {
  return part.kind === "plate" ? plateNotes(part, words) : wrapNotes(part, words);
}
