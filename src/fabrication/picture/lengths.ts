import { hexOf, INK } from "./colours.ts";
import { textAt, widthOf } from "./lettering.ts";
import { ARROW_mm, arrow, between, line, wayFrom } from "./marks.ts";
import type { Rectangle } from "./page.ts";
import type { Flat } from "./view.ts";

/** A length as it lies on the sheet. */
export interface FlatLength {
  readonly from: Flat;
  readonly to: Flat;
  readonly lies: "straight" | "across" | "upright";
  readonly text: string;
}

export const TEXT_mm = 3.1;
/** From one dimension line to the next, and from the drawing to the first. */
export const ROW_mm = 6.2;
const FIRST_mm = 4.5;
/** Witness lines run so far past the dimension line. */
const PAST_mm = 1.2;
const COLOUR = hexOf(INK);

type Edge = "top" | "bottom" | "left" | "right";

/** In which row beside the drawing each length stands, counted outwards on its edge. */
export interface RowedLength extends FlatLength {
  readonly edge: Edge;
  readonly row: number;
}

/** Short ones next to the drawing, so that witness lines cross as little as can be (common practice); each on the edge it is nearer to. */
export function rowed(lengths: readonly FlatLength[], drawing: Rectangle): RowedLength[] {
  const taken: Record<Edge, [number, number][][]> = { top: [], bottom: [], left: [], right: [] };
  const sorted = lengths.filter(({ lies }) => lies !== "straight").sort((p, q) => spanOf(p) - spanOf(q));
  return sorted.map((length): RowedLength => {
    const edge = edgeOf(length, drawing);
    const [low, high] = roomOf(length);
    let row = 0;
    while (taken[edge][row]?.some(([from, to]) => low < to && high > from)) row++;
    taken[edge][row] ??= [];
    taken[edge][row]!.push([low, high]);
    return { ...length, edge, row };
  });
}

export function rowsOn(edge: Edge, lengths: readonly RowedLength[]): number {
  return lengths.reduce((most, one) => (one.edge === edge ? Math.max(most, one.row + 1) : most), 0);
}

/** What rows take beside the drawing, mm. */
export function depthOf(rows: number): number {
  return rows === 0 ? 0 : FIRST_mm + (rows - 1) * ROW_mm + TEXT_mm + 1.5;
}

function spanOf({ from, to, lies }: FlatLength): number {
  return lies === "across" ? Math.abs(to.x - from.x) : Math.abs(to.y - from.y);
}

function edgeOf({ from, to, lies }: FlatLength, { x, y, width, height }: Rectangle): Edge {
  if (lies === "across") return (from.y + to.y) / 2 < y + height / 2 ? "top" : "bottom";
  return (from.x + to.x) / 2 < x + width / 2 ? "left" : "right";
}

/** What a length takes of its row. */
function roomOf(length: FlatLength): [number, number] {
  const [a, b] = length.lies === "across" ? [length.from.x, length.to.x] : [length.from.y, length.to.y];
  const [low, high] = [Math.min(a, b), Math.max(a, b)];
  const width = widthOf(length.text, TEXT_mm);
  const arrows = isTight(high - low) ? 2 * ARROW_mm.length : 0;
  const after = high - low < width + 0.5 ? 2 * ARROW_mm.length + 1 + width : arrows;
  return [low - arrows - 0.5, high + after + 0.5];
}

function isTight(span: number): boolean {
  return span < 2.6 * ARROW_mm.length;
}

/** A length beside the drawing, with witness lines from its ends. */
export function drawRowed({ from, to, lies, text, edge, row }: RowedLength, drawing: Rectangle): string {
  const off = FIRST_mm + row * ROW_mm;
  const level = {
    top: drawing.y - off,
    bottom: drawing.y + drawing.height + off,
    left: drawing.x - off,
    right: drawing.x + drawing.width + off,
  }[edge];
  const isAcross = lies === "across";
  const [first, last] = (isAcross ? from.x <= to.x : from.y <= to.y) ? [from, to] : [to, from];
  const a: Flat = isAcross ? { x: first.x, y: level } : { x: level, y: first.y };
  const b: Flat = isAcross ? { x: last.x, y: level } : { x: level, y: last.y };
  const outwards = edge === "top" || edge === "left" ? -PAST_mm : PAST_mm;
  const witness = (end: Flat, foot: Flat) => {
    const past = isAcross ? { x: foot.x, y: foot.y + outwards } : { x: foot.x + outwards, y: foot.y };
    return line([end, past], { colour: COLOUR, width: 0.16, halo: true });
  };
  // where the text is wider than the length it stands past the arrow
  const isNarrow = spanOf({ from, to, lies, text }) < widthOf(text, TEXT_mm) + 0.5;
  const out = 2 * ARROW_mm.length + 1 + widthOf(text, TEXT_mm) / 2;
  const middle = isNarrow ? { x: b.x + (isAcross ? out : 0), y: b.y + (isAcross ? 0 : out) } : between(a, b, 0.5);
  const label = isAcross
    ? textAt(middle.x, level - 0.9, text, { size: TEXT_mm, anchor: "middle", halo: true })
    : textAt(level - 0.9, middle.y, text, { size: TEXT_mm, anchor: "middle", halo: true, turn_deg: -90 });
  return [witness(first, a), witness(last, b), dimensionLine(a, b), dot(first), dot(last), label].join("");
}

