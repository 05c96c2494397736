import type { Place } from "../store/state.ts";

/** The places of the app, in the order of its top bar. */
export const PLACES: readonly { readonly value: Place; readonly name: string; readonly short: string }[] = [
  { value: "corner", name: "Corner", short: "Corner" },
  { value: "points", name: "Points & parts", short: "Points" },
  { value: "log", name: "Build log", short: "Log" },
];
