/** Control and direction marks that would garble a terminal or a line of text. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const MARKS = /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/g;
/** The same but for line ends and tabs, and what scripts need to join their letters. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const CONTROLS = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/g;

/** Each such mark as JSON would write it. */
export function withMarksTold(text: string): string {
  return text.replace(MARKS, told);
}

/** A text from outside on one line, no longer than `most`. */
export function shownText(text: string, most: number): string {
  const line = withMarksTold(text.replace(/\s+/g, " "));
  return line.length > most ? `${line.slice(0, most - 3)}...` : line;
}

/** What goes to a terminal: a title or a note cannot steer it. What is JSON means the same after it. */
export function terminalText(text: string): string {
  return text.replace(CONTROLS, told);
}

function told(mark: string): string {
  return `\\u${mark.charCodeAt(0).toString(16).padStart(4, "0")}`;
}