/** The line with its arrows, which stand outside where there is no room for them. */
function dimensionLine(a: Flat, b: Flat): string {
  const way = wayFrom(a, b);
  const back = { x: -way.x, y: -way.y };
  const look = { colour: COLOUR, halo: true } as const;
  if (!isTight(Math.hypot(b.x - a.x, b.y - a.y)))
    return line([a, b], look) + arrow(a, back, COLOUR) + arrow(b, way, COLOUR);
  const out = 2 * ARROW_mm.length;
  const before = { x: a.x - way.x * out, y: a.y - way.y * out };
  const after = { x: b.x + way.x * out, y: b.y + way.y * out };
  return line([before, after], look) + arrow(a, way, COLOUR) + arrow(b, back, COLOUR);
}

function dot({ x, y }: Flat): string {
  return `<circle cx="${x.toFixed(3)}" cy="${y.toFixed(3)}" r="0.45" fill="${COLOUR}" stroke="#ffffff" stroke-width="0.2"/>`;
}

/** Boxes that are written in, so that no two lie over each other. */
export class Labels {
  readonly #boxes: Rectangle[] = [];

  /** The first of the places, for the middle of the box, at which nothing is written yet; or the one with the least in its way. */
  place(places: readonly Flat[], width: number, height: number): Flat {
    let best: { at: Flat; box: Rectangle; overlap: number } | null = null;
    for (const at of places) {
      const box = { x: at.x - width / 2, y: at.y - height / 2, width, height };
      const overlap = this.#boxes.reduce((sum, other) => sum + overlapOf(box, other), 0);
      if (!best || overlap < best.overlap) best = { at, box, overlap };
      if (overlap === 0) break;
    }
    this.#boxes.push(best!.box);
    return best!.at;
  }
}

function overlapOf(a: Rectangle, b: Rectangle): number {
  const across = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const down = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return across > 0 && down > 0 ? across * down : 0;
}

const SHARES = [0.5, 0.38, 0.62, 0.26, 0.74, 0.15, 0.85] as const;

/** A length as the crow flies, drawn where it is. */
export function drawStraight({ from, to, text }: FlatLength, labels: Labels): string {
  const width = widthOf(text, TEXT_mm) + 1;
  const way = wayFrom(from, to);
  const isShort = Math.hypot(to.x - from.x, to.y - from.y) < width + 2 * ARROW_mm.length;
  // square to the line, upwards
  const side = way.x >= 0 ? { x: way.y, y: -way.x } : { x: -way.y, y: way.x };
  const off = isShort ? 4.2 : 0;
  const at = labels.place(
    SHARES.map((share) => {
      const on = between(from, to, share);
      return { x: on.x + side.x * off, y: on.y + side.y * off };
    }),
    width,
    TEXT_mm * 1.2,
  );
  const label = textAt(at.x, at.y + TEXT_mm * 0.36, text, {
    size: TEXT_mm,
    anchor: "middle",
    isStrong: true,
    halo: true,
  });
  return [dimensionLine(from, to), dot(from), dot(to), label].join("");
}

/** An angle as an arc between its two legs. */
export function drawAngle(from: Flat, at: Flat, to: Flat, text: string, labels: Labels): string {
  const [a, b] = [wayFrom(at, from), wayFrom(at, to)];
  const [legA, legB] = [from, to].map((end) => Math.hypot(end.x - at.x, end.y - at.y)) as [number, number];
  const radius = Math.max(4, Math.min(14, 0.6 * Math.min(legA, legB)));
  const [start, end] = [a, b].map(({ x, y }) => ({ x: at.x + x * radius, y: at.y + y * radius })) as [Flat, Flat];
  const turnsRight = a.x * b.y - a.y * b.x > 0 ? 1 : 0;
  const arc = `<path d="M${start.x.toFixed(3)} ${start.y.toFixed(3)}A${radius} ${radius} 0 0 ${turnsRight} ${end.x.toFixed(3)} ${end.y.toFixed(3)}" fill="none" stroke="${COLOUR}" stroke-width="0.22"/>`;
  const half = wayFrom({ x: 0, y: 0 }, { x: a.x + b.x, y: a.y + b.y });
  const place = labels.place(
    [1.45, 1.9, 2.4, 0.6].map((share) => ({ x: at.x + half.x * radius * share, y: at.y + half.y * radius * share })),
    widthOf(text, TEXT_mm) + 1,
    TEXT_mm * 1.2,
  );
  const label = textAt(place.x, place.y + TEXT_mm * 0.36, text, {
    size: TEXT_mm,
    anchor: "middle",
    isStrong: true,
    halo: true,
  });
  return [line([from, at, to], { colour: COLOUR, halo: true }), arc, dot(from), dot(at), dot(to), label].join("");
}
