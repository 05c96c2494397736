import { mirror, type Vec3 } from "../../../maths/vec3.ts";
import { fromDatum, toDatum } from "../../../scene/datum.ts";
import type { SceneDocument } from "../../../scene/document.ts";
import { InputError } from "../../../scene/error.ts";
import { formatLength, type LengthReferences, parseLength } from "../../../scene/length.ts";
import { type MeasuredPoint, measuredPoint } from "../../../scene/measured.ts";
import type { Datum, Side } from "../../../scene/scene.ts";
import { placeFromTapes, type Tape, type TapeFix } from "../../../scene/tape.ts";
import type { Unit } from "../../store/state.ts";
import { t } from "../../text/text.ts";
import { lengthFaultText } from "../lengthFaultText.ts";
import { pointInfos } from "../pointInfo.ts";
import { pointSums } from "../pointSums.ts";
import { DIRECTIONS, type Direction } from "../usePointMove.ts";

/** One line of the dialog, as typed. */
export interface DraftTape extends Readonly<Record<Direction, string>> {
  readonly key: number;
  /** Name of the point that serves as stud; "": its place is typed. */
  readonly stud: string;
  readonly length: string;
}

export interface TapeDraft {
  readonly lines: readonly DraftTape[];
  readonly accuracy: string;
}

/** What numbers in the dialog are read by. */
export interface TapeSetting {
  readonly document: SceneDocument;
  readonly point: string;
  readonly side: Side;
  readonly datum: Datum | null;
  readonly unit: Unit;
}

export type DraftField = Direction | "length";

export interface DraftReading {
  /** Lines that hold all a tape needs, in their order. */
  readonly tapes: readonly (Tape & { readonly key: number; readonly name: string })[];
  readonly accuracy_mm: number;
  /** By line and field, why what stands there is no length. */
  readonly faults: ReadonlyMap<string, string>;
  /** null: still something to fill in, or `refusal` tells what is wrong. */
  readonly fix: TapeFix | null;
  readonly refusal: string | null;
}

export const ACCURACY_FAULT = "accuracy";
const FEWEST = 3;

export function faultKey(key: number, field: DraftField): string {
  return `${key}/${field}`;
}

export function blankLine(key: number): DraftTape {
  return { key, stud: "", forward: "", out: "", up: "", length: "" };
}

/** The tapes that the scene holds of this point, or three blank lines. */
export function beginDraft(setting: TapeSetting): TapeDraft {
  const { document, point, side, datum, unit } = setting;
  const text = (mm: number) => formatLength(mm, unit).replace("−", "-");
  const { accuracy_mm = unit === "mm" ? 1 : 25.4 / 32, lines = [] } = measuredPoint(document, side, point)?.tapes ?? {};
  const known = lines.map(({ at, length_mm }, key): DraftTape => {
    const { forward_mm, out_mm, up_mm } = toDatum(datum, at, side);
    return { key, stud: "", forward: text(forward_mm), out: text(out_mm), up: text(up_mm), length: text(length_mm) };
  });
  const blank = Array.from({ length: Math.max(0, FEWEST - known.length) }, (_, i) => blankLine(known.length + i));
  return { lines: [...known, ...blank], accuracy: text(accuracy_mm) };
}

/** Where a named point serves as stud on that side: as it was measured there, else as it is drawn, mirrored on the right. */
export function studPlace({ document, side }: TapeSetting, name: string): Vec3 | null {
  const place = pointInfos(document).find((info) => info.name === name)?.place;
  if (!place) return null;
  return side === "left" ? place : (measuredPoint(document, "right", name)?.at ?? mirror(place));
}

/** Where the point is thought to be on that side: it says which of two equal places is meant. */
export function thoughtPlace(setting: TapeSetting): Vec3 {
  return studPlace(setting, setting.point) ?? [0, 0, 0];
}

export function readDraft(draft: TapeDraft, setting: TapeSetting): DraftReading {
  const faults = new Map<string, string>();
  const read = (text: string, key: string, references?: LengthReferences): number | null => {
    if (text.trim() === "") return null;
    const length = parseLength(text, setting.unit, references);
    if (length.ok) return length.mm;
    faults.set(key, lengthFaultText(length));
    return null;
  };
  const tapes = draft.lines.flatMap((line, i) => {
    const length_mm = read(line.length, faultKey(line.key, "length"));
    const stud = line.stud === "" ? typedPlace(line, setting, read) : studPlace(setting, line.stud);
    if (length_mm === null || stud === null) return [];
    return [{ key: line.key, name: line.stud || t("points.tape.stud", { number: i + 1 }), stud, length_mm }];
  });
  const accuracy_mm = read(draft.accuracy, ACCURACY_FAULT) ?? Number.NaN;
  if (faults.size > 0 || tapes.length < FEWEST) return { tapes, accuracy_mm, faults, fix: null, refusal: null };
  try {
    return {
      tapes,
      accuracy_mm,
      faults,
      fix: placeFromTapes(tapes, accuracy_mm, thoughtPlace(setting)),
      refusal: null,
    };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const refusal = `${error.wrong.charAt(0).toUpperCase()}${error.wrong.slice(1)}. Wanted: ${error.wanted}.`;
    return { tapes, accuracy_mm, faults, fix: null, refusal };
  }
}

function typedPlace(
  line: DraftTape,
  { document, datum, side }: TapeSetting,
  read: (text: string, key: string, references: LengthReferences) => number | null,
): Vec3 | null {
  const [forward_mm, out_mm, up_mm] = DIRECTIONS.map((direction) =>
    read(line[direction], faultKey(line.key, direction), pointSums(document, datum, direction)),
  );
  if (forward_mm == null || out_mm == null || up_mm == null) return null;
  return fromDatum(datum, { forward_mm, out_mm, up_mm }, side);
}

/** The tapes as the scene keeps them. */
export function tapeRecord({ tapes, accuracy_mm }: DraftReading): NonNullable<MeasuredPoint["tapes"]> {
  return { accuracy_mm, lines: tapes.map(({ name, stud, length_mm }) => ({ stud: name, at: stud, length_mm })) };
}
