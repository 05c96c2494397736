import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { withRecords } from "../../scene/parts/car.ts";
import { TextLine } from "../parts/TextLine.tsx";
import { Choices } from "../shell/Choices.tsx";
import { t } from "../text/text.ts";
import { CarForm } from "./CarForm.tsx";
import { LengthLine } from "./Fields.tsx";

const SIDES = (["both", "left", "right"] as const).map((value) => ({ value, name: t(`car.travel.side.${value}`) }));

/** Name and notes of the scene, its travel, and which sides are checked. */
export function TravelForm({ document }: { document: SceneDocument }) {
  const [title, setTitle] = useState(document.title);
  const [notes, setNotes] = useState(document.notes ?? "");
  const [travel, setTravel] = useState(document.travel);
  const [sides, setSides] = useState(document.sides);
  const line = (label: string, key: keyof typeof travel) => (
    <LengthLine label={label} value_mm={travel[key]} onChange={(value) => setTravel({ ...travel, [key]: value })} />
  );
  return (
    <CarForm
      title={t("car.travel.title")}
      lead={t("car.travel.lead")}
      step={t("car.travel.step")}
      edit={(now) => withRecords(now, { title: title.trim(), notes: notes.trim() || undefined, travel, sides })}
    >
      <TextLine label={t("car.travel.scene")} value={title} onChange={setTitle} />
      {line(t("car.travel.bump"), "bump_mm")}
      {line(t("car.travel.droop"), "droop_mm")}
      {line(t("car.travel.curves"), "step_mm")}
      <p className="car-label">{t("car.travel.sides")}</p>
      <Choices label={t("car.travel.sides")} options={SIDES} value={sides} onChoose={setSides} />
      <label className="field-label">
        {t("car.travel.notes")}
        <textarea
          className="field"
          rows={4}
          value={notes}
          maxLength={20_000}
          onChange={(event) => setNotes(event.target.value)}
        />
      </label>
    </CarForm>
  );
}
