import { useState } from "react";
import type { Vec3 } from "../../../maths/vec3.ts";
import { fromDatum, toDatum } from "../../../scene/datum.ts";
import type { SceneDocument } from "../../../scene/document.ts";
import { formatLength, parseLength } from "../../../scene/length.ts";
import { measuredPoint, withMeasured } from "../../../scene/measured.ts";
import type { Datum } from "../../../scene/scene.ts";
import type { Unit } from "../../store/state.ts";
import { app } from "../../store/useApp.ts";
import { withinText } from "../../text/formats.ts";
import { t } from "../../text/text.ts";
import { lengthNumber } from "../../words/number.ts";
import { lengthFaultText } from "../lengthFaultText.ts";
import type { PointInfo } from "../pointInfo.ts";
import { pointSums } from "../pointSums.ts";
import { placeByTape } from "../tape/tapeStore.ts";
import { DIRECTIONS, type Direction, readPlace } from "../usePointMove.ts";

interface RightPointRowProps {
  readonly info: PointInfo;
  readonly document: SceneDocument;
  readonly datum: Datum | null;
  readonly unit: Unit;
}

type Texts = Readonly<Partial<Record<Direction, string>>>;

/** Both sides are wanted equal within this, mm: common practice, no source. */
const ALIKE_mm = 1;

/**
 * One point as it stands on the left and as it was measured on the right, with the difference below each number. A number
 * is kept as one named step once all three are there; until then it waits in its field.
 */
export function RightPointRow({ info, document, datum, unit }: RightPointRowProps) {
  const [typed, setTyped] = useState<Texts>({});
  const measured = measuredPoint(document, "right", info.name);
  const left = readPlace(info.place, datum);
  const reading = measured && toDatum(datum, measured.at, "right");
  const right = reading && { forward: reading.forward_mm, out: reading.out_mm, up: reading.up_mm };
  const values = DIRECTIONS.map((direction) => {
    const text = typed[direction];
    if (text === undefined) return right ? right[direction] : null;
    const length = parseLength(text, unit, pointSums(document, datum, direction));
    return length.ok ? length.mm : null;
  });
  const keep = () => {
    const [forward_mm, out_mm, up_mm] = values;
    if (Object.keys(typed).length === 0 || forward_mm == null || out_mm == null || up_mm == null) return;
    setTyped({});
    keepRight(info, fromDatum(datum, { forward_mm, out_mm, up_mm }, "right"));
  };
  return (
    <li className="right-point">
      <div className="right-point-head">
        <b>{info.title}</b>
        <button type="button" className="button plain" onClick={() => placeByTape(info.name, "right")}>
          {t("points.sides.byTape")}
        </button>
        {measured && (
          <button
            type="button"
            className="button plain"
            aria-label={t("points.sides.forgetLabel", { point: info.title })}
            onClick={() => {
              setTyped({});
              keepEdit(
                t("points.steps.rightForgotten", { point: withinText(info.title) }),
                withMeasured(document, "right", info.name, null),
              );
            }}
          >
            {t("points.sides.forget")}
          </button>
        )}
      </div>
      <div className="right-point-fields">
        {DIRECTIONS.map((direction, k) => {
          const text = typed[direction] ?? (right ? formatLength(right[direction], unit) : "");
          const isBad = text.trim() !== "" && values[k] === null;
          const apart_mm = values[k] == null ? null : values[k] - left[direction];
          return (
            <label key={direction} className="tape-field">
              {t(`points.sides.fields.${direction}`, { size: lengthNumber(left[direction], unit) })}
              <input
                className="field"
                aria-label={t(`points.sides.labels.${direction}`, { point: info.title })}
                aria-invalid={isBad}
                value={text}
                placeholder={t("points.sides.placeholder")}
                autoComplete="off"
                spellCheck={false}
                onChange={(event) => setTyped({ ...typed, [direction]: event.target.value })}
                onBlur={() => !isBad && keep()}
                onKeyDown={(event) => {
                  if (event.key === "Enter" && !isBad) keep();
                  if (event.key === "Escape") setTyped({});
                }}
              />
              <small data-apart={apart_mm !== null && Math.abs(apart_mm) > ALIKE_mm}>
                {isBad ? lengthFaultText({ code: "not-a-length" }) : apartText(apart_mm, direction, unit)}
              </small>
            </label>
          );
        })}
      </div>
    </li>
  );
}

const WAYS = {
  forward: ["forward", "back"],
  out: ["outboard", "inboard"],
  up: ["up", "down"],
} as const;

/** "2.0 inboard"; "alike" for what no tape tells apart. */
function apartText(apart_mm: number | null, direction: Direction, unit: Unit): string {
  if (apart_mm === null) return " ";
  if (Math.abs(apart_mm) < 0.05) return t("points.sides.alike");
  return t(`points.way.${WAYS[direction][apart_mm > 0 ? 0 : 1]}`, { size: lengthNumber(Math.abs(apart_mm), unit) });
}

function keepRight(info: PointInfo, at: Vec3): void {
  const { document } = app.getState();
  if (!document) return;
  keepEdit(
    t("points.steps.right", { point: withinText(info.title) }),
    withMeasured(document, "right", info.name, { at }),
  );
}

/** What was measured is no move: it is kept beside a move that may be tried, which stays tried. */
function keepEdit(stepName: string, document: SceneDocument): void {
  const { tried, edit, tryMove } = app.getState();
  edit(stepName, document);
  if (tried) tryMove(tried);
}
