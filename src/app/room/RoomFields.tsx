import { useId, useState } from "react";
import { useLengthText } from "../points/useLengthText.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";

interface FieldProps {
  readonly label: string;
  readonly value: number;
  onChange(value: number): void;
  /** The label is read, not seen. */
  readonly isNamedAlready?: boolean;
}

/** A length in the shown unit. */
export function ShortLength({ label, value, onChange, isNamedAlready = false }: FieldProps) {
  const unit = useApp((state) => state.unit);
  const field = useLengthText(value, unit, onChange);
  const id = useId();
  return (
    <span className="room-field">
      <label htmlFor={id} className={isNamedAlready ? "unseen" : undefined}>
        {label}
      </label>
      <input
        id={id}
        className="size-input"
        inputMode={unit === "mm" ? "decimal" : undefined}
        value={field.text}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={field.trouble !== null}
        title={field.trouble ?? undefined}
        onChange={(event) => field.type(event.target.value)}
        onBlur={field.leave}
      />
    </span>
  );
}

/** An angle in degrees, or a bare number. */
export function ShortNumber({ label, value, onChange, isNamedAlready = false, unit }: FieldProps & { unit: string }) {
  const [typed, setTyped] = useState<{ readonly text: string; readonly of: number } | null>(null);
  const id = useId();
  const current = typed && (Number.isNaN(typed.of) || typed.of === value) ? typed : null;
  const type = (text: string) => {
    const bare = text.replace("°", "").trim();
    const number = bare === "" ? Number.NaN : Number(bare.replace(",", ".").replace(/^[−–]/, "-"));
    const of = Number.isFinite(number) ? number : Number.NaN;
    setTyped({ text, of });
    if (!Number.isNaN(of)) onChange(of);
  };
  const isNonsense = current !== null && Number.isNaN(current.of);
  return (
    <span className="room-field">
      <label htmlFor={id} className={isNamedAlready ? "unseen" : undefined}>
        {label}
      </label>
      <input
        id={id}
        className="size-input"
        inputMode="decimal"
        value={current?.text ?? `${String(Math.round(value * 1e4) / 1e4).replace("-", "−")}${unit}`}
        autoComplete="off"
        aria-invalid={isNonsense}
        title={isNonsense ? t("parts.fields.noNumber") : undefined}
        onChange={(event) => type(event.target.value)}
        onBlur={() => !isNonsense && setTyped(null)}
      />
    </span>
  );
}

interface AskedProps {
  readonly label: string;
  readonly on: boolean;
  onSwitch(on: boolean): void;
  readonly children: React.ReactNode;
}

/** Something that must hold, if it is asked. */
export function Asked({ label, on, onSwitch, children }: AskedProps) {
  return (
    <div className="room-asked" data-on={on}>
      <label className="room-check">
        <input type="checkbox" checked={on} onChange={(event) => onSwitch(event.target.checked)} />
        <span>{label}</span>
      </label>
      {on && <span className="room-values">{children}</span>}
    </div>
  );
}
