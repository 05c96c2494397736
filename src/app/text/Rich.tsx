import { Fragment, type ReactNode } from "react";

const TAGS = {
  b: (inside: string) => <b>{inside}</b>,
  i: (inside: string) => <i>{inside}</i>,
  kbd: (inside: string) => <kbd className="key quiet">{inside}</kbd>,
  u: (inside: string) => <u>{inside}</u>,
  quiet: (inside: string) => <span className="quiet">{inside}</span>,
} as const;

const MARKED = new RegExp(`<(${Object.keys(TAGS).join("|")})>(.*?)</\\1>`, "g");

/** A text of the catalogue in which some words stand out: `<b>`, `<i>`, `<u>`, `<kbd>`, `<quiet>`, none within another. */
export function Rich({ text }: { text: string }) {
  const shown: ReactNode[] = [];
  let from = 0;
  for (const found of text.matchAll(MARKED)) {
    shown.push(text.slice(from, found.index));
    shown.push(TAGS[found[1] as keyof typeof TAGS](found[2]!));
    from = found.index + found[0].length;
  }
  shown.push(text.slice(from));
  // the text is drawn as a whole: its pieces have no other name than their place
  return shown.map((piece, i) => <Fragment key={String(i)}>{piece}</Fragment>);
}
