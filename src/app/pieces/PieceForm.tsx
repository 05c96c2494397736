import { useId } from "react";
import { PIECE_FIELDS, type PieceField } from "../../scene/parts/pieceFields.ts";
import type { TypedPiece } from "../../scene/parts/pieces.ts";
import type { TextFault } from "../../scene/placeText.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { faultText } from "./faultText.ts";

interface PieceFormProps {
  readonly number: number;
  readonly piece: TypedPiece;
  readonly faults: Readonly<Record<string, TextFault>>;
  /** Whether what is missing is told too. */
  readonly isJudged: boolean;
  readonly unit: Unit;
  onChange(piece: TypedPiece): void;
  onTakeOut(): void;
}

/** The fields of one piece, each one text. */
export function PieceForm({ number, piece, faults, isJudged, unit, onChange, onTakeOut }: PieceFormProps) {
  const title = t("pieces.piece", { number, kind: t(`pieces.kinds.${piece.kind}`) });
  return (
    <section className="piece-form" aria-label={title}>
      <h3>{title}</h3>
      <p className="fine quiet">{t(`pieces.about.${piece.kind}`)}</p>
      {PIECE_FIELDS[piece.kind].map((field) => {
        const text = piece.texts[field.key] ?? "";
        return (
          <PieceText
            key={field.key}
            field={field}
            text={text}
            unit={unit}
            fault={text.trim() !== "" || isJudged ? (faults[field.key] ?? null) : null}
            onText={(next) => onChange({ ...piece, texts: { ...piece.texts, [field.key]: next } })}
          />
        );
      })}
      <button type="button" className="button plain" onClick={onTakeOut}>
        {t("pieces.takeOut")}
      </button>
    </section>
  );
}

interface PieceTextProps {
  readonly field: PieceField;
  readonly text: string;
  readonly unit: Unit;
  readonly fault: TextFault | null;
  onText(text: string): void;
}

function PieceText({ field, text, unit, fault, onText }: PieceTextProps) {
  const id = useId();
  const shared = {
    id,
    className: "field",
    value: text,
    spellCheck: false,
    autoComplete: "off",
    "data-field": field.key,
    "aria-invalid": fault !== null,
    "aria-describedby": `${id}-below`,
    onChange: (event: { readonly target: { readonly value: string } }) => onText(event.target.value),
  };
  return (
    <div className="piece-field" data-trouble={fault !== null}>
      <label htmlFor={id}>
        {t(`pieces.fields.${field.key}`)} {field.isOptional && <small>{t("pieces.optional")}</small>}
      </label>
      {field.hasRows ? (
        <textarea {...shared} rows={Math.min(9, Math.max(3, text.split("\n").length + 1))} />
      ) : (
        <input {...shared} />
      )}
      <small id={`${id}-below`} role={fault ? "alert" : undefined}>
        {fault ? faultText(fault, field.key) : field.hint ? t(`pieces.hints.${field.hint}`) : unit}
      </small>
    </div>
  );
}
