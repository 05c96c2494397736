import Papa from "papaparse";
import { type DatumReading, toDatum } from "../../scene/datum.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { measuredPoint } from "../../scene/measured.ts";
import { listPoints } from "../../scene/points.ts";
import type { Datum, Side } from "../../scene/scene.ts";

export const WAYS = ["forward_mm", "out_mm", "up_mm"] as const satisfies readonly (keyof DatumReading)[];

/** A point as it was measured on one side. */
export interface PointOnCar {
  readonly reading: DatumReading;
  readonly tolerance_mm: number | null;
  readonly how: string | null;
}

export interface HardPointLine {
  readonly point: string;
  /** Where the scene has it (bolted up where it is), the same number on either side. */
  readonly drawn: DatumReading;
  readonly tolerance_mm: number | null;
  /** How the drawn place was found. */
  readonly how: string | null;
  readonly left: PointOnCar | null;
  readonly right: PointOnCar | null;
  /** Right less left as measured; a side that was not measured counts as drawn; null where neither was. Mirror images give nothing. */
  readonly difference: DatumReading | null;
}

/** Every hard point in the order of the scene, mm from the datum; null is the car's own: axle line, centre plane, ground. */
export function hardPointLines(document: SceneDocument, datum: Datum | null): HardPointLine[] {
  return listPoints(document).map(({ name, at, boltedUpAt, tolerance_mm, how }) => {
    const drawn = toDatum(datum, boltedUpAt ?? at, "left");
    const [left, right] = (["left", "right"] as const).map((side) => onCar(document, datum, side, name));
    const [here, there] = [left?.reading ?? drawn, right?.reading ?? drawn];
    const difference =
      left || right
        ? {
            forward_mm: there.forward_mm - here.forward_mm,
            out_mm: there.out_mm - here.out_mm,
            up_mm: there.up_mm - here.up_mm,
          }
        : null;
    return { point: name, drawn, tolerance_mm, how, left: left ?? null, right: right ?? null, difference };
  });
}

function onCar(document: SceneDocument, datum: Datum | null, side: Side, name: string): PointOnCar | null {
  const point = measuredPoint(document, side, name);
  if (!point) return null;
  return { reading: toDatum(datum, point.at, side), tolerance_mm: point.tolerance_mm ?? null, how: point.how ?? null };
}

/** The lines as comma-separated values (RFC 4180), mm; what was not measured is empty. */
export function hardPointsCsv(lines: readonly HardPointLine[]): string {
  const places = ["drawn", "left", "right", "difference"] as const;
  const fields = [
    "point",
    ...places.flatMap((place) => WAYS.map((way) => `${place}_${way}`)),
    ...["tolerance_mm", "how", "left_tolerance_mm", "left_how", "right_tolerance_mm", "right_how"],
  ];
  const data = lines.map(({ point, drawn, left, right, difference, tolerance_mm, how }) => [
    point,
    ...[drawn, left?.reading, right?.reading, difference].flatMap((reading) =>
      WAYS.map((way) => (reading ? rounded(reading[way]) : "")),
    ),
    ...[tolerance_mm, how, left?.tolerance_mm, left?.how, right?.tolerance_mm, right?.how].map((cell) => cell ?? ""),
  ]);
  return `${Papa.unparse({ fields, data }, { newline: "\n", escapeFormulae: false })}\n`;
}

/** To a thousandth of a millimetre, so that the digits of rounding do not show. */
export function rounded(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}
