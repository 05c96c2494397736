import type { BodyDocument, MemberDocument, SceneDocument, ShapeDocument } from "../document.ts";
import { InputError } from "../error.ts";
import type { LengthUnit } from "../length.ts";
import { shortQuote } from "../path.ts";
import type { TextFault } from "../placeText.ts";
import { bodyOf, readable, withBody, withMember } from "./parts.ts";
import { PIECE_FIELDS, type PieceKind, type PieceSetting, type PieceShape } from "./pieceFields.ts";

/** Parts built by hand of simple pieces: what no ready part on the shelf draws. */

/** One piece as it stands in its fields; a text that is empty is left out. */
export interface TypedPiece {
  readonly kind: PieceKind;
  readonly texts: Readonly<Record<string, string>>;
}

/** The pieces of a shape; null where it is placed as a whole, or holds what is no piece (a scan, the wheel). */
export function piecesOf(shape: ShapeDocument): readonly PieceShape[] | null {
  if (shape.kind === "group") {
    if (shape.at !== undefined || shape.turn_deg !== undefined) return null;
    const found = shape.parts.map(piecesOf);
    return found.includes(null) ? null : found.flatMap((pieces) => pieces ?? []);
  }
  if (!(shape.kind in PIECE_FIELDS)) return null;
  const known = ["kind", ...PIECE_FIELDS[shape.kind as PieceKind].map(({ key }) => key)];
  return Object.keys(shape).every((key) => known.includes(key)) ? [shape as PieceShape] : null;
}

export function shapeOfPieces(pieces: readonly PieceShape[]): ShapeDocument {
  return pieces.length === 1
    ? pieces[0]!
    : { kind: "group", parts: pieces as Extract<ShapeDocument, { kind: "group" }>["parts"] };
}

export function typedPiece(shape: PieceShape, unit: LengthUnit): TypedPiece {
  const record = shape as unknown as Readonly<Record<string, unknown>>;
  const texts = PIECE_FIELDS[shape.kind]
    .filter(({ key }) => record[key] !== undefined)
    .map((field) => [field.key, field.write(record[field.key], unit)] as const);
  return { kind: shape.kind, texts: Object.fromEntries(texts) };
}

export interface ReadPiece {
  /** null: some field cannot be read, or is missing. */
  readonly shape: PieceShape | null;
  /** By field, why what stands there cannot be. */
  readonly faults: Readonly<Record<string, TextFault>>;
}

export function readPiece({ kind, texts }: TypedPiece, setting: PieceSetting): ReadPiece {
  const values: Record<string, unknown> = { kind };
  const faults: Record<string, TextFault> = {};
  for (const { key, isOptional, read } of PIECE_FIELDS[kind]) {
    const text = texts[key] ?? "";
    if (text.trim() === "") {
      if (!isOptional) faults[key] = { code: "missing" };
      continue;
    }
    const typed = read(text, setting);
    if (typed.ok) values[key] = typed.value;
    else faults[key] = typed.fault;
  }
  return { shape: Object.keys(faults).length === 0 ? (values as unknown as PieceShape) : null, faults };
}

export interface PieceBody {
  readonly id: string;
  readonly on: string;
  readonly pieces: readonly PieceShape[];
  readonly role?: string | undefined;
  readonly mirror?: boolean | undefined;
}

/** Throws InputError `wrong-value` where there is no piece, and what the finished document is refused with. */
export function addPieces(document: SceneDocument, { id, on, pieces, role, mirror }: PieceBody): SceneDocument {
  mustHavePieces(id, pieces);
  const body: BodyDocument = {
    id,
    on,
    shape: shapeOfPieces(pieces),
    ...(role ? { role } : {}),
    ...(mirror ? { mirror: true } : {}),
  };
  return readable({ ...document, bodies: [...document.bodies, body] });
}

/** The body or member drawn by these pieces from now on; how it was made before is forgotten. Throws as addPieces. */
export function withPieces(document: SceneDocument, id: string, pieces: readonly PieceShape[]): SceneDocument {
  mustHavePieces(id, pieces);
  const shape = shapeOfPieces(pieces);
  const member = document.members.find((candidate) => candidate.id === id);
  if (member) {
    const { made: _, ...rest } = member;
    return readable(withMember(document, id, { ...rest, body: shape } as MemberDocument));
  }
  const { made: _, ...rest } = bodyOf(document, id);
  return readable(withBody(document, id, { ...rest, shape }));
}

function mustHavePieces(id: string, pieces: readonly PieceShape[]): void {
  if (pieces.length > 0) return;
  throw new InputError("wrong-value", { path: "bodies" }, `${shortQuote(id)} has no piece`, "one piece or more");
}
