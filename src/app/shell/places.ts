import type { SceneDocument } from "../../scene/document.ts";
import type { Place } from "../store/state.ts";

/** The places of the app, in the order of its top bar. */
const PLACES: readonly Place[] = ["corner", "points", "log"];

/** The guided set-up is one only while it is open. */
export function placesOf(document: SceneDocument | null): readonly Place[] {
  return isSetupOpen(document) ? ["setup", ...PLACES] : PLACES;
}

export function isSetupOpen(document: SceneDocument | null): boolean {
  return document?.setup !== undefined && !document.setup.closed;
}
