import { useId } from "react";

/** A name or a word under its label. */
export function TextLine({ label, value, onChange }: { label: string; value: string; onChange(value: string): void }) {
  const id = useId();
  return (
    <label className="field-label" htmlFor={id}>
      {label}
      <input
        id={id}
        className="field"
        value={value}
        maxLength={80}
        autoComplete="off"
        onChange={(event) => onChange(event.target.value)}
      />
    </label>
  );
}
