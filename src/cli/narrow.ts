import type { SceneDocument } from "../scene/document.ts";
import { InputError } from "../scene/error.ts";

/** The document with the travel of `--travel FROM:TO:STEP` (mm, droop negative) in place of its own. */
export function withTravel(document: SceneDocument, travel: string | undefined): SceneDocument {
  if (travel === undefined) return document;
  const [from, to, step, ...rest] = travel.split(":").map((part) => (part.trim() === "" ? Number.NaN : Number(part)));
  const good = [from, to, step].every((value) => Number.isFinite(value)) && rest.length === 0;
  if (!good || from! > 0 || to! < 0 || from! < -1000 || to! > 1000 || !(step! >= 0.1)) {
    throw new InputError(
      "wrong-value",
      { path: "--travel" },
      `"${travel}" is no travel`,
      "FROM:TO:STEP in mm with FROM at or below 0, TO at or above 0 and STEP at least 0.1, such as -70:80:5",
    );
  }
  return { ...document, travel: { bump_mm: to!, droop_mm: -from!, step_mm: step! } };
}
