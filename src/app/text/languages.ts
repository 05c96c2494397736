import type { Translation } from "./translation.ts";

export type Language = "en" | "de";

export interface LanguageChoice {
  readonly value: Language;
  /** What its speakers call it. */
  readonly name: string;
  /** English is in the app itself. */
  readonly load?: () => Promise<Translation>;
}

export const LANGUAGES: readonly LanguageChoice[] = [
  { value: "en", name: "English" },
  { value: "de", name: "Deutsch", load: async () => (await import("./de/index.ts")).de },
];
