import i18next from "i18next";
import { en } from "./en/index.ts";
import { LANGUAGES, type Language } from "./languages.ts";

/**
 * The interface's text by its key ("tools.close"), in the language that was chosen last. `{{name}}` in a text is filled
 * from the values given; a text with `count` has one entry for each plural of its language (`_one`, `_other`).
 */
const book = i18next.createInstance();
void book.init({
  lng: "en",
  fallbackLng: "en",
  initAsync: false,
  resources: { en: { translation: en } },
  // React escapes what it shows
  interpolation: { escapeValue: false },
});

/** Texts as they were found first, not filled: the library looks long for each, and a frame shows a hundred. */
const plain = new Map<string, string>();

export const t = ((key: string, values?: object): string => {
  // which of its texts a count means, the library knows
  if (values !== undefined && "count" in values) return String(book.t(key as never, values as never));
  let text = plain.get(key);
  if (text === undefined) {
    text = String(book.t(key as never, { skipInterpolation: true } as never));
    plain.set(key, text);
  }
  return values === undefined ? text : book.services.interpolator!.interpolate(text, values, language(), {});
}) as typeof book.t;

/** The language that is shown. */
export function language(): Language {
  return book.language as Language;
}

const KEY = "elbowroom language";

/** The language that was chosen last on this machine; English where none was, or where nothing can be kept. */
export function chosenLanguage(): Language {
  try {
    const kept = localStorage.getItem(KEY);
    return LANGUAGES.find(({ value }) => value === kept)?.value ?? "en";
  } catch {
    return "en";
  }
}

/** Takes effect when the page is loaded the next time: a text may be read once, when its file is. */
export function keepLanguage(language: Language): void {
  localStorage.setItem(KEY, language);
}

/** To be awaited before anything that shows text is imported. */
export async function readText(language: Language): Promise<void> {
  const load = LANGUAGES.find(({ value }) => value === language)?.load;
  if (load) book.addResourceBundle(language, "translation", await load());
  await book.changeLanguage(language);
  plain.clear();
  document.documentElement.lang = language;
}
