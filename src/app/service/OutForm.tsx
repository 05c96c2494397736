import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { partsOf } from "../../scene/parts/parts.ts";
import type { StepDocument } from "../../scene/serviceRecords.ts";
import { Tick } from "../loads/RecordField.tsx";
import { Picker } from "../parts/Picker.tsx";
import { DirectionField } from "../parts/PlaceFields.tsx";
import { PlainField, SizeField } from "../parts/SizeField.tsx";
import { TextLine } from "../parts/TextLine.tsx";
import { Choices } from "../shell/Choices.tsx";
import { EditForm } from "../shell/EditForm.tsx";
import type { Unit } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { RemovedTicks, ServicePlace } from "./FormFields.tsx";
import { closeServiceForm, keepJob } from "./serviceForms.ts";
import { capital, partName } from "./serviceText.ts";

const KINDS = (["straight", "turn", "swing"] as const).map((value) => ({
  value,
  name: t(`service.form.stepKinds.${value}`),
}));

const DOWN: StepDocument = { kind: "straight", way: [0, 0, -1], length_mm: 300 };

/** A part that must come out and the steps that it is taken along: kept as one step or left as it was. */
export function OutForm({ document, before }: { document: SceneDocument; before: string | null }) {
  const told = document.service?.jobs?.find((job) => job.kind === "out" && job.id === before);
  const out = told?.kind === "out" ? told : null;
  const unit = useApp((state) => state.unit);
  const parts = partsOf(document).map(({ id }) => ({ value: id, label: capital(partName(id, document)) }));
  const [part, setPart] = useState(out?.parts[0] ?? (document.driveshaft ? "driveshaft" : parts[0]!.value));
  const [typed, setName] = useState(before);
  const name = typed ?? t("service.form.usualOut", { part: partName(part, document) });
  const [steps, setSteps] = useState<readonly StepDocument[]>(out?.steps ?? [DOWN]);
  const [removed, setRemoved] = useState<readonly string[]>(out?.removed ?? []);
  const id = name.trim();
  const go = () =>
    keepJob(before, {
      job: {
        id,
        kind: "out",
        // further parts that come along stay as the file has them
        parts: [part, ...(out?.parts.slice(1) ?? []).filter((each) => each !== part)],
        steps: [...steps],
        ...(out?.side ? { side: out.side } : {}),
        ...(removed.length > 0 ? { removed: [...removed] } : {}),
      },
    });
  return (
    <EditForm
      title={t("service.form.outTitle")}
      lead={t("service.form.outLead")}
      go={t("service.form.keep")}
      isBarred={id === ""}
      onGo={go}
      onDone={closeServiceForm}
    >
      <div className="service-fields">
        <Picker label={t("service.form.part")} items={parts} value={part} onPick={setPart} />
        <TextLine label={t("service.form.name")} value={name} onChange={setName} />
        {steps.map((step, i) => (
          // steps have no name but their place in the row
          // biome-ignore lint/suspicious/noArrayIndexKey: the place is what tells them apart
          <fieldset key={i} className="service-step">
            <legend>{t("service.form.step", { number: i + 1 })}</legend>
            <Choices
              label={t("service.form.kind")}
              options={KINDS}
              value={step.kind}
              onChoose={(kind) => setSteps(steps.with(i, usualStep(kind, document)))}
            />
            <StepFields
              document={document}
              unit={unit}
              step={step}
              onChange={(next) => setSteps(steps.with(i, next))}
            />
            <button type="button" className="button" onClick={() => setSteps(steps.toSpliced(i, 1))}>
              {t("service.form.dropStep")}
            </button>
          </fieldset>
        ))}
        {steps.length === 0 && <p className="tool-note">{t("service.form.noSteps")}</p>}
        <button type="button" className="button service-more" onClick={() => setSteps([...steps, DOWN])}>
          {t("service.form.moreStep")}
        </button>
        <RemovedTicks document={document} value={removed} onChange={setRemoved} />
      </div>
    </EditForm>
  );
}

