import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { withRecords } from "../../scene/parts/car.ts";
import { isVector, pointResolver } from "../../scene/pointResolver.ts";
import { DirectionField, PlaceField, PointPicker } from "../parts/PlaceFields.tsx";
import { TextLine } from "../parts/TextLine.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { CarForm } from "./CarForm.tsx";

type Datum = NonNullable<SceneDocument["datums"]>[number];
interface Row {
  readonly key: number;
  readonly datum: Datum;
}

/** The builder's own places to measure from. */
export function DatumsForm({ document }: { document: SceneDocument }) {
  const unit = useApp((state) => state.unit);
  const [rows, setRows] = useState<readonly Row[]>(() => (document.datums ?? []).map((datum, key) => ({ key, datum })));
  const change = (key: number, datum: Datum) => setRows(rows.map((row) => (row.key === key ? { key, datum } : row)));
  const add = () => {
    const [x, y] = pointResolver(document).drawn(document.wheel.centre, "wheel.centre");
    const id = t("car.datums.id", { number: rows.length + 1 });
    setRows([
      ...rows,
      { key: 1 + Math.max(-1, ...rows.map(({ key }) => key)), datum: { id, at: [x, Math.round(y - 280), 500] } },
    ]);
  };
  return (
    <CarForm
      title={t("car.datums.title")}
      lead={t("car.datums.lead")}
      step={t("car.datums.step")}
      edit={(now) => withRecords(now, { datums: rows.length === 0 ? undefined : rows.map(({ datum }) => datum) })}
    >
      {rows.map(({ key, datum }) => (
        <fieldset key={key} className="car-row" aria-label={datum.id}>
          <TextLine label={t("car.name")} value={datum.id} onChange={(id) => change(key, { ...datum, id })} />
          <PointPicker
            label={t("car.datums.at")}
            document={document}
            value={datum.at}
            onChange={(at) => change(key, { ...datum, at })}
          />
          {isVector(datum.at) && (
            <div className="place-parts">
              <PlaceField value={datum.at} unit={unit} onChange={(at) => change(key, { ...datum, at })} />
            </div>
          )}
          <DirectionField
            label={t("car.datums.forward")}
            value={datum.forward ?? [1, 0, 0]}
            onChange={(forward) => change(key, { ...datum, forward })}
          />
          <DirectionField
            label={t("car.datums.up")}
            value={datum.up ?? [0, 0, 1]}
            onChange={(up) => change(key, { ...datum, up })}
          />
          <button type="button" className="button plain" onClick={() => setRows(rows.filter((row) => row.key !== key))}>
            {t("car.takeOut")}
          </button>
        </fieldset>
      ))}
      <button type="button" className="button" onClick={add}>
        {t("car.datums.add")}
      </button>
    </CarForm>
  );
}
