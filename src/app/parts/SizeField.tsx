import { useId, useState } from "react";
import { MM_PER_INCH } from "../../scene/length.ts";
import { useLengthText } from "../points/useLengthText.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { fractionText, lengthText } from "../words/number.ts";

interface SizeFieldProps {
  readonly label: string;
  readonly value_mm: number;
  readonly unit: Unit;
  readonly trouble: string | null;
  onChange(value_mm: number): void;
}

const STEP_mm: Readonly<Record<Unit, number>> = { mm: 1, in: MM_PER_INCH / 32 };

/** A size of a part: sums, fractions and either unit, between a smaller and a larger step. */
export function SizeField({ label, value_mm, unit, trouble, onChange }: SizeFieldProps) {
  const field = useLengthText(value_mm, unit, onChange);
  const id = useId();
  const step = (by_mm: number) => {
    field.clear();
    onChange(Math.max(0, Math.round((value_mm + by_mm) * 1e6) / 1e6));
  };
  const wrong = field.trouble ?? trouble;
  const worked = field.worked_mm === null ? "" : `= ${lengthText(field.worked_mm, unit)} · `;
  const other =
    unit === "in"
      ? t("parts.fields.inOtherUnit", { fraction: fractionText(value_mm), mm: lengthText(value_mm, "mm") })
      : lengthText(value_mm, "in");
  return (
    <div className="size-row" data-trouble={wrong !== null}>
      <label htmlFor={id}>{label}</label>
      <StepButton sign="−" label={t(`parts.fields.stepLess.${unit}`, { label })} onPress={() => step(-STEP_mm[unit])} />
      <input
        id={id}
        className="size-input"
        value={field.text}
        autoComplete="off"
        spellCheck={false}
        enterKeyHint="done"
        aria-invalid={wrong !== null}
        aria-describedby={`${id}-below`}
        onChange={(event) => field.type(event.target.value)}
        onBlur={field.leave}
      />
      <StepButton sign="+" label={t(`parts.fields.stepMore.${unit}`, { label })} onPress={() => step(STEP_mm[unit])} />
      <small id={`${id}-below`} role={wrong ? "alert" : undefined}>
        {wrong ?? worked + other}
      </small>
    </div>
  );
}

export function StepButton({ sign, label, onPress }: { sign: string; label: string; onPress(): void }) {
  return (
    <button type="button" className="size-step" aria-label={label} onClick={onPress}>
      {sign}
    </button>
  );
}

interface PlainFieldProps {
  readonly label: string;
  readonly value: number;
  readonly unit: string;
  readonly step: number;
  readonly trouble: string | null;
  readonly isWhole?: boolean;
  onChange(value: number): void;
}

/** A number that is no length: an angle, a count, a rate. */
export function PlainField({ label, value, unit, step, trouble, isWhole = false, onChange }: PlainFieldProps) {
  const [typed, setTyped] = useState<{ text: string; of: number } | null>(null);
  const id = useId();
  const current = typed !== null && (typed.of === value || Number.isNaN(typed.of)) ? typed : null;
  const isNonsense = current !== null && Number.isNaN(current.of);
  const type = (text: string) => {
    const number = text.trim() === "" ? Number.NaN : Number(text.trim().replace(",", ".").replace(/^[−–]/, "-"));
    const fits = Number.isFinite(number) && (!isWhole || Number.isInteger(number));
    setTyped({ text, of: fits ? number : Number.NaN });
    if (fits) onChange(number);
  };
  const go = (by: number) => {
    setTyped(null);
    onChange(Math.round((value + by) * 1e6) / 1e6);
  };
  const wrong = isNonsense ? t("parts.fields.noNumber") : trouble;
  return (
    <div className="size-row" data-trouble={wrong !== null}>
      <label htmlFor={id}>{label}</label>
      <StepButton sign="−" label={t("parts.fields.less", { label, step })} onPress={() => go(-step)} />
      <input
        id={id}
        className="size-input"
        inputMode="decimal"
        value={current?.text ?? String(Math.round(value * 1e4) / 1e4).replace("-", "−")}
        autoComplete="off"
        aria-invalid={wrong !== null}
        aria-describedby={`${id}-below`}
        onChange={(event) => type(event.target.value)}
        onBlur={() => !isNonsense && setTyped(null)}
      />
      <StepButton sign="+" label={t("parts.fields.more", { label, step })} onPress={() => go(step)} />
      <small id={`${id}-below`} role={wrong ? "alert" : undefined}>
        {wrong ?? unit}
      </small>
    </div>
  );
}