function usualStep(kind: StepDocument["kind"], document: SceneDocument): StepDocument {
  if (kind === "straight") return DOWN;
  if (kind === "turn") return { kind, about: [0, 300, 300], axis: [1, 0, 0], angle_deg: 30 };
  const arm = document.members.find((member) => member.kind === "ball" || member.kind === "hinge");
  return { kind, member: (arm ?? document.members[0]!).id, angle_deg: 5 };
}

interface StepFieldsProps {
  readonly document: SceneDocument;
  readonly unit: Unit;
  readonly step: StepDocument;
  onChange(step: StepDocument): void;
}

function StepFields({ document, unit, step, onChange }: StepFieldsProps) {
  const degrees = t("parts.fields.degrees");
  if (step.kind === "straight") {
    return (
      <>
        <DirectionField label={t("service.form.way")} value={step.way} onChange={(way) => onChange({ ...step, way })} />
        <SizeField
          label={t("service.form.length")}
          value_mm={step.length_mm}
          unit={unit}
          trouble={null}
          onChange={(mm) => onChange({ ...step, length_mm: Math.max(1, mm) })}
        />
      </>
    );
  }
  if (step.kind === "turn") {
    return (
      <>
        <ServicePlace
          document={document}
          unit={unit}
          value={step.about}
          onChange={(about) => onChange({ ...step, about })}
        />
        <DirectionField
          label={t("service.form.axis")}
          value={step.axis}
          onChange={(axis) => onChange({ ...step, axis })}
        />
        <PlainField
          label={t("service.form.angle")}
          value={step.angle_deg}
          unit={degrees}
          step={5}
          trouble={null}
          onChange={(angle_deg) => onChange({ ...step, angle_deg })}
        />
      </>
    );
  }
  const { frees } = step;
  return (
    <>
      <Picker
        label={t("service.form.member")}
        items={document.members.map(({ id }) => ({ value: id, label: capital(partName(id, document)) }))}
        value={step.member}
        onPick={(member) => onChange({ ...step, member })}
      />
      {document.driveshaft && (
        <Tick
          label={t("service.form.frees")}
          isOn={frees !== undefined}
          onChange={(isOn) => {
            const { frees: _, angle_deg: __, ...rest } = step;
            const { outer } = document.driveshaft!;
            onChange(isOn ? { ...rest, frees: { at: outer, way: [0, 1, 0], mm: 50 } } : { ...rest, angle_deg: 5 });
          }}
        />
      )}
      {frees ? (
        <>
          <DirectionField
            label={t("service.form.way")}
            value={frees.way}
            onChange={(way) => onChange({ ...step, frees: { ...frees, way } })}
          />
          <SizeField
            label={t("service.form.freesLength")}
            value_mm={frees.mm}
            unit={unit}
            trouble={null}
            onChange={(mm) => onChange({ ...step, frees: { ...frees, mm: Math.max(1, mm) } })}
          />
        </>
      ) : (
        <PlainField
          label={t("service.form.angle")}
          value={step.angle_deg ?? 0}
          unit={degrees}
          step={1}
          trouble={null}
          onChange={(angle_deg) => onChange({ ...step, angle_deg })}
        />
      )}
      <Tick
        label={t("service.form.allowsTold")}
        isOn={step.allows_deg !== undefined}
        onChange={(isOn) => {
          const { allows_deg: _, ...rest } = step;
          onChange(isOn ? { ...rest, allows_deg: 5 } : rest);
        }}
      />
      {step.allows_deg !== undefined && (
        <PlainField
          label={t("service.form.allows")}
          value={step.allows_deg}
          unit={degrees}
          step={1}
          trouble={null}
          onChange={(deg) => onChange({ ...step, allows_deg: Math.min(180, Math.max(0, deg)) })}
        />
      )}
    </>
  );
}
