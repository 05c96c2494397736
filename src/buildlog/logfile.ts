import { InputError } from "../scene/error.ts";
import { refuseHeavyJson } from "../scene/jsonWeight.ts";
import { fromBase64, toBase64 } from "./base64.ts";
import { type BytesPlace, withBytes } from "./bytesOf.ts";
import { type ClashDecision, decisionSchema } from "./decision.ts";
import type { Card } from "./entry.ts";
import { inOrderOf } from "./plain.ts";
import { readCard } from "./read.ts";
import { logSeal, sealOf } from "./seal.ts";
import { tellIssue } from "./tellIssue.ts";

export const LOG_FORMAT = "elbowroom.log";
/** 2 added what was decided about clashes, and the seals; logs of version 1 hold cards alone. */
export const LOG_VERSION = 2;

/** All job cards and all that was decided about what they found. */
export interface BuildLog {
  readonly cards: readonly Card[];
  readonly decisions: readonly ClashDecision[];
}

export interface PackedLog {
  readonly format: typeof LOG_FORMAT;
  readonly version: typeof LOG_VERSION;
  /** Of the whole log; the same in whatever kind of file it lies. */
  readonly sha256: string;
  /** Of each card, in their order: tells which one was changed. */
  readonly seals: readonly string[];
  readonly decisions: readonly ClashDecision[];
  readonly cards: readonly unknown[];
}

/**
 * The whole log as one text (JSON, a card a line), pictures as base64; `readLog` gives it back exactly.
 * @throws InputError for a log that is too large for one text
 */
export function writeLog(log: BuildLog): string {
  return asOneText(() => {
    const { cards, ...head } = packLog(asSaved(log), (bytes) => toBase64(bytes));
    const lines = cards.map((card) => JSON.stringify(card)).join(",\n");
    return `${JSON.stringify(head).slice(0, -1)},"cards":[\n${lines}\n]}\n`;
  });
}

/** No text may be longer than some half a gigabyte. @throws InputError */
export function asOneText(write: () => string): string {
  try {
    return write();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new InputError("too-large", {}, "the log is too large for one text", "a zip, which has no such bound");
  }
}

/** @throws InputError naming the file, the card and the field. */
export function readLog(text: string, file: string): BuildLog {
  return unpackLog(parsedLog(text, file), file, (packed) => (typeof packed === "string" ? fromBase64(packed) : packed));
}

/** True for text that means to be a build log, whatever its version and faults. */
export function isLogText(text: string): boolean {
  return new RegExp(`^\\s*\\{\\s*"format"\\s*:\\s*"${LOG_FORMAT}"`).test(text);
}

/**
 * The log as reading it again gives it. @throws InputError for what could not be read again: it is not written
 */
export function asSaved({ cards, decisions }: BuildLog): BuildLog {
  return { cards: cards.map((card) => readCard(card)), decisions: readDecisions(decisions, "build log") };
}

/** The log as a record for JSON; `pack` says how the file holds the bytes of a picture or photo. */
export function packLog(
  { cards, decisions }: BuildLog,
  pack: (bytes: Uint8Array, card: Card, place: BytesPlace) => unknown,
): PackedLog {
  const seals = cards.map(sealOf);
  return {
    format: LOG_FORMAT,
    version: LOG_VERSION,
    sha256: logSeal(seals, decisions),
    seals,
    decisions,
    cards: cards.map((card) => withBytes(card, (bytes, place) => pack(bytes as Uint8Array, card, place))),
  };
}

/** JSON of a log, not yet looked at. @throws InputError */
export function parsedLog(text: string, file: string): unknown {
  refuseHeavyJson(text, file);
  try {
    return JSON.parse(text);
  } catch {
    throw new InputError("not-json", { file }, "it is not JSON", "a build log as it was saved");
  }
}

/**
 * The log of a parsed record; `unpack` gives the bytes that `pack` put away, or what it was given where there are none (the
 * card's own check names the field). Seals are held against what was read. @throws InputError
 */
export function unpackLog(log: unknown, file: string, unpack: (packed: unknown, path: string) => unknown): BuildLog {
  if (!isLog(log)) {
    throw new InputError("wrong-format", { file, path: "format" }, "it is not a build log", `"${LOG_FORMAT}"`);
  }
  const { version } = log;
  if (version !== 1 && version !== LOG_VERSION) {
    const newer = typeof version === "number" && version > LOG_VERSION ? ", of a newer Elbowroom" : "";
    throw new InputError(
      "wrong-version",
      { file, path: "version" },
      `its version is ${JSON.stringify(version)}${newer}`,
      `version ${LOG_VERSION} or 1`,
    );
  }
  const saved = log.cards.map((packed, index) =>
    withBytes(packed, (bytes, place) => unpack(bytes, `cards[${index}].${place.path}`)),
  );
  const cards = saved.map((card, index) => readCard(card, file, `cards[${index}]`));
  if (version === 1) return { cards, decisions: [] };
  const decisions = readDecisions(Reflect.get(log, "decisions"), file);
  // as they lie in the file: what reading brings to the present version was not sealed
  holdAgainstSeals(saved as Card[], decisions, log, file);
  return { cards, decisions };
}

function readDecisions(value: unknown, file: string): ClashDecision[] {
  const read = decisionSchema.array().safeParse(value);
  if (read.success) return inOrderOf(read.data, value);
  const [issue] = read.error.issues;
  const [index, ...keys] = issue?.path ?? [];
  const path = [
    "decisions",
    ...(index === undefined ? [] : [`[${String(index)}]`]),
    ...keys.map((key) => `.${String(key)}`),
  ];
  throw new InputError("wrong-value", { file, path: path.join("") }, tellIssue(issue), "a decision as it was saved");
}

/** Sealed is what was saved: a log that was changed since, or came damaged, is not taken for the record that it was. */
function holdAgainstSeals(
  cards: readonly Card[],
  decisions: readonly ClashDecision[],
  log: object,
  file: string,
): void {
  const wanted = "the log as it was saved, from another copy of the file";
  const told: unknown = Reflect.get(log, "seals");
  const seals = Array.isArray(told) ? told : [];
  const found = cards.map(sealOf);
  const changed = found.findIndex((seal, index) => seal !== seals[index]);
  if (changed >= 0) {
    const wrong = "the card is not as it was saved (its SHA-256 differs)";
    throw new InputError("checksum", { file, path: `cards[${changed}]` }, wrong, wanted);
  }
  if (seals.length !== found.length || logSeal(found, decisions) !== Reflect.get(log, "sha256")) {
    const wrong = "cards or decisions are missing or not as they were saved (the SHA-256 differs)";
    throw new InputError("checksum", { file, path: "sha256" }, wrong, wanted);
  }
}

function isLog(value: unknown): value is { version: unknown; cards: unknown[] } {
  return (
    typeof value === "object" &&
    value !== null &&
    Reflect.get(value, "format") === LOG_FORMAT &&
    Array.isArray(Reflect.get(value, "cards"))
  );
}
