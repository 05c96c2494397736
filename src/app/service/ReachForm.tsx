import { useState } from "react";
import type { Vec3 } from "../../maths/vec3.ts";
import type { PointDocument, SceneDocument } from "../../scene/document.ts";
import { partsOf } from "../../scene/parts/parts.ts";
import type { FastenerDocument, ToolDocument } from "../../scene/serviceRecords.ts";
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

const MOUNTS = ["chassis", "powertrain", "carrier"] as const;
/** Units that are not a body by that name. */
const NO_BODY = ["wheel", "damper"];

/** What a tool begins with: common sizes, no source. */
const USUAL: Readonly<Record<ToolDocument["kind"], Omit<ToolDocument, "id">>> = {
  socket: { kind: "socket", diameter_mm: 26, length_mm: 90 } as ToolDocument,
  spanner: { kind: "spanner", length_mm: 220, width_mm: 30, thickness_mm: 12, swing_deg: 30 } as ToolDocument,
  arm: { kind: "arm", diameter_mm: 90, by: [[0, 350, 0]] } as unknown as ToolDocument,
};
const KINDS = (["socket", "spanner", "arm"] as const).map((value) => ({
  value,
  name: t(`service.form.kinds.${value}`),
}));

/** A bolt or plug and the tools that must get onto it: kept as one step or left as it was. */
export function ReachForm({ document, before }: { document: SceneDocument; before: string | null }) {
  const { fasteners = [], tools: known = [], jobs = [] } = document.service ?? {};
  const told = jobs.find((job) => job.kind === "reach" && job.id === before);
  const reach = told?.kind === "reach" ? told : null;
  const old = fasteners.find(({ id }) => id === reach?.fastener);
  const unit = useApp((state) => state.unit);
  const [name, setName] = useState(before ?? t("service.form.usualReach"));
  const [on, setOn] = useState(old?.on ?? "powertrain");
  const [at, setAt] = useState<PointDocument>(old?.at ?? [0, 300, 200]);
  const [facing, setFacing] = useState<Vec3>(old?.facing ?? [0, 1, 0]);
  const [size_mm, setSize] = useState(old?.size_mm);
  const [tools, setTools] = useState<readonly ToolDocument[]>(
    reach ? reach.tools.flatMap((id) => known.find((tool) => tool.id === id) ?? []) : [withId(USUAL.socket, [])],
  );
  const [removed, setRemoved] = useState<readonly string[]>(reach?.removed ?? []);
  const places = [
    ...MOUNTS.map((value) => ({ value, label: t(`service.form.mounts.${value}`) })),
    ...partsOf(document)
      .filter(({ id }) => !NO_BODY.includes(id))
      .map(({ id }) => ({ value: id, label: capital(partName(id, document)) })),
  ];
  const id = name.trim();
  const go = () => {
    const fastener: FastenerDocument = {
      id,
      on,
      at,
      facing,
      ...(size_mm === undefined ? {} : { size_mm }),
    };
    return keepJob(before, {
      fastener,
      tools,
      job: {
        id,
        kind: "reach",
        fastener: id,
        tools: tools.map((tool) => tool.id),
        ...(reach?.side ? { side: reach.side } : {}),
        ...(removed.length > 0 ? { removed: [...removed] } : {}),
      },
    });
  };
  return (
    <EditForm
      title={t("service.form.reachTitle")}
      lead={t("service.form.reachLead")}
      go={t("service.form.keep")}
      isBarred={id === "" || tools.length === 0}
      onGo={go}
      onDone={closeServiceForm}
    >
      <div className="service-fields">
        <TextLine label={t("service.form.name")} value={name} onChange={setName} />
        <Picker label={t("service.form.on")} items={places} value={on} onPick={setOn} />
        <ServicePlace document={document} unit={unit} value={at} onChange={setAt} />
        <DirectionField label={t("service.form.facing")} value={facing} onChange={setFacing} />
        <Tick
          label={t("service.form.sizeTold")}
          isOn={size_mm !== undefined}
          onChange={(isOn) => setSize(isOn ? 17 : undefined)}
        />
        {size_mm !== undefined && (
          <SizeField label={t("service.form.size")} value_mm={size_mm} unit={unit} trouble={null} onChange={setSize} />
        )}
        {tools.map((tool, i) => (
          <fieldset key={tool.id} className="service-step">
            <legend>{t("service.form.tool", { number: i + 1 })}</legend>
            <Choices
              label={t("service.form.kind")}
              options={KINDS}
              value={tool.kind}
              onChoose={(kind) => setTools(tools.with(i, { ...USUAL[kind], id: tool.id } as ToolDocument))}
            />
            <ToolFields tool={tool} unit={unit} onChange={(next) => setTools(tools.with(i, next))} />
            {tools.length > 1 && (
              <button type="button" className="button" onClick={() => setTools(tools.toSpliced(i, 1))}>
                {t("service.form.dropTool")}
              </button>
            )}
          </fieldset>
        ))}
        <button
          type="button"
          className="button service-more"
          onClick={() => setTools([...tools, withId(USUAL.spanner, [...known, ...tools])])}
        >
          {t("service.form.moreTool")}
        </button>
        <RemovedTicks document={document} value={removed} onChange={setRemoved} />
      </div>
    </EditForm>
  );
}

