import { useId } from "react";
import { type LengthReferences, MM_PER_INCH } from "../../scene/length.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { fractionText, lengthText } from "../words/number.ts";
import { type LengthText, useLengthText } from "./useLengthText.ts";

interface LengthFieldProps {
  readonly label: string;
  /** Where it is measured from: "of axle". */
  readonly from: string;
  readonly value_mm: number;
  readonly unit: Unit;
  readonly disabled?: boolean;
  /** The value is a step from where the point is, not a place. */
  readonly isStep?: boolean;
  readonly references?: LengthReferences;
  onChange(value_mm: number): void;
  /** Enter. */
  onKeep(): void;
  /** Escape. */
  onPutBack(): void;
}

interface Nudge {
  readonly by_mm: number;
  readonly text: string;
  readonly spoken: string;
}

/** What the nudge buttons add: 1, 5 and 10 mm, or 1/16, 1/4 and 1/2 in. */
export const NUDGES: Readonly<Record<Unit, readonly Nudge[]>> = {
  mm: [-10, -5, -1, 1, 5, 10].map((by) => ({
    by_mm: by,
    text: by < 0 ? `−${-by}` : `+${by}`,
    spoken: t("points.nudges.mm", { step: by }),
  })),
  in: [
    { by_mm: -MM_PER_INCH / 2, text: "−½", spoken: t("points.nudges.lessHalf") },
    { by_mm: -MM_PER_INCH / 4, text: "−¼", spoken: t("points.nudges.lessQuarter") },
    { by_mm: -MM_PER_INCH / 16, text: "−1⁄16", spoken: t("points.nudges.lessSixteenth") },
    { by_mm: MM_PER_INCH / 16, text: "+1⁄16", spoken: t("points.nudges.moreSixteenth") },
    { by_mm: MM_PER_INCH / 4, text: "+¼", spoken: t("points.nudges.moreQuarter") },
    { by_mm: MM_PER_INCH / 2, text: "+½", spoken: t("points.nudges.moreHalf") },
  ],
};

/** Below the field: what a sum comes to, that a minus is a place, else the value in the other unit. */
function echoOf(field: LengthText, value_mm: number, unit: Unit): string {
  const about = (mm: number) => t("points.about", { fraction: fractionText(mm) });
  if (field.worked_mm !== null) {
    const worked = t("points.equals", { length: lengthText(field.worked_mm, unit) });
    return unit === "in" ? `${worked}\n${about(field.worked_mm)}` : worked;
  }
  if (field.isBelowZero) return t("points.placeNotStep");
  if (unit === "in") return `${about(value_mm)}\n${lengthText(value_mm, "mm")}`;
  return lengthText(value_mm, "in");
}

/** One coordinate of a hard point: a field that takes sums and either unit, between its nudge buttons. */
export function LengthField(props: LengthFieldProps) {
  const { label, from, value_mm, unit, disabled = false, isStep, references, onChange, onKeep, onPutBack } = props;
  const field = useLengthText(value_mm, unit, onChange, { isStep, references });
  const id = useId();
  const nudge = (by_mm: number) => {
    field.clear();
    onChange(value_mm + by_mm);
  };
  const press = (event: React.KeyboardEvent) => {
    if (event.key === "Enter" && field.trouble === null) onKeep();
    if (event.key === "Escape") {
      field.clear();
      onPutBack();
    }
  };
  const buttons = NUDGES[unit].map((step) => (
    <button
      key={step.by_mm}
      type="button"
      className="nudge"
      data-unit={unit}
      aria-label={t("points.nudges.label", { field: label, step: step.spoken })}
      disabled={disabled}
      onClick={() => nudge(step.by_mm)}
    >
      {step.text}
    </button>
  ));
  return (
    <div className="length-row">
      <label htmlFor={id}>
        {label}
        <small>{from}</small>
      </label>
      <div className="length-field" data-trouble={field.trouble !== null}>
        <input
          id={id}
          value={field.text}
          disabled={disabled}
          autoComplete="off"
          spellCheck={false}
          enterKeyHint="done"
          aria-invalid={field.trouble !== null}
          aria-describedby={`${id}-below`}
          onChange={(event) => field.type(event.target.value)}
          onBlur={field.leave}
          onKeyDown={press}
        />
        <small id={`${id}-below`} role={field.trouble ? "alert" : undefined}>
          {field.trouble ?? echoOf(field, value_mm, unit)}
        </small>
      </div>
      <div className="nudges">{buttons}</div>
    </div>
  );
}
