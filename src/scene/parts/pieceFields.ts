import type { PointDocument, ShapeDocument } from "../document.ts";
import { type LengthUnit, parseLength } from "../length.ts";
import {
  lengthFigure,
  numbersText,
  parsePlace,
  parseRow,
  placeOf,
  placeText,
  refused,
  type Typed,
} from "../placeText.ts";

/** The pieces that a part can be built of by hand, field by field, each field one text. */
export type PieceKind = "cylinder" | "capsule" | "cone" | "sphere" | "box" | "torus" | "tube" | "prism" | "hull";

export type PieceFieldKey =
  | "from"
  | "to"
  | "at"
  | "diameter_mm"
  | "fromDiameter_mm"
  | "toDiameter_mm"
  | "size_mm"
  | "edge_mm"
  | "turn_deg"
  | "section_mm"
  | "path"
  | "bend_mm"
  | "wall_mm"
  | "outline"
  | "holes"
  | "thickness_mm"
  | "origin"
  | "u"
  | "v"
  | "spheres"
  | "points";

export type PieceHint =
  | "place"
  | "places"
  | "path"
  | "balls"
  | "size"
  | "turn"
  | "outline"
  | "holes"
  | "way"
  | "squareWay";

export interface PieceField {
  readonly key: PieceFieldKey;
  /** How it is written; null: as a length. */
  readonly hint: PieceHint | null;
  readonly isOptional: boolean;
  /** Several rows, one below the other. */
  readonly hasRows: boolean;
  read(text: string, setting: PieceSetting): Typed<unknown>;
  write(value: unknown, unit: LengthUnit): string;
}

export interface PieceSetting {
  readonly unit: LengthUnit;
  /** Hard points that a text may name. */
  readonly names: readonly string[];
}

function field(
  key: PieceFieldKey,
  hint: PieceField["hint"],
  read: PieceField["read"],
  write: PieceField["write"],
): PieceField {
  return { key, hint, isOptional: false, hasRows: false, read, write };
}

function place(key: PieceFieldKey): PieceField {
  return field(
    key,
    "place",
    (text, { unit, names }) => parsePlace(text, unit, names),
    (value, unit) => placeText(value as PointDocument, unit),
  );
}

function length(key: PieceFieldKey, mayBeNone = false): PieceField {
  return field(
    key,
    null,
    (text, { unit }) => {
      const read = parseLength(text, unit);
      if (!read.ok) return refused({ code: "noLength", word: null, length: read });
      if (read.mm < 0 || (read.mm === 0 && !mayBeNone)) return refused({ code: "notAboveZero" });
      return { ok: true, value: read.mm };
    },
    (value, unit) => lengthFigure(value as number, unit),
  );
}

function optional(one: PieceField): PieceField {
  return { ...one, isOptional: true };
}

/** Plain numbers: a direction, angles. */
function numbers(key: PieceFieldKey, hint: PieceHint): PieceField {
  return field(
    key,
    hint,
    (text) => {
      const read = text
        .trim()
        .split(/\s*[;\t]\s*|,\s+|\s+/)
        .map((word) => Number(word.replace(/^[−–]/, "-").replace(",", ".")));
      return read.length === 3 && read.every(Number.isFinite)
        ? { ok: true, value: read }
        : refused({ code: "threeNumbers" });
    },
    (value) => (value as readonly number[]).join("; "),
  );
}

function lengths(key: PieceFieldKey, hint: PieceHint, count: number): PieceField {
  return field(
    key,
    hint,
    (text, { unit }) => {
      const row = parseRow(text, unit, []);
      if (!row.ok) return row;
      return row.value.lengths_mm.length === count
        ? { ok: true, value: row.value.lengths_mm }
        : refused({ code: "lengths", number: count });
    },
    (value, unit) => numbersText(value as readonly number[], unit),
  );
}

