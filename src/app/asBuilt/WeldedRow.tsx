import { useState } from "react";
import { fromDatum, toDatum } from "../../scene/datum.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { formatLength, parseLength } from "../../scene/length.ts";
import { measuredPoint } from "../../scene/measured.ts";
import type { Datum, Side } from "../../scene/scene.ts";
import { lengthFaultText } from "../points/lengthFaultText.ts";
import type { PointInfo } from "../points/pointInfo.ts";
import { pointSums } from "../points/pointSums.ts";
import { DIRECTIONS, type Direction, readPlace } from "../points/usePointMove.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { lengthNumber } from "../words/number.ts";
import { keepWelded } from "./welded.ts";

interface WeldedRowProps {
  readonly info: PointInfo;
  readonly side: Side;
  readonly document: SceneDocument;
  readonly datum: Datum | null;
  readonly unit: Unit;
}

type Texts = Readonly<Partial<Record<Direction, string>>>;

/** Off by more than this is worth a strong word, mm: common practice, no source. */
const OFF_mm = 1;

/** One mount as it was welded on a side, beside where it is drawn; kept as one step once all three numbers are there. */
export function WeldedRow({ info, side, document, datum, unit }: WeldedRowProps) {
  const [typed, setTyped] = useState<Texts>({});
  const measured = measuredPoint(document, side, info.name);
  const drawn = readPlace(info.place, datum);
  const reading = measured && toDatum(datum, measured.at, side);
  const welded = reading && { forward: reading.forward_mm, out: reading.out_mm, up: reading.up_mm };
  const values = DIRECTIONS.map((direction) => {
    const text = typed[direction];
    if (text === undefined) return welded ? welded[direction] : null;
    const length = parseLength(text, unit, pointSums(document, datum, direction));
    return length.ok ? length.mm : null;
  });
  const keep = () => {
    const [forward_mm, out_mm, up_mm] = values;
    if (Object.keys(typed).length === 0 || forward_mm == null || out_mm == null || up_mm == null) return;
    setTyped({});
    keepWelded(info, side, fromDatum(datum, { forward_mm, out_mm, up_mm }, side));
  };
  return (
    <li className="right-point">
      <div className="right-point-head">
        <b>{info.title}</b>
        {measured && (
          <button
            type="button"
            className="button plain"
            aria-label={t("asBuilt.forgetLabel", { point: info.title })}
            onClick={() => {
              setTyped({});
              keepWelded(info, side, null);
            }}
          >
            {t("asBuilt.forget")}
          </button>
        )}
      </div>
      <div className="right-point-fields">
        {DIRECTIONS.map((direction, k) => {
          const text = typed[direction] ?? (welded ? formatLength(welded[direction], unit) : "");
          const isBad = text.trim() !== "" && values[k] === null;
          const off_mm = values[k] == null ? null : values[k] - drawn[direction];
          return (
            <label key={direction} className="tape-field">
              <span>{t(`asBuilt.directions.${direction}`)}</span>
              <span className="quiet tabular">
                {t("asBuilt.drawn", { size: lengthNumber(drawn[direction], unit) })}
              </span>
              <input
                className="field"
                aria-label={t(`asBuilt.labels.${side}.${direction}`, { point: info.title })}
                aria-invalid={isBad}
                value={text}
                placeholder={t("asBuilt.placeholder")}
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
                {isBad ? lengthFaultText({ code: "not-a-length" }) : offText(off_mm, direction, unit)}
              </small>
            </label>
          );
        })}
      </div>
    </li>
  );
}

const WAYS = { forward: ["forward", "back"], out: ["outboard", "inboard"], up: ["up", "down"] } as const;

/** "2.0 inboard"; "as drawn" for what no tape tells apart. */
function offText(off_mm: number | null, direction: Direction, unit: Unit): string {
  if (off_mm === null) return " ";
  if (Math.abs(off_mm) < 0.05) return t("asBuilt.asDrawn");
  return t(`points.way.${WAYS[direction][off_mm > 0 ? 0 : 1]}`, { size: lengthNumber(Math.abs(off_mm), unit) });
}
