import type { ReactNode } from "react";
import { MATERIALS } from "../../loads/screen/materials.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { PointDocument, SceneDocument } from "../../scene/document.ts";
import { jointNames, partOfJoint } from "../../scene/jointNames.ts";
import { isVector } from "../../scene/pointResolver.ts";
import { Picker } from "../parts/Picker.tsx";
import { DirectionField, PlaceField, PointPicker } from "../parts/PlaceFields.tsx";
import { PlainField, SizeField } from "../parts/SizeField.tsx";
import { TextLine } from "../parts/TextLine.tsx";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";
import { partText } from "./partNames.ts";
import { QuantityField } from "./QuantityField.tsx";
import type { Field, Option } from "./recordFields.ts";

interface RecordFieldProps {
  readonly field: Field;
  readonly value: unknown;
  readonly document: SceneDocument;
  onChange(value: unknown): void;
}

/** One field of a load record, as its kind asks. */
export function RecordField({ field, value, document, onChange }: RecordFieldProps) {
  const unit = useApp((state) => state.unit);
  const label = t(`loads.fields.${field.label}`);
  switch (field.kind) {
    case "text":
      return (
        <TextLine
          label={label}
          value={String(value ?? "")}
          onChange={(text) => onChange(field.isOptional && text.trim() === "" ? undefined : text)}
        />
      );
    case "joint": {
      const joints = jointNames(document).filter((joint) => partOfJoint(joint) !== "driveshaft" || joint === value);
      const items = joints.map((joint) => ({ value: joint, label: partText(joint, document) }));
      return <Picker label={label} items={items} value={String(value)} onPick={onChange} />;
    }
    case "member": {
      const items = document.members.map(({ id }) => ({ value: id, label: nameOf(id, document) }));
      return <Picker label={label} items={items} value={String(value)} onPick={onChange} />;
    }
    case "material": {
      const own = (document.loads?.materials ?? []).map(({ id }) => id);
      const told = value === undefined ? [] : [String(value)];
      const known = [...new Set([...own, ...MATERIALS.map(({ id }) => id), ...told])];
      const items = known.map((id) => ({ value: id, label: id }));
      const open = value === undefined ? [{ value: "", label: t("loads.choose") }] : [];
      return (
        <Picker
          label={label}
          items={[...open, ...items]}
          value={String(value ?? "")}
          onPick={(picked) => picked !== "" && onChange(picked)}
        />
      );
    }
    case "size":
      return (
        <Maybe field={field} label={label} value={value} onChange={onChange}>
          <SizeField label={label} value_mm={Number(value)} unit={unit} trouble={null} onChange={onChange} />
        </Maybe>
      );
    case "force":
    case "stress":
      return (
        <Maybe field={field} label={label} value={value} onChange={onChange}>
          <QuantityField
            label={label}
            quantity={field.kind}
            value={Number(value)}
            step={field.step}
            onChange={onChange}
          />
        </Maybe>
      );
    case "forceOrNothing":
      return (
        <QuantityField
          label={label}
          quantity="force"
          value={Number(value ?? 0)}
          step={100}
          onChange={(force_N) => onChange(force_N === 0 ? undefined : force_N)}
        />
      );
    case "number":
      return (
        <Maybe field={field} label={label} value={value} onChange={onChange}>
          <PlainField
            label={label}
            value={Number(value ?? field.nothing)}
            unit={field.unit === "factor" ? t("loads.factorUnit") : t(`loads.units.${field.unit}`)}
            step={field.step}
            isWhole={field.isWhole ?? false}
            trouble={null}
            onChange={(number) => onChange(number === field.nothing ? undefined : number)}
          />
        </Maybe>
      );
    case "choice":
      return <ChoiceField label={label} options={field.options} value={value} onChange={onChange} />;
    case "direction":
      return (
        <>
          <Tick label={label} isOn={value !== undefined} onChange={(isOn) => onChange(isOn ? [1, 0, 0] : undefined)} />
          {value !== undefined && <DirectionField label={label} value={value as Vec3} onChange={onChange} />}
        </>
      );
    case "cut":
      return (
        <>
          <PointPicker label={label} document={document} value={value as PointDocument} onChange={onChange} />
          {isVector(value as PointDocument) && (
            <div className="place-parts">
              <PlaceField value={value as Vec3} unit={unit} onChange={onChange} />
            </div>
          )}
        </>
      );
  }
}

interface MaybeProps extends Omit<RecordFieldProps, "document"> {
  readonly label: string;
  readonly children: ReactNode;
}

/** A field that may be left out comes behind a box to tick. */
function Maybe({ field, label, value, onChange, children }: MaybeProps) {
  const isOptional = "isOptional" in field && field.isOptional;
  if (!isOptional) return children;
  const usual = "usual" in field ? field.usual : undefined;
  return (
    <>
      <Tick label={label} isOn={value !== undefined} onChange={(isOn) => onChange(isOn ? usual : undefined)} />
      {value !== undefined && children}
    </>
  );
}

export function Tick({ label, isOn, onChange }: { label: string; isOn: boolean; onChange(isOn: boolean): void }) {
  return (
    <label className="check-line">
      <input type="checkbox" checked={isOn} onChange={(event) => onChange(event.target.checked)} />
      <span>{label}</span>
    </label>
  );
}

interface ChoiceFieldProps {
  readonly label: string;
  readonly options: readonly Option[];
  readonly value: unknown;
  onChange(value: Option["value"]): void;
}

function ChoiceField({ label, options, value, onChange }: ChoiceFieldProps) {
  const isOpen = value === undefined && options.every((option) => option.value !== undefined);
  const named = options.map((option) => ({
    value: String(option.value),
    name: option.word ? t(`loads.options.${option.word}`) : String(option.value),
  }));
  return (
    <div className="loads-choice-field">
      <span>{label}</span>
      <Choices
        label={label}
        options={named}
        value={isOpen ? null : String(value)}
        onChoose={(chosen) => onChange(options.find((option) => String(option.value) === chosen)?.value)}
      />
    </div>
  );
}
