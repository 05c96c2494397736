import type { Place } from "../store/state.ts";

/** The places of the app, in the order of its top bar. */
export const PLACES: readonly { readonly value: Place; readonly name: string }[] = [
  { value: "corner", name: "Corner" },
  { value: "points", name: "Points & parts" },
  { value: "log", name: "Build log" },
];
