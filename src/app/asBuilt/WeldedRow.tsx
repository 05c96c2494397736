import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { measuredPoint } from "../../scene/measured.ts";
import type { Datum, Side } from "../../scene/scene.ts";
import type { PointInfo } from "../points/pointInfo.ts";
import { MeasuredFields } from "../points/sides/MeasuredFields.tsx";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { keepWelded } from "./welded.ts";

interface WeldedRowProps {
  readonly info: PointInfo;
  readonly side: Side;
  readonly document: SceneDocument;
  readonly datum: Datum | null;
  readonly unit: Unit;
}

/** One mount as it was welded on a side, beside where it is drawn; kept as one step once all three numbers are there. */
export function WeldedRow({ info, side, document, datum, unit }: WeldedRowProps) {
  const [forgotten, setForgotten] = useState(0);
  return (
    <li className="right-point">
      <div className="right-point-head">
        <b>{info.title}</b>
        {measuredPoint(document, side, info.name) && (
          <button
            type="button"
            className="button plain"
            aria-label={t("asBuilt.forgetLabel", { point: info.title })}
            onClick={() => {
              // what is typed and not kept goes too
              setForgotten(forgotten + 1);
              keepWelded(info, side, null);
            }}
          >
            {t("asBuilt.forget")}
          </button>
        )}
      </div>
      <MeasuredFields
        key={forgotten}
        info={info}
        side={side}
        document={document}
        datum={datum}
        unit={unit}
        placeholder={t("asBuilt.placeholder")}
        heading={(direction, drawn) => (
          <>
            <span>{t(`asBuilt.directions.${direction}`)}</span>
            <span className="quiet tabular">{t("asBuilt.drawn", { size: drawn })}</span>
          </>
        )}
        labelOf={(direction) => t(`asBuilt.labels.${side}.${direction}`, { point: info.title })}
        same={t("asBuilt.asDrawn")}
        onKeep={(at) => keepWelded(info, side, at)}
      />
    </li>
  );
}
