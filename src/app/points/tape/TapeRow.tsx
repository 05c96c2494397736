import type { TapeOpinion } from "../../../scene/tapeSuspects.ts";
import type { Unit } from "../../store/state.ts";
import { t } from "../../text/text.ts";
import { lengthNumber, lengthText } from "../../words/number.ts";
import type { PointInfo } from "../pointInfo.ts";
import { DIRECTIONS } from "../usePointMove.ts";
import { type DraftField, type DraftTape, faultKey } from "./tapeDraft.ts";

interface TapeRowProps {
  readonly line: DraftTape;
  readonly number: number;
  readonly unit: Unit;
  readonly studs: readonly PointInfo[];
  readonly faults: ReadonlyMap<string, string>;
  /** What this tape shows beyond the distance to the chosen place, mm; null: nothing is solved. */
  readonly leftOver_mm: number | null;
  readonly opinion: TapeOpinion | null;
  readonly isSuspect: boolean;
  readonly canGo: boolean;
  onChange(line: DraftTape): void;
  onGo(): void;
}

/** One tape: from which stud, and what it reads. */
export function TapeRow(props: TapeRowProps) {
  const { line, number, unit, studs, faults, leftOver_mm, opinion, isSuspect, canGo, onChange, onGo } = props;
  const field = (name: DraftField, label: string) => {
    const fault = faults.get(faultKey(line.key, name));
    return (
      <label key={name} className="tape-field">
        {label}
        <input
          className="field"
          value={line[name]}
          aria-label={t(`points.tape.labels.${name}`, { number })}
          aria-invalid={fault !== undefined}
          title={fault}
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => onChange({ ...line, [name]: event.target.value })}
        />
      </label>
    );
  };
  const fault = [...DIRECTIONS, "length" as const].map((name) => faults.get(faultKey(line.key, name))).find(Boolean);
  return (
    <li className="tape-row" data-suspect={isSuspect}>
      <div className="tape-main">
        <b className="tape-number">{number}</b>
        <label className="tape-field stud">
          {t("points.tape.from")}
          <select
            className="field"
            aria-label={t("points.tape.studLabel", { number })}
            value={line.stud}
            onChange={(event) => onChange({ ...line, stud: event.target.value })}
          >
            <option value="">{t("points.tape.aStudAt")}</option>
            {studs.map(({ name }) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        </label>
        {field("length", t("points.tape.tape", { unit }))}
        <button
          type="button"
          className="button plain tape-go"
          disabled={!canGo}
          aria-label={t("points.tape.leaveOut", { number })}
          onClick={onGo}
        >
          ✕
        </button>
      </div>
      {line.stud === "" && (
        <div className="tape-place">
          {DIRECTIONS.map((direction) => field(direction, t(`points.columns.${direction}`)))}
        </div>
      )}
      {fault && (
        <p className="fine tape-fault" role="alert">
          {fault}
        </p>
      )}
      {leftOver_mm !== null && (
        <p className="fine quiet">
          {opinion
            ? t("points.tape.othersSay", { fit: fitText(leftOver_mm, unit), size: lengthText(opinion.wanted_mm, unit) })
            : fitText(leftOver_mm, unit)}
        </p>
      )}
    </li>
  );
}

function fitText(leftOver_mm: number, unit: Unit): string {
  if (Math.abs(leftOver_mm) < 0.05) return t("points.tape.fits");
  return t("points.tape.leftOver", { size: lengthNumber(leftOver_mm, unit, { signed: true }) });
}
