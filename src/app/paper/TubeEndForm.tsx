import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { withoutTubeEnd, withTubeEnd } from "../../scene/tubeEndEdits.ts";
import { TUBE_END_KINDS, type TubeEnd, usualTubeEnd } from "../../scene/tubeEnds.ts";
import { partText } from "../loads/partNames.ts";
import { Tick } from "../loads/RecordField.tsx";
import { PlainField, SizeField } from "../parts/SizeField.tsx";
import { Choices } from "../shell/Choices.tsx";
import { app, useApp } from "../store/useApp.ts";
import { withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";

interface TubeEndFormProps {
  readonly joint: string;
  readonly document: SceneDocument;
  onDone(): void;
}

type RodEnd = Extract<TubeEnd, { kind: "rod end" }>;

const KINDS = TUBE_END_KINDS.map((value) => ({ value, name: t(`paper.ends.kinds.${value}`) }));

/** How the tube ends at one joint: kept as one step or left as it was. */
export function TubeEndForm({ joint, document, onDone }: TubeEndFormProps) {
  const unit = useApp((state) => state.unit);
  const told = document.tubeEnds?.find((end) => end.joint === joint);
  const [end, setEnd] = useState<TubeEnd>(told ?? usualTubeEnd(joint, TUBE_END_KINDS[0]));
  const [trouble, setTrouble] = useState<string | null>(null);
  const name = withinText(partText(joint, document));
  const edit = (step: string, change: (now: SceneDocument) => SceneDocument) => {
    try {
      app.getState().editAside(step, change);
      onDone();
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      setTrouble(t("words.refusal", { wrong: `${error.path}: ${error.wrong}.`, wanted: error.wanted }));
    }
  };
  return (
    <div className="paper-end">
      <Choices
        label={t("paper.ends.kind")}
        options={KINDS}
        value={end.kind}
        onChoose={(kind) => setEnd(told?.kind === kind ? told : usualTubeEnd(joint, kind))}
      />
      {end.kind === "rod end" && <RodEndFields end={end} onChange={setEnd} />}
      {end.kind === "sleeve" && (
        <SizeField
          label={t("paper.ends.outside")}
          value_mm={end.outside_mm}
          unit={unit}
          trouble={null}
          onChange={(outside_mm) => setEnd({ ...end, outside_mm })}
        />
      )}
      {end.kind === "square" && (
        <SizeField
          label={t("paper.ends.short")}
          value_mm={end.short_mm}
          unit={unit}
          trouble={null}
          onChange={(short_mm) => setEnd({ ...end, short_mm })}
        />
      )}
      {trouble && (
        <p className="trouble-line" role="alert">
          {trouble}
        </p>
      )}
      <div className="dialog-buttons">
        {told && (
          <button
            type="button"
            className="button"
            onClick={() => edit(t("paper.ends.stepForget", { joint: name }), (now) => withoutTubeEnd(now, joint))}
          >
            {t("paper.ends.forget")}
          </button>
        )}
        <button
          type="button"
          className="button go"
          onClick={() => edit(t("paper.ends.step", { joint: name }), (now) => withTubeEnd(now, end))}
        >
          {t("paper.ends.keep")}
        </button>
      </div>
    </div>
  );
}

const SIZES = [
  { key: "eye_mm", label: "eye" },
  { key: "shank_mm", label: "shank" },
  { key: "adapter_mm", label: "adapter" },
  { key: "depth_mm", label: "depth" },
  { key: "nut_mm", label: "nut" },
] as const;

function RodEndFields({ end, onChange }: { end: RodEnd; onChange(end: RodEnd): void }) {
  const unit = useApp((state) => state.unit);
  const usual = { shank_mm: end.eye_mm, adapter_mm: 0, nut_mm: end.thread_mm / 2 };
  return (
    <>
      <PlainField
        label={t("paper.ends.thread")}
        value={end.thread_mm}
        unit={t("paper.ends.mm")}
        step={2}
        trouble={null}
        onChange={(thread_mm) => onChange({ ...end, thread_mm })}
      />
      <PlainField
        label={t("paper.ends.pitch")}
        value={end.pitch_mm}
        unit={t("paper.ends.mm")}
        step={0.25}
        trouble={null}
        onChange={(pitch_mm) => onChange({ ...end, pitch_mm })}
      />
      <Tick
        label={t("paper.ends.left")}
        isOn={end.hand === "left"}
        onChange={(isOn) => onChange({ ...end, hand: isOn ? "left" : undefined })}
      />
      {SIZES.map(({ key, label }) => (
        <SizeField
          key={key}
          label={t(`paper.ends.${label}`)}
          value_mm={end[key] ?? (usual as Partial<Record<typeof key, number>>)[key] ?? 0}
          unit={unit}
          trouble={null}
          onChange={(value) => onChange({ ...end, [key]: value })}
        />
      ))}
      <Tick
        label={t("paper.ends.hasEngaged")}
        isOn={end.engaged_mm !== undefined}
        onChange={(isOn) => onChange({ ...end, engaged_mm: isOn ? 1.5 * end.thread_mm : undefined })}
      />
      {end.engaged_mm !== undefined && (
        <SizeField
          label={t("paper.ends.engaged")}
          value_mm={end.engaged_mm}
          unit={unit}
          trouble={null}
          onChange={(engaged_mm) => onChange({ ...end, engaged_mm })}
        />
      )}
    </>
  );
}
