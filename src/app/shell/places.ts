import type { SceneDocument } from "../../scene/document.ts";
import type { Place } from "../store/state.ts";

/** The places of the app, in the order of its top bar. */
/** Only while a guided set-up is open. */
const SETUP = { value: "setup", name: "Set-up", short: "Set-up" } as const;

export const PLACES: readonly { readonly value: Place; readonly name: string; readonly short: string }[] = [
  { value: "corner", name: "Corner", short: "Corner" },
  { value: "points", name: "Points & parts", short: "Points" },
  { value: "log", name: "Build log", short: "Log" },
];

export function placesOf(document: SceneDocument | null): typeof PLACES {
  return isSetupOpen(document) ? [SETUP, ...PLACES] : PLACES;
}

export function isSetupOpen(document: SceneDocument | null): boolean {
  return document?.setup !== undefined && !document.setup.closed;
}
