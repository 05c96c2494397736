import type { Faces } from "./fonts.ts";

export interface Column {
  readonly title: string;
  readonly align?: "left" | "right";
  /** Least width, mm: room to write in by hand. */
  readonly room_mm?: number;
}

export interface Row {
  readonly cells: readonly string[];
  readonly bold?: boolean;
}

export interface Table {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** Least height of a row, mm: room to write in by hand. */
  readonly rowRoom_mm?: number;
}

export interface TableStyle {
  readonly text_mm: number;
  /** White above and below the lines of a row, and beside them. */
  readonly pad_mm: number;
  readonly side_mm: number;
  readonly lineFeed_mm: number;
}

export const TABLE_STYLE: TableStyle = { text_mm: 3, pad_mm: 1.1, side_mm: 1.6, lineFeed_mm: 3.9 };

/**
 * Widths of a table's columns, mm, which fill the room: each as wide as its longest line where that fits. Where it does not, columns that ask for
 * no more than an equal share get what they ask for, and the others share what is left, none below its longest word; where even the words do
 * not fit, all shrink alike and words are broken.
 */
export function columnWidths({ columns, rows }: Table, faces: Faces, room_mm: number, style = TABLE_STYLE): number[] {
  const pad = 2 * style.side_mm;
  const wants = columns.map(({ title, room_mm: least = 0 }, i) => {
    const cells = [
      { text: title, face: faces.bold },
      ...rows.map((row) => ({ text: row.cells[i] ?? "", face: row.bold ? faces.bold : faces.regular })),
    ];
    const widest = (pieces: (text: string) => string[]) =>
      Math.max(0, ...cells.flatMap(({ text, face }) => pieces(text).map((piece) => face.width(piece, style.text_mm))));
    // a hair more, so that rounding does not break a line that just fits
    const hair = 0.05;
    return {
      most: Math.max(least, widest((text) => text.split("\n")) + pad + hair),
      least: Math.max(least, widest((text) => text.split(/\s+/)) + pad + hair),
    };
  });
  const most = wants.reduce((sum, want) => sum + want.most, 0);
  const least = wants.reduce((sum, want) => sum + want.least, 0);
  if (most <= room_mm) return wants.map((want) => want.most + ((room_mm - most) * want.most) / most);
  if (least >= room_mm) return wants.map((want) => (want.least * room_mm) / least);
  return shared(wants, room_mm);
}

function shared(wants: readonly { readonly most: number; readonly least: number }[], room_mm: number): number[] {
  const widths = wants.map(({ least }) => least);
  let left = room_mm - widths.reduce((sum, width) => sum + width, 0);
  const order = wants.map((_, i) => i).sort((a, b) => wants[a]!.most - widths[a]! - (wants[b]!.most - widths[b]!));
  for (const [rank, i] of order.entries()) {
    const more = Math.min(wants[i]!.most - widths[i]!, left / (order.length - rank));
    widths[i]! += more;
    left -= more;
  }
  return widths;
}

/** The lines of each cell of a row. */
export function cellLines(row: Row, widths: readonly number[], faces: Faces, style = TABLE_STYLE): string[][] {
  const face = row.bold ? faces.bold : faces.regular;
  return widths.map((width, i) => face.wrap(row.cells[i] ?? "", style.text_mm, width - 2 * style.side_mm));
}

export function rowHeight(lines: readonly (readonly string[])[], style = TABLE_STYLE): number {
  return Math.max(1, ...lines.map(({ length }) => length)) * style.lineFeed_mm + 2 * style.pad_mm;
}
