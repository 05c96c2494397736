import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { withRecords } from "../../scene/parts/car.ts";
import { TextLine } from "../parts/PartDialogs.tsx";
import { Choices } from "../shell/Choices.tsx";
import { CarForm } from "./CarForm.tsx";
import { LengthLine } from "./Fields.tsx";
import { WORDS } from "./words.ts";

const SIDES = [
  { value: "both", name: "both" },
  { value: "left", name: "left" },
  { value: "right", name: "right" },
] as const;

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
      title={WORDS.travel}
      lead={WORDS.travelLead}
      step={WORDS.travel.toLowerCase()}
      edit={(now) => withRecords(now, { title: title.trim(), notes: notes.trim() || undefined, travel, sides })}
    >
      <TextLine label={WORDS.title} value={title} onChange={setTitle} />
      {line(WORDS.bump, "bump_mm")}
      {line(WORDS.droop, "droop_mm")}
      {line(WORDS.step, "step_mm")}
      <p className="car-label">{WORDS.sides}</p>
      <Choices label={WORDS.sides} options={SIDES} value={sides} onChoose={setSides} />
      <label className="field-label">
        {WORDS.notes}
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
