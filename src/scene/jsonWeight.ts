import { InputError } from "./error.ts";

/** Deeper than any file of ours; recursion over what is nested deeper overflows the stack. */
const DEEPEST = 100;
/** A value of JSON takes up to some hundred bytes of memory, and as few as two in the file. */
const MOST_VALUES = 5_000_000;

const [QUOTE, BACKSLASH, COMMA, OPEN, CLOSE, BEGIN, END] = [0x22, 0x5c, 0x2c, 0x5b, 0x5d, 0x7b, 0x7d];

/**
 * Refuses, before JSON.parse makes room for it, a text that is nested too deeply or holds so many values that they would fill
 * the memory. Long texts in it cost next to nothing; whether it is JSON is not asked. Throws InputError `too-large` or `wrong-value`.
 */
export function refuseHeavyJson(text: string, file: string, mostValues = MOST_VALUES): void {
  let [depth, values] = [0, 0];
  for (let at = 0; at < text.length; at++) {
    switch (text.charCodeAt(at)) {
      case QUOTE:
        at = endOfText(text, at);
        break;
      case OPEN:
      case BEGIN:
        depth++;
        values++;
        break;
      case CLOSE:
      case END:
        depth--;
        break;
      case COMMA:
        values++;
        break;
    }
    if (depth > DEEPEST) {
      throw new InputError("wrong-value", { file }, "is nested too deeply", `at most ${DEEPEST} levels`);
    }
    if (values > mostValues) {
      throw new InputError("too-large", { file }, `holds more than ${mostValues} values`, "a file as it was saved");
    }
  }
}

/** Where the text in quotes that begins at `start` ends. */
function endOfText(text: string, start: number): number {
  let end = start;
  for (;;) {
    end = text.indexOf('"', end + 1);
    if (end < 0) return text.length;
    let before = end - 1;
    while (before > start && text.charCodeAt(before) === BACKSLASH) before--;
    if ((end - before) % 2 === 1) return end;
  }
}
