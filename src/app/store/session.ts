import type { SessionState } from "./state.ts";

/** How the builder likes to look: remembered from one visit to the next, whichever project is open. */
export type SavedSession = Pick<SessionState, "unit" | "theme" | "show" | "wheels"> & {
  readonly cautionsRead: boolean;
  readonly stayAwake: boolean;
};

export const SESSION_KEYS = [
  "unit",
  "theme",
  "show",
  "wheels",
  "cautionsRead",
  "stayAwake",
] as const satisfies readonly (keyof SavedSession)[];

export function sessionOf({ unit, theme, show, wheels, cautionsRead, stayAwake }: SavedSession): SavedSession {
  return { unit, theme, show, wheels, cautionsRead, stayAwake };
}
