import { useId } from "react";
import type { Vec3 } from "../../maths/vec3.ts";
import type { PointDocument, SceneDocument } from "../../scene/document.ts";
import type { PointsField } from "../../scene/recipes/fields.ts";
import { fine } from "../../scene/recipes/recipe.ts";
import { useLengthText } from "../points/useLengthText.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { Picker, type PickerItem } from "./Picker.tsx";
import { pointWords } from "./partFields.ts";
import { PlainField } from "./SizeField.tsx";

interface PointPickerProps {
  readonly label: string;
  readonly document: SceneDocument;
  readonly value: PointDocument;
  onChange(point: PointDocument): void;
}

const AS_IT_IS = "\u0000";

/** The hard point that a part hangs on. What it hangs on by a step, or a bare place, stays in the list as it is. */
export function PointPicker({ label, document, value, onChange }: PointPickerProps) {
  const names = Object.keys(document.points);
  const isName = typeof value === "string" && names.includes(value);
  const items: PickerItem[] = [
    ...(isName ? [] : [{ value: AS_IT_IS, label: pointWords(value) }]),
    ...names.map((name) => ({ value: name, label: name })),
  ];
  return (
    <Picker
      label={label}
      items={items}
      value={isName ? value : AS_IT_IS}
      onPick={(name) => name !== AS_IT_IS && onChange(name)}
    />
  );
}

interface PointListProps extends Omit<PointPickerProps, "value" | "onChange"> {
  readonly field: PointsField;
  readonly value: readonly PointDocument[];
  onChange(points: readonly PointDocument[]): void;
}

export function PointListFields({ label, document, field, value, onChange }: PointListProps) {
  const first: PointDocument = Object.keys(document.points)[0] ?? [0, 0, 0];
  return (
    <fieldset className="point-list">
      <legend>{label}</legend>
      {value.map((point, i) => (
        // points of a run have no name but their place in it
        // biome-ignore lint/suspicious/noArrayIndexKey: the place is what tells them apart
        <div key={i} className="point-list-row">
          <PointPicker
            label={String(i + 1)}
            document={document}
            value={point}
            onChange={(next) => onChange(value.with(i, next))}
          />
          <button
            type="button"
            className="button"
            disabled={value.length <= field.min}
            aria-label={t("parts.fields.takeOutOf", { label, number: i + 1 })}
            onClick={() => onChange(value.toSpliced(i, 1))}
          >
            {t("parts.fields.takeOut")}
          </button>
        </div>
      ))}
      <button
        type="button"
        className="button"
        disabled={value.length >= field.max}
        onClick={() => onChange([...value, value.at(-1) ?? first])}
      >
        {t("parts.fields.oneMore")}
      </button>
    </fieldset>
  );
}

const WAYS: readonly { readonly value: Way; readonly direction: Vec3 }[] = [
  { value: "forward", direction: [1, 0, 0] },
  { value: "back", direction: [-1, 0, 0] },
  { value: "left", direction: [0, 1, 0] },
  { value: "right", direction: [0, -1, 0] },
  { value: "up", direction: [0, 0, 1] },
  { value: "down", direction: [0, 0, -1] },
];
type Way = "forward" | "back" | "left" | "right" | "up" | "down";
const OTHER = "other";

interface DirectionFieldProps {
  readonly label: string;
  readonly value: Vec3;
  onChange(direction: Vec3): void;
}

/** One of the car's own ways, or any by its three parts. */
export function DirectionField({ label, value, onChange }: DirectionFieldProps) {
  const way = WAYS.find(({ direction }) => direction.every((part, i) => part === value[i]));
  return (
    <>
      <Picker
        label={label}
        items={[
          ...WAYS.map((each) => ({ value: each.value, label: t(`words.ways.${each.value}`) })),
          { value: OTHER, label: t("parts.fields.otherWay") },
        ]}
        value={way?.value ?? OTHER}
        onPick={(picked) => {
          const chosen = WAYS.find(({ value: name }) => name === picked);
          // a hair off the way that stood, so that its own three parts can be set
          onChange(chosen?.direction ?? fine([value[0], value[1], value[2] + 0.1]));
        }}
      />
      {!way &&
        (["forward", "left", "up"] as const).map((part, i) => (
          <PlainField
            key={part}
            label={t(`parts.fields.parts.${part}`)}
            value={value[i]!}
            unit={t("parts.fields.ofDirection")}
            step={0.1}
            trouble={null}
            onChange={(next) => onChange(value.map((old, j) => (j === i ? next : old)) as unknown as Vec3)}
          />
        ))}
    </>
  );
}

/** A bare place, for a point that is to come with a part. */
export function PlaceField({ value, unit, onChange }: { value: Vec3; unit: Unit; onChange(at: Vec3): void }) {
  return (["forward", "left", "up"] as const).map((way, i) => (
    <SignedLength
      key={way}
      label={t(`parts.fields.place.${way}`)}
      value_mm={value[i]!}
      unit={unit}
      onChange={(next) => onChange(value.map((old, j) => (j === i ? next : old)) as unknown as Vec3)}
    />
  ));
}

/** A length that may be below nothing. */
export function SignedLength(props: { label: string; value_mm: number; unit: Unit; onChange(value_mm: number): void }) {
  const field = useLengthText(props.value_mm, props.unit, props.onChange);
  const id = useId();
  return (
    <div className="place-part" data-trouble={field.trouble !== null}>
      <label htmlFor={id}>{props.label}</label>
      <input
        id={id}
        className="size-input"
        value={field.text}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={field.trouble !== null}
        onChange={(event) => field.type(event.target.value)}
        onBlur={field.leave}
      />
      {field.trouble && <small role="alert">{field.trouble}</small>}
    </div>
  );
}
