import { shownText } from "./shownText.ts";

/** Characters of each part of a message: what a file brings in must not fill the screen. */
const MOST_SAID = 380;

/** Stable names for what can be wrong with what a builder hands in; a code never changes its meaning. */
export type InputErrorCode =
  | "unreadable"
  | "too-large"
  | "not-json"
  | "wrong-format"
  | "wrong-version"
  | "checksum"
  | "unknown-key"
  | "wrong-value"
  | "not-finite"
  | "missing-point"
  | "circular-point"
  | "duplicate-id"
  | "missing-id"
  | "constraints"
  | "still-moves"
  | "out-of-reach"
  | "zero-length"
  | "tyre"
  | "mesh"
  | "scan-pairs"
  | "tapes";

/**
 * Bad input, told so that it can be mended: the file, the JSON path of the value, what is wrong and what is wanted.
 * The message is one line. The terminal answers it with exit status 2, the app beside the field.
 */
export class InputError extends Error {
  override readonly name = "InputError";
  readonly code: InputErrorCode;
  /** The file's name as the user gave it; "" when the scene did not come from a file. */
  readonly file: string;
  /** JSON path such as `members[2].inboard`; "" for the document as a whole. */
  readonly path: string;
  readonly wrong: string;
  readonly wanted: string;

  constructor(code: InputErrorCode, place: { file?: string; path?: string }, wrong: string, wanted: string) {
    const where = [place.file, place.path].filter(Boolean).join(": ");
    const [saidWrong, saidWanted] = [shownText(wrong, MOST_SAID), shownText(wanted, MOST_SAID)];
    super(`${where ? `${shownText(where, MOST_SAID)}: ` : ""}${saidWrong}; wanted: ${saidWanted}`);
    this.code = code;
    this.file = place.file ?? "";
    this.path = place.path ?? "";
    this.wrong = saidWrong;
    this.wanted = saidWanted;
  }

  /** The same error naming the file it was found in; one that names a file already stays as it is. */
  in(file: string): InputError {
    if (this.file) return this;
    return new InputError(this.code, { file, path: this.path }, this.wrong, this.wanted);
  }
}
