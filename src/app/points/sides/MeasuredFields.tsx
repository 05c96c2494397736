import { useState } from "react";
import type { Vec3 } from "../../../maths/vec3.ts";
import { fromDatum, toDatum } from "../../../scene/datum.ts";
import type { SceneDocument } from "../../../scene/document.ts";
import { formatLength, parseLength } from "../../../scene/length.ts";
import { measuredPoint } from "../../../scene/measured.ts";
import type { Datum, Side } from "../../../scene/scene.ts";
import type { Unit } from "../../store/state.ts";
import { t } from "../../text/text.ts";
import { lengthNumber } from "../../words/number.ts";
import { lengthFaultText } from "../lengthFaultText.ts";
import type { PointInfo } from "../pointInfo.ts";
import { pointSums } from "../pointSums.ts";
import { DIRECTIONS, type Direction, readPlace } from "../usePointMove.ts";

/** Off by more than this is worth a strong word, mm: common practice, no source. */
const OFF_mm = 1;

interface MeasuredFieldsProps {
  readonly info: PointInfo;
  /** Where it was measured. */
  readonly side: Side;
  readonly document: SceneDocument;
  readonly datum: Datum | null;
  readonly unit: Unit;
  readonly placeholder: string;
  /** What stands over a field; `drawn`: the number as it is drawn. */
  heading(direction: Direction, drawn: string): React.ReactNode;
  labelOf(direction: Direction): string;
  /** For what no tape tells apart from how it is drawn. */
  readonly same: string;
  onKeep(at: Vec3): void;
}

/**
 * The three numbers of one point as it was measured on a side, each with how far that is from where it is drawn. They are kept
 * at once when all three are there; until then they wait in their fields. Forgotten by mounting anew.
 */
export function MeasuredFields({
  info,
  side,
  document,
  datum,
  unit,
  placeholder,
  heading,
  labelOf,
  same,
  onKeep,
}: MeasuredFieldsProps) {
  const [typed, setTyped] = useState<Readonly<Partial<Record<Direction, string>>>>({});
  const drawn = readPlace(info.place, datum);
  const measured = measuredPoint(document, side, info.name);
  const reading = measured && toDatum(datum, measured.at, side);
  const told = reading && { forward: reading.forward_mm, out: reading.out_mm, up: reading.up_mm };
  const values = DIRECTIONS.map((direction) => {
    const text = typed[direction];
    if (text === undefined) return told ? told[direction] : null;
    const length = parseLength(text, unit, pointSums(document, datum, direction));
    return length.ok ? length.mm : null;
  });
  const keep = () => {
    const [forward_mm, out_mm, up_mm] = values;
    if (Object.keys(typed).length === 0 || forward_mm == null || out_mm == null || up_mm == null) return;
    setTyped({});
    onKeep(fromDatum(datum, { forward_mm, out_mm, up_mm }, side));
  };
  return (
    <div className="right-point-fields">
      {DIRECTIONS.map((direction, k) => {
        const text = typed[direction] ?? (told ? formatLength(told[direction], unit) : "");
        const isBad = text.trim() !== "" && values[k] === null;
        const off_mm = values[k] == null ? null : values[k] - drawn[direction];
        return (
          <label key={direction} className="tape-field">
            {heading(direction, lengthNumber(drawn[direction], unit))}
            <input
              className="field"
              aria-label={labelOf(direction)}
              aria-invalid={isBad}
              value={text}
              placeholder={placeholder}
              autoComplete="off"
              spellCheck={false}
              onChange={(event) => setTyped({ ...typed, [direction]: event.target.value })}
              onBlur={() => !isBad && keep()}
              onKeyDown={(event) => {
                if (event.key === "Enter" && !isBad) keep();
                if (event.key === "Escape") setTyped({});
              }}
            />
            <small data-apart={off_mm !== null && Math.abs(off_mm) > OFF_mm}>
              {isBad ? lengthFaultText({ code: "not-a-length" }) : offText(off_mm, direction, unit, same)}
            </small>
          </label>
        );
      })}
    </div>
  );
}

const WAYS = { forward: ["forward", "back"], out: ["outboard", "inboard"], up: ["up", "down"] } as const;

/** "2.0 inboard". */
function offText(off_mm: number | null, direction: Direction, unit: Unit, same: string): string {
  if (off_mm === null) return " ";
  if (Math.abs(off_mm) < 0.05) return same;
  return t(`points.way.${WAYS[direction][off_mm > 0 ? 0 : 1]}`, { size: lengthNumber(Math.abs(off_mm), unit) });
}
