import { create } from "zustand";
import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { formatLength } from "../../scene/length.ts";
import { withSizes, withUnit } from "../../scene/parts/add.ts";
import { movePart } from "../../scene/parts/move.ts";
import { partOf } from "../../scene/parts/parts.ts";
import type { MadeDocument } from "../../scene/recipes/made.ts";
import { shownDocument } from "../store/tried.ts";
import { app } from "../store/useApp.ts";
import { withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { capital, nameWithin } from "../words/names.ts";
import { fieldsOf, type SheetField, type SheetValues, valuesOf } from "./partFields.ts";
import { optionText } from "./recipeText.ts";

/** What stands in the sheet of the part in hand, fit or not. */
interface PartDraft {
  /** The kept document that it starts from; another one makes it moot. */
  readonly kept: SceneDocument | null;
  readonly part: string;
  readonly values: SheetValues | null;
  /** Why the values cannot be; null: they can. */
  readonly trouble: InputError | null;
  readonly shift_mm: Vec3;
}

const NOTHING: PartDraft = { kept: null, part: "", values: null, trouble: null, shift_mm: [0, 0, 0] };

export const usePartDraft = create<PartDraft>()(() => NOTHING);

export function forgetDraft(): void {
  usePartDraft.setState(NOTHING);
}

app.subscribe((state, before) => {
  if (before.triedEdit !== null && state.triedEdit === null) forgetDraft();
});

/** The draft of this part, or what is kept of it. */
export function draftOf(draft: PartDraft, document: SceneDocument, part: string): PartDraft {
  if (draft.kept === document && draft.part === part) return draft;
  return { ...NOTHING, kept: document, part, values: valuesOf(document, part) };
}

/** Tries the part with other values; what cannot be is told beside its field, and the car stays as it was. */
export function tryValues(part: string, values: SheetValues): void {
  const state = app.getState();
  const { document } = state;
  if (!document) return;
  const draft = draftOf(usePartDraft.getState(), document, part);
  const base = state.triedEdit?.part === part ? state.triedEdit.document : document;
  try {
    const next = withValues(base, part, values);
    usePartDraft.setState({ ...draft, values, trouble: null });
    state.tryEdit({ part, document: next, stepName: stepOf(document, part, values, draft.shift_mm) });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    usePartDraft.setState({ ...draft, values, trouble: error });
  }
}

/** Tries the part moved on by `by` (car coordinates of the left side, mm). */
export function tryShift(part: string, by: Vec3): void {
  const state = app.getState();
  const { document } = state;
  const base = shownDocument(state);
  if (!document || !base) return;
  const draft = draftOf(usePartDraft.getState(), document, part);
  const shift_mm = draft.shift_mm.map((value, i) => value + by[i]!) as unknown as Vec3;
  try {
    const next = movePart(base, part, by);
    const values = valuesOf(next, part);
    usePartDraft.setState({ ...draft, values, shift_mm, trouble: null });
    state.tryEdit({ part, document: next, stepName: stepOf(document, part, values, shift_mm) });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    usePartDraft.setState({ ...draft, trouble: error });
  }
}

function withValues(document: SceneDocument, id: string, values: SheetValues): SceneDocument {
  const part = partOf(document, id);
  if (part.kind === "body" || part.kind === "member") return withSizes(document, id, values as unknown as MadeDocument);
  return withUnit(document, part.kind, values as never);
}

/** "clevis: pin to base 70", "clevis: 3 sizes", "clevis moved". */
function stepOf(document: SceneDocument, id: string, values: SheetValues | null, shift_mm: Vec3): string {
  const name = nameWithin(id, document);
  const before = valuesOf(document, id) ?? {};
  const fields = fieldsOf(partOf(document, id)) ?? {};
  const isMoved = shift_mm.some((value) => value !== 0);
  const changed = Object.entries(fields).filter(
    ([key, field]) => !(isMoved && isPlace(field)) && JSON.stringify(before[key]) !== JSON.stringify(values?.[key]),
  );
  if (isMoved && changed.length === 0) return t("parts.edit.moved", { name });
  const [[key, field] = [], ...others] = changed;
  const change =
    field && key !== undefined && others.length === 0
      ? wordsOf(field, values?.[key])
      : t("parts.edit.sizes", { count: changed.length });
  return t(`parts.edit.${isMoved ? "movedAndChanged" : "changed"}`, { name, change });
}

function isPlace({ kind }: SheetField): boolean {
  return kind === "point" || kind === "points";
}

function wordsOf(field: SheetField, value: unknown): string {
  const label = withinText(field.label);
  if (field.kind === "length" && typeof value === "number") {
    return t("parts.edit.field", { field: label, value: formatLength(value, app.getState().unit) });
  }
  if (field.kind === "choice" && typeof value === "string") {
    return t("parts.edit.field", { field: label, value: optionText(value) });
  }
  return typeof value === "string" || typeof value === "number"
    ? t("parts.edit.field", { field: label, value })
    : label;
}

/** The key of the field that the trouble is about; null: of none in particular. */
export function troubledKey(trouble: InputError | null): string | null {
  return trouble === null ? null : (/([A-Za-z_]+)(?:\[\d+\])*$/.exec(trouble.path)?.[1] ?? null);
}

export function troubleText(trouble: InputError): string {
  return t("parts.trouble", { wrong: capital(trouble.wrong), wanted: trouble.wanted });
}
