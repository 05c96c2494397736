import { useMemo, useRef, useState } from "react";
import type { Vec3 } from "../../maths/vec3.ts";
import { fromDatum, toDatum } from "../../scene/datum.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { addPoint } from "../../scene/parts/car.ts";
import { freePoint } from "../../scene/parts/parts.ts";
import { pointResolver } from "../../scene/pointResolver.ts";
import { TextLine } from "../parts/TextLine.tsx";
import { DatumChooser } from "../points/DatumChooser.tsx";
import { LengthField } from "../points/LengthField.tsx";
import { pointSums } from "../points/pointSums.ts";
import { usePointsLook } from "../points/pointsStore.ts";
import { placeByTape } from "../points/tape/tapeStore.ts";
import { DIRECTIONS, datumOf } from "../points/usePointMove.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { CarForm } from "./CarForm.tsx";
import { OptionalSize } from "./Fields.tsx";

/** A hard point of its own, by numbers from a datum, or put down roughly and then placed by tape. */
export function PointForm({ document }: { document: SceneDocument }) {
  const unit = useApp((state) => state.unit);
  const scene = useApp((state) => state.scene);
  const datumId = usePointsLook((look) => look.datumId);
  const datum = datumOf(scene, datumId);
  const [name, setName] = useState(() => freePoint(document, t("car.point.newName")));
  const [at, setAt] = useState<Vec3>(() => besideWheel(document));
  const [tolerance_mm, setTolerance] = useState<number | undefined>(undefined);
  const [how, setHow] = useState("");
  const byTape = useRef(false);
  const reading = useMemo(() => toDatum(datum, at, "left"), [datum, at]);
  const id = name.trim();
  return (
    <CarForm
      title={t("car.point.title")}
      lead={t("car.point.lead")}
      step={t("car.point.step", { point: id })}
      edit={(now) => addPoint(now, id, { at, tolerance_mm, how: how.trim() })}
      extra={
        <button
          type="button"
          className="button"
          onClick={(event) => {
            byTape.current = true;
            event.currentTarget.form?.requestSubmit();
          }}
        >
          {t("car.point.keepTape")}
        </button>
      }
      onKept={() => {
        usePointsLook.setState({ list: "points" });
        app.getState().holdPoint(id);
        if (byTape.current) placeByTape(id, "left");
      }}
    >
      <TextLine label={t("car.name")} value={name} onChange={setName} />
      <DatumChooser />
      {DIRECTIONS.map((direction) => (
        <LengthField
          key={direction}
          label={t(`car.point.ways.${direction}`)}
          from={datum ? "" : t(`car.point.from.${direction}`)}
          value_mm={reading[`${direction}_mm`]}
          unit={unit}
          references={pointSums(document, datum, direction)}
          onChange={(value) => setAt(fromDatum(datum, { ...reading, [`${direction}_mm`]: value }, "left"))}
          onKeep={() => {}}
          onPutBack={() => {}}
        />
      ))}
      <OptionalSize label={t("car.point.tolerance")} value_mm={tolerance_mm} usual_mm={1} onChange={setTolerance} />
      <TextLine label={t("car.point.how")} value={how} onChange={setHow} />
    </CarForm>
  );
}

function besideWheel(document: SceneDocument): Vec3 {
  const [x, y, z] = pointResolver(document).drawn(document.wheel.centre, "wheel.centre");
  return [x, Math.round(y - 300), z];
}
