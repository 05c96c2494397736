import { useState } from "react";
import type { Vec3 } from "../../../maths/vec3.ts";
import type { SceneDocument } from "../../../scene/document.ts";
import { measuredPoint, withMeasured } from "../../../scene/measured.ts";
import type { Datum } from "../../../scene/scene.ts";
import type { Unit } from "../../store/state.ts";
import { app } from "../../store/useApp.ts";
import { withinText } from "../../text/formats.ts";
import { t } from "../../text/text.ts";
import type { PointInfo } from "../pointInfo.ts";
import { placeByTape } from "../tape/tapeStore.ts";
import { MeasuredFields } from "./MeasuredFields.tsx";

interface RightPointRowProps {
  readonly info: PointInfo;
  readonly document: SceneDocument;
  readonly datum: Datum | null;
  readonly unit: Unit;
}

/** One point as it stands on the left and as it was measured on the right, with the difference below each number. */
export function RightPointRow({ info, document, datum, unit }: RightPointRowProps) {
  const [forgotten, setForgotten] = useState(0);
  return (
    <li className="right-point">
      <div className="right-point-head">
        <b>{info.title}</b>
        <button type="button" className="button plain" onClick={() => placeByTape(info.name, "right")}>
          {t("points.sides.byTape")}
        </button>
        {measuredPoint(document, "right", info.name) && (
          <button
            type="button"
            className="button plain"
            aria-label={t("points.sides.forgetLabel", { point: info.title })}
            onClick={() => {
              // what is typed and not kept goes too
              setForgotten(forgotten + 1);
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
      <MeasuredFields
        key={forgotten}
        info={info}
        side="right"
        document={document}
        datum={datum}
        unit={unit}
        placeholder={t("points.sides.placeholder")}
        heading={(direction, left) => t(`points.sides.fields.${direction}`, { size: left })}
        labelOf={(direction) => t(`points.sides.labels.${direction}`, { point: info.title })}
        same={t("points.sides.alike")}
        onKeep={(at) => keepRight(info, at)}
      />
    </li>
  );
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
