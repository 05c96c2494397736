import type { en } from "./en/index.ts";

/** The same keys as the English text, any words. */
export type Translation<T = typeof en> = { readonly [K in keyof T]: T[K] extends string ? string : Translation<T[K]> };

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
