import { type ComingMap, FIRST_ROOM, MARKS, markOf, type Slice } from "./roomTold.ts";

/** Colours of a slice, as CSS has them. */
export type SliceColours = (token: string) => string;

export interface SliceBox {
  readonly width: number;
  readonly height: number;
  /** Of a place, px. */
  readonly cell: number;
}

/** Widest cell, px. */
const WIDEST = 30;
/** Highest plot, px; on a phone the sheet shows no more of one. */
export const HIGHEST = { wide: 320, tablet: 320, phone: 190 } as const;
const LARGEST_MARK = 24;

/** As large as the place allows. */
export function boxOf(
  { columns, rows }: Pick<Slice, "columns" | "rows">,
  width: number,
  highest: number = HIGHEST.wide,
): SliceBox {
  const cell = Math.max(2, Math.min(WIDEST, width / columns, highest / rows));
  return { width: cell * columns, height: Math.max(cell * rows, 44), cell };
}

/** The place under a spot of the plot; null: outside. */
export function placeUnder(slice: Slice, box: SliceBox, x: number, y: number): number | null {
  const column = Math.floor(x / box.cell);
  const row = slice.up < 0 ? 0 : slice.rows - 1 - Math.floor(y / box.cell);
  if (column < 0 || row < 0 || column >= slice.columns || row >= slice.rows) return null;
  return slice.placeAt(column, row);
}

/** The middle of a place's cell. */
export function spotOf(slice: Slice, box: SliceBox, place: number): readonly [x: number, y: number] {
  const [column, row] = slice.cellOf(place);
  const y = slice.up < 0 ? box.height / 2 : (slice.rows - 1 - row + 0.5) * box.cell;
  return [(column + 0.5) * box.cell, y];
}

/** All places of a slice; `level`: how fine the last are that were told, coarse ones are drawn larger. */
export function drawSlice(
  context: CanvasRenderingContext2D,
  map: ComingMap,
  slice: Slice,
  box: SliceBox,
  level: number,
  colour: SliceColours,
): void {
  context.clearRect(0, 0, box.width, box.height);
  const size = Math.min(LARGEST_MARK, box.cell * 2 ** level);
  const hasRoomForEdge = size > 7;
  for (let row = 0; row < slice.rows; row++) {
    for (let column = 0; column < slice.columns; column++) {
      const place = slice.placeAt(column, row);
      const mark = markOf(map, place);
      const [x, y] = spotOf(slice, box, place);
      drawMark(context, mark, x, y, mark === 0 ? box.cell : size, hasRoomForEdge, colour);
    }
  }
}

/** One mark of MARKS in a cell of that size about a spot. */
export function drawMark(
  context: CanvasRenderingContext2D,
  mark: number,
  x: number,
  y: number,
  size: number,
  hasEdge: boolean,
  colour: SliceColours,
): void {
  const kind = MARKS[mark]!;
  context.beginPath();
  context.lineWidth = Math.max(1, Math.min(1.8, size / 9));
  switch (kind) {
    case "unasked": {
      context.fillStyle = colour("--line2");
      context.fillRect(x - 0.75, y - 0.75, 1.5, 1.5);
      return;
    }
    case "close": {
      const r = size * 0.2;
      context.strokeStyle = colour("--clash");
      context.moveTo(x - r, y - r);
      context.lineTo(x + r, y + r);
      context.moveTo(x + r, y - r);
      context.lineTo(x - r, y + r);
      context.stroke();
      return;
    }
    case "limit": {
      const r = size * 0.32;
      context.moveTo(x, y - r);
      context.lineTo(x + r, y);
      context.lineTo(x, y + r);
      context.lineTo(x - r, y);
      context.closePath();
      if (hasEdge) {
        context.lineWidth += 1.6;
        context.strokeStyle = colour("--limit-edge");
        context.stroke();
        context.lineWidth -= 1.6;
      }
      context.strokeStyle = colour("--limit");
      context.stroke();
      return;
    }
    case "cannot": {
      const r = size * 0.18;
      context.strokeStyle = colour("--ink3");
      context.strokeRect(x - r, y - r, 2 * r, 2 * r);
      return;
    }
    default: {
      const step = mark - FIRST_ROOM;
      context.arc(x, y, size * (0.3 + 0.04 * step), 0, 2 * Math.PI);
      context.fillStyle = colour(`--room-${step + 1}`);
      context.fill();
      if (!hasEdge) return;
      context.lineWidth = 1;
      context.strokeStyle = colour("--ink");
      context.stroke();
    }
  }
}
