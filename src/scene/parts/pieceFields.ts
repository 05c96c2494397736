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

export interface PieceField {
  readonly key: string;
  readonly label: string;
  /** How it is written. */
  readonly hint: string;
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

const PLACE = "forward; left; up, or a hard point's name, or a name: and a step from it";

function field(
  key: string,
  label: string,
  hint: string,
  read: PieceField["read"],
  write: PieceField["write"],
): PieceField {
  return { key, label, hint, isOptional: false, hasRows: false, read, write };
}

function place(key: string, label: string): PieceField {
  return field(
    key,
    label,
    PLACE,
    (text, { unit, names }) => parsePlace(text, unit, names),
    (value, unit) => placeText(value as PointDocument, unit),
  );
}

function length(key: string, label: string, mayBeNone = false): PieceField {
  return field(
    key,
    label,
    "",
    (text, { unit }) => {
      const read = parseLength(text, unit);
      if (!read.ok) return refused(`${read.message}.`);
      if (read.mm < 0 || (read.mm === 0 && !mayBeNone)) return refused("A length above 0 is wanted.");
      return { ok: true, value: read.mm };
    },
    (value, unit) => lengthFigure(value as number, unit),
  );
}

function optional(one: PieceField): PieceField {
  return { ...one, isOptional: true };
}

/** Plain numbers: a direction, angles. */
function numbers(key: string, label: string, hint: string): PieceField {
  return field(
    key,
    label,
    hint,
    (text) => {
      const read = text
        .trim()
        .split(/\s*[;\t]\s*|,\s+|\s+/)
        .map((word) => Number(word.replace(/^[−–]/, "-").replace(",", ".")));
      return read.length === 3 && read.every(Number.isFinite)
        ? { ok: true, value: read }
        : refused("Three numbers are wanted.");
    },
    (value) => (value as readonly number[]).join("; "),
  );
}

function lengths(key: string, label: string, hint: string, count: number): PieceField {
  return field(
    key,
    label,
    hint,
    (text, { unit }) => {
      const row = parseRow(text, unit, []);
      if (!row.ok) return row;
      return row.value.lengths_mm.length === count
        ? { ok: true, value: row.value.lengths_mm }
        : refused(`${count} lengths are wanted.`);
    },
    (value, unit) => numbersText(value as readonly number[], unit),
  );
}

/** One thing to a row; a fault tells its row. */
function rows(
  key: string,
  label: string,
  hint: string,
  readRow: (text: string, setting: PieceSetting) => Typed<unknown>,
  writeRow: (value: unknown, unit: LengthUnit) => string,
): PieceField {
  return {
    ...field(
      key,
      label,
      hint,
      (text, setting) => {
        const values: unknown[] = [];
        for (const [i, line] of text.split("\n").entries()) {
          if (line.trim() === "") continue;
          const read = readRow(line, setting);
          if (!read.ok) return refused(`Row ${i + 1}: ${read.fault}`);
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
    return refused("forward; left; up; diameter are wanted.");
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
const FLAT = lengths("", "", "", 2);

/** Outlines one below the other, an empty row between them. */
const HOLES: PieceField = {
  ...field(
    "holes",
    "Holes",
    "as the outline, one row for each corner; an empty row before the next hole",
    (text, setting) => {
      const holes: unknown[] = [];
      for (const [i, block] of text
        .trim()
        .split(/\n\s*\n/)
        .entries()) {
        const hole = OUTLINE.read(block, setting);
        if (!hole.ok) return refused(`Hole ${i + 1}, ${hole.fault}`);
        holes.push(hole.value);
      }
      return { ok: true, value: holes };
    },
    (value, unit) => (value as readonly unknown[]).map((hole) => OUTLINE.write(hole, unit)).join("\n\n"),
  ),
  hasRows: true,
  isOptional: true,
};

const OUTLINE = rows(
  "outline",
  "Outline",
  "u; v from the corner it is drawn from, one row for each corner",
  FLAT.read,
  FLAT.write,
);

const FROM = place("from", "From");
const TO = place("to", "To");
const AT = place("at", "Middle");
const DIAMETER = length("diameter_mm", "Diameter");
const TURN = optional(numbers("turn_deg", "Turned", "degrees about forward; left; up, one after the other"));

export const PIECE_FIELDS: Readonly<Record<PieceKind, readonly PieceField[]>> = {
  cylinder: [FROM, TO, DIAMETER],
  capsule: [FROM, TO, DIAMETER],
  cone: [
    FROM,
    TO,
    length("fromDiameter_mm", "Diameter there", true),
    length("toDiameter_mm", "Diameter at the other end", true),
  ],
  sphere: [AT, DIAMETER],
  box: [
    AT,
    lengths("size_mm", "Size", "long; wide; high", 3),
    optional(length("edge_mm", "Edges rounded by", true)),
    TURN,
  ],
  torus: [AT, DIAMETER, length("section_mm", "Section"), TURN],
  tube: [
    rows("path", "Middle line", `one row for each corner: ${PLACE}`, readPlaceRow, writePlaceRow),
    DIAMETER,
    optional(length("bend_mm", "Bend radius")),
    optional(length("wall_mm", "Wall")),
  ],
  prism: [
    OUTLINE,
    HOLES,
    length("thickness_mm", "Thickness"),
    place("origin", "Drawn from"),
    numbers("u", "u runs along", "forward; left; up parts"),
    numbers("v", "v runs along", "forward; left; up parts; it grows square to both"),
  ],
  hull: [
    optional(rows("spheres", "Balls", "one row for each: forward; left; up; diameter", readBall, writeBall)),
    optional(rows("points", "Corners", `one row for each: ${PLACE}`, readPlaceRow, writePlaceRow)),
  ],
};

export type PieceShape = Extract<ShapeDocument, { kind: PieceKind }>;
