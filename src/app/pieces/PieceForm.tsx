import { useId } from "react";
import { PIECE_FIELDS, type PieceField } from "../../scene/parts/pieceFields.ts";
import type { TypedPiece } from "../../scene/parts/pieces.ts";
import type { Unit } from "../store/state.ts";
import { PIECE_ABOUT, pieceTitle, WORDS } from "./words.ts";

interface PieceFormProps {
  readonly number: number;
  readonly piece: TypedPiece;
  readonly faults: Readonly<Record<string, string>>;
  /** Whether what is missing is told too. */
  readonly isJudged: boolean;
  readonly unit: Unit;
  onChange(piece: TypedPiece): void;
  onTakeOut(): void;
}

/** The fields of one piece, each one text. */
export function PieceForm({ number, piece, faults, isJudged, unit, onChange, onTakeOut }: PieceFormProps) {
  return (
    <section className="piece-form" aria-label={pieceTitle(number, piece.kind)}>
      <h3>{pieceTitle(number, piece.kind)}</h3>
      <p className="fine quiet">{PIECE_ABOUT[piece.kind]}</p>
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
        {WORDS.takeOut}
      </button>
    </section>
  );
}

interface PieceTextProps {
  readonly field: PieceField;
  readonly text: string;
  readonly unit: Unit;
  readonly fault: string | null;
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
        {field.label} {field.isOptional && <small>if any</small>}
      </label>
      {field.hasRows ? (
        <textarea {...shared} rows={Math.min(9, Math.max(3, text.split("\n").length + 1))} />
      ) : (
        <input {...shared} />
      )}
      <small id={`${id}-below`} role={fault ? "alert" : undefined}>
        {fault ?? (field.hint || unit)}
      </small>
    </div>
  );
}
