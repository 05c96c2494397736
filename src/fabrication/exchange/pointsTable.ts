import Papa from "papaparse";
import type { Vec3 } from "../../maths/vec3.ts";
import { type DatumReading, fromDatum, toDatum } from "../../scene/datum.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { parseLength } from "../../scene/length.ts";
import { shortQuote } from "../../scene/path.ts";
import { listPoints, withBoltedUp, withPoint } from "../../scene/points.ts";
import type { Datum } from "../../scene/scene.ts";

const WAYS = ["forward_mm", "out_mm", "up_mm"] as const satisfies readonly (keyof DatumReading)[];
const COLUMNS = ["point", ...WAYS, "tolerance_mm", "how"] as const;
export const LARGEST_TABLE_BYTES = 5_000_000;
/** A place that reads the same as before is not a change, mm: what is written is rounded to less. */
const SAME_mm = 1e-6;

/**
 * The hard points of the left side, or of both alike, as comma-separated values (RFC 4180) with a heading: where each stands (bolted up
 * where it is), mm from the datum, null the car's own; how well it is known and how it was measured.
 */
export function pointsTable(document: SceneDocument, datum: Datum | null): string {
  const rows = listPoints(document).map(({ name, at, boltedUpAt, tolerance_mm, how }) => {
    const reading = toDatum(datum, boltedUpAt ?? at, "left");
    return [name, ...WAYS.map((way) => round(reading[way])), tolerance_mm ?? "", how ?? ""];
  });
  return `${Papa.unparse({ fields: [...COLUMNS], data: rows }, { newline: "\n", escapeFormulae: false })}\n`;
}

/**
 * The document with the points where such a table has them; columns beside the point's name and its three places are let be, lengths
 * are millimetres or say their unit ("9 7/16in"). A point that is bolted up elsewhere is moved there, any other is drawn anew.
 * Throws InputError that names the row.
 */
export function withPointsTable(document: SceneDocument, text: string, datum: Datum | null): SceneDocument {
  if (text.length > LARGEST_TABLE_BYTES) {
    throw new InputError(
      "too-large",
      { path: "table" },
      "is larger than 5 MB",
      "a table of hard points, one in a line",
    );
  }
  const headings = new Set<string>();
  const isOneOf = (heading: string) => heading === "point" || WAYS.some((way) => way === heading);
  const { data, meta, errors } = Papa.parse<Record<string, string>>(text.replace(/^\uFEFF/, ""), {
    header: true,
    skipEmptyLines: "greedy",
    transformHeader: (heading, i) => ownHeading(heading.trim(), i),
  });
  function ownHeading(heading: string, i: number): string {
    if (!headings.has(heading)) {
      headings.add(heading);
      return heading;
    }
    if (!isOneOf(heading)) return `${heading} ${i}`;
    throw new InputError("wrong-format", { path: "heading" }, `${heading} is there twice`, "each column once");
  }
  const missing = ["point", ...WAYS].filter((column) => !meta.fields?.includes(column));
  if (missing.length > 0)
    throw new InputError(
      "wrong-format",
      { path: "heading" },
      `there is no column ${missing.join(", ")}`,
      `a first line with ${["point", ...WAYS].join(", ")}`,
    );
  const broken = errors.find(({ code }) => code !== "UndetectableDelimiter");
  if (broken) throw faulty((broken.row ?? 0) + 1, tornRow(broken.code), "as many values as headings");
  const points = new Map(listPoints(document).map((point) => [point.name, point]));
  const seen = new Set<string>();
  let changed = document;
  for (const [i, row] of data.entries()) {
    const name = row.point!.trim();
    const point = points.get(name);
    if (!point)
      throw faulty(i + 1, `no hard point is called ${shortQuote(name)}`, `one of ${[...points.keys()].join(", ")}`);
    if (seen.has(name)) throw faulty(i + 1, `${shortQuote(name)} is there twice`, "each point once");
    seen.add(name);
    const now = toDatum(datum, point.boltedUpAt ?? point.at, "left");
    const wanted = { ...now };
    for (const way of WAYS) wanted[way] = lengthIn(row[way]!, i + 1, way);
    if (WAYS.every((way) => Math.abs(wanted[way] - now[way]) <= SAME_mm)) continue;
    const at: Vec3 = fromDatum(datum, wanted, "left");
    changed = point.boltedUpAt ? withBoltedUp(changed, name, at) : withPoint(changed, name, at);
  }
  return changed;
}

function tornRow(code: Papa.ParseError["code"]): string {
  switch (code) {
    case "TooFewFields":
      return "it has fewer values than the heading";
    case "TooManyFields":
      return "it has more values than the heading";
    default:
      return "a quotation mark is not closed, or stands within a value";
  }
}

function lengthIn(text: string, row: number, column: string): number {
  const read = parseLength(text, "mm");
  if (!read.ok) throw faulty(row, `${column} is ${shortQuote(text)}`, "a length such as 239.7, or 9 7/16in");
  return read.mm;
}

function faulty(row: number, wrong: string, wanted: string): InputError {
  return new InputError("wrong-value", { path: `row ${row}` }, wrong, wanted);
}

/** Rounded to 1e-9 mm, so that the digits of rounding do not show. */
function round(mm: number): number {
  return Math.round(mm * 1e9) / 1e9 + 0;
}
