import { language } from "./text.ts";

/** What Intl calls the language that is shown; English with the day before the month, as the 24 h clock wants it. */
export function locale(): string {
  return language() === "en" ? "en-GB" : language();
}

/** "a, b and c" or "a, b, c" (`unit`) in the language that is shown. */
export function listText(items: Iterable<string>, type: Intl.ListFormatType = "conjunction"): string {
  return new Intl.ListFormat(locale(), { type, style: "short" }).format(items);
}

/** By language and options: one is slow to make, and a log tells hundreds of days. */
const dateFormats = new Map<string, Intl.DateTimeFormat>();

/** A date or a time of the day in the language that is shown. */
export function dateText(date: Date, options: Intl.DateTimeFormatOptions): string {
  const key = `${locale()} ${JSON.stringify(options)}`;
  let format = dateFormats.get(key);
  if (!format) {
    format = new Intl.DateTimeFormat(locale(), options);
    dateFormats.set(key, format);
  }
  return format.format(date);
}

/** A name that starts with a capital, put inside a sentence: English writes it small, German keeps it. */
export function withinText(name: string): string {
  return language() === "en" ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

/**
 * A whole number with its thousands apart: "12,345" in English; elsewhere with a narrow blank, since a comma would be
 * read as a decimal one and a point is one here.
 */
export function countText(value: number): string {
  const english = value.toLocaleString("en-GB");
  return language() === "en" ? english : english.replaceAll(",", "\u202f");
}