/** A tool under the next free number. */
function withId(tool: Omit<ToolDocument, "id">, taken: readonly ToolDocument[]): ToolDocument {
  let number = taken.length + 1;
  while (taken.some(({ id }) => id === `${tool.kind} ${number}`)) number++;
  return { ...tool, id: `${tool.kind} ${number}` } as ToolDocument;
}

interface ToolFieldsProps {
  readonly tool: ToolDocument;
  readonly unit: Unit;
  onChange(tool: ToolDocument): void;
}

const REACHES = ["forward", "outboard", "up"] as const;

function ToolFields({ tool, unit, onChange }: ToolFieldsProps) {
  const size = (label: string, value_mm: number, put: (mm: number) => ToolDocument) => (
    <SizeField
      label={label}
      value_mm={value_mm}
      unit={unit}
      trouble={null}
      // a solid has some thickness
      onChange={(mm) => onChange(put(Math.max(mm, 1)))}
    />
  );
  switch (tool.kind) {
    case "socket":
      return (
        <>
          {size(t("service.form.diameter"), tool.diameter_mm, (diameter_mm) => ({ ...tool, diameter_mm }))}
          {size(t("service.form.length"), tool.length_mm, (length_mm) => ({ ...tool, length_mm }))}
        </>
      );
    case "spanner":
      return (
        <>
          {size(t("service.form.length"), tool.length_mm, (length_mm) => ({ ...tool, length_mm }))}
          {size(t("service.form.width"), tool.width_mm, (width_mm) => ({ ...tool, width_mm }))}
          {size(t("service.form.thickness"), tool.thickness_mm, (thickness_mm) => ({ ...tool, thickness_mm }))}
          <OffFace tool={tool} unit={unit} onChange={onChange} />
          <PlainField
            label={t("service.form.swing")}
            value={tool.swing_deg ?? 30}
            unit={t("parts.fields.degrees")}
            step={5}
            trouble={null}
            onChange={(deg) => onChange({ ...tool, swing_deg: Math.min(360, Math.max(1, deg)) })}
          />
        </>
      );
    case "arm": {
      const [first = [0, 0, 0] as Vec3, ...rest] = tool.by;
      return (
        <>
          {size(t("service.form.diameter"), tool.diameter_mm, (diameter_mm) => ({ ...tool, diameter_mm }))}
          <OffFace tool={tool} unit={unit} onChange={onChange} />
          {REACHES.map((way, i) => (
            <PlainField
              key={way}
              label={t("service.form.reachAlong", { way: t(`words.ways.${way}`) })}
              value={first[i]!}
              unit="mm"
              step={10}
              trouble={null}
              onChange={(mm) =>
                onChange({ ...tool, by: [first.map((old, k) => (k === i ? mm : old)) as never, ...rest] })
              }
            />
          ))}
        </>
      );
    }
  }
}

function OffFace({ tool, unit, onChange }: ToolFieldsProps & { tool: Extract<ToolDocument, { off_mm?: number }> }) {
  return (
    <SizeField
      label={t("service.form.offFace")}
      value_mm={tool.off_mm ?? 0}
      unit={unit}
      trouble={null}
      onChange={(off_mm) => onChange({ ...tool, off_mm })}
    />
  );
}
