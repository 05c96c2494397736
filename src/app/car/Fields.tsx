import { PlainField, SizeField } from "../parts/SizeField.tsx";
import { useApp } from "../store/useApp.ts";

interface OptionalSizeProps {
  readonly label: string;
  readonly value_mm: number | undefined;
  /** What it begins with when it is switched on. */
  readonly usual_mm: number;
  onChange(value_mm: number | undefined): void;
}

/** A length that may be left out. */
export function OptionalSize({ label, value_mm, usual_mm, onChange }: OptionalSizeProps) {
  const unit = useApp((state) => state.unit);
  return (
    <>
      <label className="check-line">
        <input
          type="checkbox"
          checked={value_mm !== undefined}
          onChange={(event) => onChange(event.target.checked ? usual_mm : undefined)}
        />
        <span>{label}</span>
      </label>
      {value_mm !== undefined && (
        <SizeField label={label} value_mm={value_mm} unit={unit} trouble={null} onChange={onChange} />
      )}
    </>
  );
}

interface LengthLineProps {
  readonly label: string;
  readonly value_mm: number;
  onChange(value_mm: number): void;
}

export function LengthLine({ label, value_mm, onChange }: LengthLineProps) {
  const unit = useApp((state) => state.unit);
  return <SizeField label={label} value_mm={value_mm} unit={unit} trouble={null} onChange={onChange} />;
}

/** A length that may lie below zero, told in mm. */
export function SignedLine({ label, value_mm, onChange }: LengthLineProps) {
  return <PlainField label={label} value={value_mm} unit="mm" step={1} trouble={null} onChange={onChange} />;
}
