import type { Pen, Spot } from "../paper/pen.ts";
import type { Note, TemplateWords } from "./words.ts";

/** Paper that two neighbouring pages share, mm. */
export const OVERLAP_mm = 12;
const CROSS_mm = 4;

export interface Tile {
  /** Rows by letters from above, columns by numbers from the left: "B2". */
  readonly name: string;
  readonly row: number;
  readonly column: number;
  /** Its upper left corner on the whole drawing. */
  readonly left_mm: number;
  readonly top_mm: number;
}

/** How a drawing goes over several pages. */
export interface Tiling {
  readonly columns: number;
  readonly rows: number;
  readonly tile: { readonly width: number; readonly height: number };
  readonly tiles: readonly Tile[];
  /** Of all pages laid together. */
  readonly width_mm: number;
  readonly height_mm: number;
}

interface Size {
  readonly width_mm: number;
  readonly height_mm: number;
}

/** As few pages as cover the drawing when neighbours share the overlap. */
export function layTiles(
  { width_mm, height_mm }: Size,
  room: { readonly width: number; readonly height: number },
): Tiling {
  // a line of names stands above the drawing on every page
  const tile = { width: room.width, height: room.height - NAME_mm };
  const count = (length: number, one: number) => Math.max(1, Math.ceil((length - OVERLAP_mm) / (one - OVERLAP_mm)));
  const [columns, rows] = [count(width_mm, tile.width), count(height_mm, tile.height)];
  const tiles = Array.from({ length: rows * columns }, (_, i): Tile => {
    const [row, column] = [Math.floor(i / columns), i % columns];
    return {
      name: nameOf(row, column),
      row,
      column,
      left_mm: column * (tile.width - OVERLAP_mm),
      top_mm: row * (tile.height - OVERLAP_mm),
    };
  });
  const whole = (n: number, one: number) => n * one - (n - 1) * OVERLAP_mm;
  return { columns, rows, tile, tiles, width_mm: whole(columns, tile.width), height_mm: whole(rows, tile.height) };
}

const NAME_mm = 5;

function nameOf(row: number, column: number): string {
  return `${String.fromCharCode(65 + (row % 26))}${column + 1}`;
}

/**
 * Each page with its part of the drawing. Where two pages share paper both have a dashed line down its middle and crosses on that line at
 * the same places of the drawing.
 */
export function drawTiles(
  tiling: Tiling,
  print: { readonly draw: (pen: Pen) => void; readonly notes: readonly Note[] },
  words: TemplateWords,
  onPage: (draw: (pen: Pen) => void) => void,
): void {
  const { tile, columns, rows } = tiling;
  for (const { name, row, column, left_mm, top_mm } of tiling.tiles) {
    onPage((pen) => {
      pen.text(words.tileOf({ tile: name, template: print.notes[0]!.text }), [0, 3], { size_mm: 2.8, bold: true });
      const field = pen.at([0, NAME_mm]);
      field.within([0, 0], tile.width, tile.height, (inside) => print.draw(inside.at([-left_mm, -top_mm])));
      const half = OVERLAP_mm / 2;
      if (column > 0) seam(field, [half, 0], [half, tile.height], nameOf(row, column - 1));
      if (column < columns - 1)
        seam(field, [tile.width - half, 0], [tile.width - half, tile.height], nameOf(row, column + 1));
      if (row > 0) seam(field, [0, half], [tile.width, half], nameOf(row - 1, column));
      if (row < rows - 1)
        seam(field, [0, tile.height - half], [tile.width, tile.height - half], nameOf(row + 1, column));
    });
  }
}

/** Crosses at a quarter and three quarters: the neighbour's tile is as large and begins at the same height. */
function seam(pen: Pen, from: Spot, to: Spot, neighbour: string): void {
  pen.line(from, to, { width_mm: 0.12, dash_mm: [3, 2] });
  for (const share of [0.25, 0.75]) {
    const at: Spot = [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
    pen.line([at[0] - CROSS_mm, at[1]], [at[0] + CROSS_mm, at[1]], { width_mm: 0.18 });
    pen.line([at[0], at[1] - CROSS_mm], [at[0], at[1] + CROSS_mm], { width_mm: 0.18 });
    pen.circle(at, CROSS_mm / 2, { width_mm: 0.12 });
  }
  const isUpright = from[0] === to[0];
  const middle: Spot = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  pen.text(neighbour, isUpright ? [middle[0] + 1, middle[1]] : [middle[0], middle[1] - 1], { size_mm: 2.6 });
}
