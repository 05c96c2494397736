import { type RefObject, useId } from "react";
import { StepButton } from "../parts/SizeField.tsx";
import { t } from "../text/text.ts";

interface MeasureFieldProps {
  readonly label: string;
  /** Beside the label: the unit, or where it is measured from. */
  readonly from: string;
  readonly text: string;
  /** Stands in the empty field: what is assumed. */
  readonly usual: string;
  readonly fault: string | null;
  readonly disabled: boolean;
  readonly isText?: boolean;
  readonly field?: RefObject<HTMLInputElement | null>;
  /** null: nothing to step. */
  readonly step: { readonly words: string; go(by: 1 | -1): void } | null;
  onText(text: string): void;
  onFocus?(): void;
  onLeave(): void;
}

/** One measured value, between a smaller and a larger step for a glove. */
export function MeasureField(props: MeasureFieldProps) {
  const { label, from, text, usual, fault, disabled, isText = false, field, step, onText, onFocus, onLeave } = props;
  const id = useId();
  return (
    <div className="measure" data-trouble={fault !== null} data-text={isText}>
      <label htmlFor={id}>
        {label} <small>{from}</small>
      </label>
      <div className="measure-line">
        {step && (
          <StepButton
            sign="−"
            label={t("setup.less", { field: label, step: step.words })}
            onPress={() => step.go(-1)}
          />
        )}
        <input
          id={id}
          ref={field}
          className="measure-input"
          value={text}
          placeholder={usual}
          disabled={disabled}
          autoComplete="off"
          spellCheck={false}
          enterKeyHint="next"
          aria-invalid={fault !== null}
          aria-describedby={fault === null ? undefined : `${id}-fault`}
          onChange={(event) => onText(event.target.value)}
          onFocus={onFocus}
          onBlur={onLeave}
        />
        {step && (
          <StepButton sign="+" label={t("setup.more", { field: label, step: step.words })} onPress={() => step.go(1)} />
        )}
      </div>
      {fault !== null && (
        <small ref={intoView} id={`${id}-fault`} role="alert">
          {fault}
        </small>
      )}
    </div>
  );
}

/** On a phone the sheet may end right below the field. */
function intoView(fault: HTMLElement | null): void {
  fault?.scrollIntoView?.({ block: "nearest" });
}
