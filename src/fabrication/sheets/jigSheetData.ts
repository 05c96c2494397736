import { distance, mirror, subtract, type Vec3 } from "../../maths/vec3.ts";
import { toDatum } from "../../scene/datum.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { listPoints } from "../../scene/points.ts";
import type { Datum, Side } from "../../scene/scene.ts";
import { type Candidate, chosenLengths } from "./checkLengths.ts";

/** How well a mount is placed where the scene says nothing, mm each way: common practice, no source. */
export const USUAL_TOLERANCE_mm = 1;

export interface JigSheetRequest {
  /** Top of the jig table, read up from the datum. */
  readonly table_mm: number;
  /** Diameter of the dummy bars or bolts in the bushes; null: heights to centres only. */
  readonly bar_mm: number | null;
}

export interface JigStation {
  /** As it stands in the drawing: 1, 2, 3. */
  readonly number: number;
  readonly point: string;
  readonly forward_mm: number;
  readonly out_mm: number;
  /** Of the centre above the table. */
  readonly height_mm: number;
  /** From the table to the underside of the dummy bar: what a stand or spacer there is long. */
  readonly under_mm: number | null;
  readonly tolerance_mm: number;
}

export interface StationSide {
  readonly point: string;
  readonly side: Side;
}

export interface CheckLength {
  readonly from: StationSide;
  readonly to: StationSide;
  /** Centre to centre through the air; of a diagonal, its mirror image is as long. */
  readonly straight_mm: number;
  /** Between the two places plumbed down on the table. */
  readonly onTable_mm: number;
  /** How far the straight one may be off while both ends are within their tolerances. */
  readonly within_mm: number;
}

export interface JigSheetData {
  /** Mounts on the frame, in the order of the scene, of the left side; the right side's are their images. */
  readonly stations: readonly JigStation[];
  readonly bothSides: boolean;
  /** From the left to the right of the same point. */
  readonly across: readonly CheckLength[];
  /** From a point on the left to another on the right; the same the other way round. */
  readonly diagonals: readonly CheckLength[];
  /** Between two points of one side. */
  readonly alongside: readonly CheckLength[];
}

/**
 * What a jig for the frame's mounts needs: where each stands over the table, and lengths for a tape, chosen so that any mount that is out sideways or
 * fore and aft shows in one of them (`checkLengths.ts`). Places are those that the mounts have now; the table is square to the datum's up.
 */
export function jigSheetData(document: SceneDocument, datum: Datum | null, request: JigSheetRequest): JigSheetData {
  const mounts = listPoints(document).filter(({ isMount }) => isMount);
  const places = mounts.map(({ at, boltedUpAt }) => boltedUpAt ?? at);
  const tolerances = mounts.map(({ tolerance_mm }) => tolerance_mm ?? USUAL_TOLERANCE_mm);
  const stations = mounts.map(({ name }, i): JigStation => {
    const { forward_mm, out_mm, up_mm } = toDatum(datum, places[i]!, "left");
    const height_mm = up_mm - request.table_mm;
    const under_mm = request.bar_mm === null ? null : height_mm - request.bar_mm / 2;
    return { number: i + 1, point: name, forward_mm, out_mm, height_mm, under_mm, tolerance_mm: tolerances[i]! };
  });
  const up: Vec3 = datum?.up ?? [0, 0, 1];
  const bothSides = document.sides === "both";
  const candidate = (a: number, b: number, far: Side): Candidate => {
    const to = far === "left" ? places[b]! : mirror(places[b]!);
    return { a, b, far, from: places[a]!, to };
  };
  const all = mounts.flatMap((_, a) =>
    mounts.flatMap((__, b) => [
      ...(a < b ? [candidate(a, b, "left")] : []),
      ...(bothSides && a <= b ? [candidate(a, b, "right")] : []),
    ]),
  );
  const chosen = chosenLengths(all, mounts.length, up).map((length): CheckLength & { kind: string } => {
    const { a, b, far, from, to } = length;
    return {
      from: { point: mounts[a]!.name, side: "left" },
      to: { point: mounts[b]!.name, side: far },
      straight_mm: distance(from, to),
      onTable_mm: plan(subtract(to, from), up),
      within_mm: tolerances[a]! + tolerances[b]!,
      kind: far === "left" ? "alongside" : a === b ? "across" : "diagonal",
    };
  });
  const of = (kind: string): CheckLength[] =>
    chosen.filter((length) => length.kind === kind).map(({ kind: _, ...length }) => length);
  return { stations, bothSides, across: of("across"), diagonals: of("diagonal"), alongside: of("alongside") };
}

/** Where the table's top is if nobody says: at the ground below the axle line, read up from the datum, mm. */
export function groundFrom(datum: Datum | null): number {
  return toDatum(datum, [0, 0, 0], "left").up_mm;
}

function plan(way: Vec3, up: Vec3): number {
  const along = way[0] * up[0] + way[1] * up[1] + way[2] * up[2];
  return Math.sqrt(Math.max(0, way[0] ** 2 + way[1] ** 2 + way[2] ** 2 - along ** 2));
}
