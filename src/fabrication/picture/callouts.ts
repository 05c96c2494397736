import type { Verdict } from "../../check/result.ts";
import { CLASH, hexOf, INK, TIGHT } from "./colours.ts";
import { cutTo, fixed, textAt } from "./lettering.ts";
import { ARROW_mm, arrow, between, line, wayFrom } from "./marks.ts";
import type { Rectangle } from "./page.ts";
import type { Flat } from "./view.ts";

/** A gap as it lies on the sheet, with what is written to it beside the drawing. */
export interface FlatGap {
  readonly from: Flat;
  readonly to: Flat;
  readonly verdict: Verdict;
  readonly title: string;
  readonly text: string;
}

export const COLUMN_mm = 46;
const BOX_mm = 11;
const BETWEEN_mm = 2.5;
const TEXT_mm = 2.9;

const COLOURS: Readonly<Record<Verdict, string>> = {
  clash: hexOf(CLASH),
  tight: hexOf(TIGHT),
  clear: hexOf(INK),
  accepted: hexOf(INK),
};

/** As many callouts as fit beside a drawing of this height. */
export function roomFor(height: number): number {
  return Math.max(0, Math.floor((height + BETWEEN_mm) / (BOX_mm + BETWEEN_mm)));
}

/**
 * Callouts in a column, in the order of what they point at, so that no two leaders cross; each as near to its gap's height as the
 * others leave it.
 */
export function drawCallouts(gaps: readonly FlatGap[], column: Rectangle, isLeft: boolean): string {
  const sorted = [...gaps].sort((p, q) => middleOf(p).y - middleOf(q).y);
  const tops = spread(
    sorted.map((gap) => middleOf(gap).y - BOX_mm / 2),
    column.y,
    column.y + column.height,
  );
  return sorted.map((gap, i) => drawGap(gap) + drawBox(gap, tops[i]!, column, isLeft)).join("");
}

function middleOf({ from, to }: FlatGap): Flat {
  return between(from, to, 0.5);
}

/** Tops as wanted, pushed apart downwards and then back up where that ran out of room. */
function spread(wanted: readonly number[], first: number, last: number): number[] {
  const step = BOX_mm + BETWEEN_mm;
  const tops: number[] = [];
  for (const top of wanted) tops.push(Math.max(top, first, (tops.at(-1) ?? Number.NEGATIVE_INFINITY) + step));
  let most = last - BOX_mm;
  for (let i = tops.length - 1; i >= 0; i--) {
    tops[i] = Math.min(tops[i]!, most);
    most = tops[i]! - step;
  }
  return tops;
}

/** Two arrows that close in on the gap from outside: most gaps are far too small for arrows between. */
function drawGap({ from, to, verdict }: FlatGap): string {
  const colour = COLOURS[verdict];
  const way = wayFrom(from, to);
  const back = { x: -way.x, y: -way.y };
  const out = ARROW_mm.length + 2.2;
  const outside = (end: Flat, along: Flat): Flat => ({ x: end.x - along.x * out, y: end.y - along.y * out });
  const isWide = Math.hypot(to.x - from.x, to.y - from.y) > 3 * ARROW_mm.length;
  const look = { colour, width: 0.3, halo: true } as const;
  if (isWide) return line([from, to], look) + arrow(from, back, colour) + arrow(to, way, colour);
  // of an overlap the points lie crosswise: the arrows still come from outside
  return [
    line([outside(from, way), from], look),
    line([outside(to, back), to], look),
    arrow(from, way, colour),
    arrow(to, back, colour),
  ].join("");
}

function drawBox(gap: FlatGap, top: number, column: Rectangle, isLeft: boolean): string {
  const colour = COLOURS[gap.verdict];
  const at = middleOf(gap);
  const [x, width] = [column.x, column.width];
  const y = top + BOX_mm / 2;
  const edge = isLeft ? x + width : x;
  const knee = isLeft ? edge + 4 : edge - 4;
  return [
    line([at, { x: knee, y }, { x: edge, y }], { colour, width: 0.2, halo: true }),
    `<circle cx="${fixed(at.x)}" cy="${fixed(at.y)}" r="0.7" fill="#ffffff" stroke="${colour}" stroke-width="0.3"/>`,
    `<rect x="${fixed(x)}" y="${fixed(top)}" width="${fixed(width)}" height="${BOX_mm}" fill="#ffffff" stroke="${colour}" stroke-width="0.3"/>`,
    `<rect x="${fixed(x)}" y="${fixed(top)}" width="1.3" height="${BOX_mm}" fill="${colour}"/>`,
    textAt(x + 2.6, top + 4.4, cutTo(gap.title, TEXT_mm, width - 3.4), { size: TEXT_mm, isStrong: true }),
    textAt(x + 2.6, top + 8.7, cutTo(gap.text, TEXT_mm, width - 3.4), { size: TEXT_mm }),
  ].join("");
}