/** One thing to a row; a fault tells its row. */
function rows(
  key: PieceFieldKey,
  hint: PieceField["hint"],
  readRow: (text: string, setting: PieceSetting) => Typed<unknown>,
  writeRow: (value: unknown, unit: LengthUnit) => string,
): PieceField {
  return {
    ...field(
      key,
      hint,
      (text, setting) => {
        const values: unknown[] = [];
        for (const [i, line] of text.split("\n").entries()) {
          if (line.trim() === "") continue;
          const read = readRow(line, setting);
          if (!read.ok) return refused({ code: "row", number: i + 1, fault: read.fault });
          values.push(read.value);
        }
        return { ok: true, value: values };
      },
      (value, unit) => (value as readonly unknown[]).map((one) => writeRow(one, unit)).join("\n"),
    ),
    hasRows: true,
  };
}

interface Ball {
  readonly at: PointDocument;
  readonly diameter_mm: number;
}

function readBall(text: string, { unit, names }: PieceSetting): Typed<unknown> {
  const row = parseRow(text, unit, names);
  if (!row.ok) return row;
  const { from, lengths_mm } = row.value;
  const at = placeOf({ from, lengths_mm: lengths_mm.slice(0, -1) });
  const diameter_mm = lengths_mm.at(-1);
  if (!at?.ok || diameter_mm === undefined || diameter_mm <= 0) {
    return refused({ code: "ball" });
  }
  return { ok: true, value: { at: at.value, diameter_mm } };
}

function writeBall(value: unknown, unit: LengthUnit): string {
  const { at, diameter_mm } = value as Ball;
  const mark = typeof at === "string" ? ": " : "; ";
  return `${placeText(at, unit)}${mark}${lengthFigure(diameter_mm, unit)}`;
}

const readPlaceRow = (text: string, { unit, names }: PieceSetting) => parsePlace(text, unit, names);
const writePlaceRow = (value: unknown, unit: LengthUnit) => placeText(value as PointDocument, unit);
const FLAT = lengths("outline", "outline", 2);

/** Outlines one below the other, an empty row between them. */
const HOLES: PieceField = {
  ...field(
    "holes",
    "holes",
    (text, setting) => {
      const holes: unknown[] = [];
      for (const [i, block] of text
        .trim()
        .split(/\n\s*\n/)
        .entries()) {
        const hole = OUTLINE.read(block, setting);
        if (!hole.ok) return refused({ code: "hole", number: i + 1, fault: hole.fault });
        holes.push(hole.value);
      }
      return { ok: true, value: holes };
    },
    (value, unit) => (value as readonly unknown[]).map((hole) => OUTLINE.write(hole, unit)).join("\n\n"),
  ),
  hasRows: true,
  isOptional: true,
};

const OUTLINE = rows("outline", "outline", FLAT.read, FLAT.write);

const FROM = place("from");
const TO = place("to");
const AT = place("at");
const DIAMETER = length("diameter_mm");
const TURN = optional(numbers("turn_deg", "turn"));

export const PIECE_FIELDS: Readonly<Record<PieceKind, readonly PieceField[]>> = {
  cylinder: [FROM, TO, DIAMETER],
  capsule: [FROM, TO, DIAMETER],
  cone: [FROM, TO, length("fromDiameter_mm", true), length("toDiameter_mm", true)],
  sphere: [AT, DIAMETER],
  box: [AT, lengths("size_mm", "size", 3), optional(length("edge_mm", true)), TURN],
  torus: [AT, DIAMETER, length("section_mm"), TURN],
  tube: [
    rows("path", "path", readPlaceRow, writePlaceRow),
    DIAMETER,
    optional(length("bend_mm")),
    optional(length("wall_mm")),
  ],
  prism: [OUTLINE, HOLES, length("thickness_mm"), place("origin"), numbers("u", "way"), numbers("v", "squareWay")],
  hull: [
    optional(rows("spheres", "balls", readBall, writeBall)),
    optional(rows("points", "places", readPlaceRow, writePlaceRow)),
  ],
};

export type PieceShape = Extract<ShapeDocument, { kind: PieceKind }>;
