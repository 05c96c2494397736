import { useId } from "react";
import type { Vec3 } from "../../maths/vec3.ts";
import type { PointDocument, SceneDocument } from "../../scene/document.ts";
import type { InputError } from "../../scene/error.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";
import { Picker } from "./Picker.tsx";
import { DirectionField, PointListFields, PointPicker } from "./PlaceFields.tsx";
import { troubledKey, troubleText } from "./partDraft.ts";
import type { SheetField, SheetFields, SheetValues } from "./partFields.ts";
import { optionText } from "./recipeText.ts";
import { PlainField, SizeField } from "./SizeField.tsx";

interface SheetRowsProps {
  readonly fields: SheetFields;
  readonly values: SheetValues;
  readonly document: SceneDocument;
  readonly unit: Unit;
  readonly trouble: InputError | null;
  /** Without points, which the shelf asks for in its own way. */
  readonly sizesOnly?: boolean;
  onChange(values: SheetValues): void;
}

/** One row for each field of a part: sizes first, then what it hangs on and which way it looks. */
export function SheetRows({ fields, values, document, unit, trouble, sizesOnly = false, onChange }: SheetRowsProps) {
  const bad = troubledKey(trouble);
  const isKnown = bad !== null && bad in fields;
  const row = ([key, field]: [string, SheetField]) => (
    <FieldRow
      key={key}
      field={field}
      value={values[key]}
      document={document}
      unit={unit}
      trouble={trouble !== null && bad === key ? troubleText(trouble) : null}
      onChange={(value) => onChange(withValue(values, key, value))}
    />
  );
  const entries = Object.entries(fields).filter(
    ([, { kind }]) => !sizesOnly || (kind !== "point" && kind !== "points"),
  );
  const isSize = ([, { kind }]: [string, SheetField]) => !HANGS.includes(kind);
  return (
    <>
      {entries.filter(isSize).map(row)}
      {entries.filter((entry) => !isSize(entry)).map(row)}
      {trouble && !isKnown && (
        <p className="point-error" role="alert">
          {troubleText(trouble)}
        </p>
      )}
    </>
  );
}

const HANGS: readonly SheetField["kind"][] = ["point", "points", "direction", "mount"];

function withValue(values: SheetValues, key: string, value: unknown): SheetValues {
  if (value !== undefined) return { ...values, [key]: value };
  const { [key]: _, ...others } = values;
  return others;
}

interface FieldRowProps {
  readonly field: SheetField;
  readonly value: unknown;
  readonly document: SceneDocument;
  readonly unit: Unit;
  readonly trouble: string | null;
  onChange(value: unknown): void;
}

function FieldRow({ field, value, document, unit, trouble, onChange }: FieldRowProps) {
  const { label } = field;
  if (field.optional && value === undefined) {
    return (
      <div className="size-row">
        <span>{label}</span>
        <button type="button" className="button size-give" onClick={() => onChange(usualOf(field))}>
          {t("parts.fields.give")}
        </button>
      </div>
    );
  }
  switch (field.kind) {
    case "length":
      return <SizeField label={label} value_mm={value as number} unit={unit} trouble={trouble} onChange={onChange} />;
    case "angle":
      return (
        <PlainField
          label={label}
          value={value as number}
          unit={t("parts.fields.degrees")}
          step={1}
          trouble={trouble}
          onChange={onChange}
        />
      );
    case "count":
      return (
        <PlainField
          label={label}
          value={value as number}
          unit=""
          step={1}
          isWhole
          trouble={trouble}
          onChange={onChange}
        />
      );
    case "number":
      return (
        <PlainField
          label={label}
          value={value as number}
          unit={field.unit}
          step={0.5}
          trouble={trouble}
          onChange={onChange}
        />
      );
    case "text":
      return <TextField label={label} value={value as string} trouble={trouble} onChange={onChange} />;
    case "choice":
      return (
        <Picker
          label={label}
          items={field.options.map((option) => ({ value: option, label: optionText(option) }))}
          value={value as string}
          onPick={onChange}
        />
      );
    case "mount":
      return (
        <Picker
          label={label}
          items={[{ value: "carrier", label: t("parts.fields.hub") }, ...memberItems(document)]}
          value={value as string}
          onPick={onChange}
        />
      );
    case "direction":
      return <DirectionField label={label} value={value as Vec3} onChange={onChange} />;
    case "point":
      return <PointPicker label={label} document={document} value={value as PointDocument} onChange={onChange} />;
    case "points":
      return (
        <PointListFields
          label={label}
          field={field}
          document={document}
          value={value as readonly PointDocument[]}
          onChange={onChange}
        />
      );
  }
}

function usualOf(field: SheetField): unknown {
  if (field.kind === "number") return field.usual ?? 40;
  return field.kind === "text" || field.kind === "mount" ? 40 : field.usual;
}

export function memberItems(document: SceneDocument) {
  return document.members.map(({ id }) => ({ value: id, label: nameOf(id, document) }));
}

function TextField(props: { label: string; value: string; trouble: string | null; onChange(value: string): void }) {
  const id = useId();
  return (
    <div className="text-row" data-trouble={props.trouble !== null}>
      <label htmlFor={id}>{props.label}</label>
      <input
        id={id}
        className="size-input"
        value={props.value}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={props.trouble !== null}
        aria-describedby={`${id}-below`}
        onChange={(event) => props.onChange(event.target.value)}
      />
      {props.trouble && (
        <small id={`${id}-below`} role="alert">
          {props.trouble}
        </small>
      )}
    </div>
  );
}
