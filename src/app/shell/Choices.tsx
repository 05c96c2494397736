interface ChoicesProps<T extends string> {
  readonly label: string;
  readonly options: readonly { readonly value: T; readonly name: string }[];
  readonly value: NoInfer<T> | null;
  onChoose(value: NoInfer<T>): void;
}

/** A row of buttons of which one holds. */
export function Choices<T extends string>({ label, options, value, onChoose }: ChoicesProps<T>) {
  return (
    <fieldset className="choices" aria-label={label}>
      {options.map((option) => (
        <button
          key={option.value}
          type="button"
          aria-pressed={option.value === value}
          onClick={() => onChoose(option.value)}
        >
          {option.name}
        </button>
      ))}
    </fieldset>
  );
}
