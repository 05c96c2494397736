import type { Verdict } from "../../check/result.ts";
import { CLASH, hexOf, INK, TIGHT } from "./colours.ts";
import { fixed, linesOf, textAt } from "./lettering.ts";
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
const BETWEEN_mm = 2.5;
const TEXT_mm = 2.9;
const FEED_mm = 3.9;
const INSET_mm = 2.6;

const COLOURS: Readonly<Record<Verdict, string>> = {
  clash: hexOf(CLASH),
  tight: hexOf(TIGHT),
  clear: hexOf(INK),
  accepted: hexOf(INK),
};

interface Box {
  readonly gap: FlatGap;
  readonly title: readonly string[];
  readonly text: readonly string[];
  readonly height: number;
}

function boxOf(gap: FlatGap): Box {
  const room = COLUMN_mm - INSET_mm - 1;
  const title = linesOf(gap.title, TEXT_mm, room);
  const text = linesOf(gap.text, TEXT_mm, room);
  return { gap, title, text, height: (title.length + text.length) * FEED_mm + 2.4 };
}

/**
 * Callouts in a column, in the order of what they point at, so that no two leaders cross; each as near to its gap's height as the
 * others leave it. Of more than there is room for the first are drawn.
 */
export function drawCallouts(gaps: readonly FlatGap[], column: Rectangle, isLeft: boolean): string {
  let room = column.height;
  const boxes = gaps.map(boxOf).filter(({ height }) => {
    room -= height + BETWEEN_mm;
    return room >= -BETWEEN_mm;
  });
  boxes.sort((p, q) => middleOf(p.gap).y - middleOf(q.gap).y);
  const tops = spread(boxes, column.y, column.y + column.height);
  return boxes.map((box, i) => drawGap(box.gap) + drawBox(box, tops[i]!, column, isLeft)).join("");
}

function middleOf({ from, to }: FlatGap): Flat {
  return between(from, to, 0.5);
}

/** Tops as wanted, pushed apart downwards and then back up where that ran out of room. */
function spread(boxes: readonly Box[], first: number, last: number): number[] {
  const tops: number[] = [];
  let least = first;
  for (const { gap, height } of boxes) {
    tops.push(Math.max(middleOf(gap).y - height / 2, least));
    least = tops.at(-1)! + height + BETWEEN_mm;
  }
  let most = last;
  for (let i = tops.length - 1; i >= 0; i--) {
    tops[i] = Math.min(tops[i]!, most - boxes[i]!.height);
    most = tops[i]! - BETWEEN_mm;
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

function drawBox({ gap, title, text, height }: Box, top: number, column: Rectangle, isLeft: boolean): string {
  const colour = COLOURS[gap.verdict];
  const at = middleOf(gap);
  const [x, width] = [column.x, column.width];
  const y = top + height / 2;
  const edge = isLeft ? x + width : x;
  const knee = isLeft ? edge + 4 : edge - 4;
  const written = [...title, ...text].map((words, i) =>
    textAt(x + INSET_mm, top + 4 + i * FEED_mm, words, { size: TEXT_mm, isStrong: i < title.length }),
  );
  return [
    line([at, { x: knee, y }, { x: edge, y }], { colour, width: 0.2, halo: true }),
    `<circle cx="${fixed(at.x)}" cy="${fixed(at.y)}" r="0.7" fill="#ffffff" stroke="${colour}" stroke-width="0.3"/>`,
    `<rect x="${fixed(x)}" y="${fixed(top)}" width="${fixed(width)}" height="${fixed(height)}" fill="#ffffff" stroke="${colour}" stroke-width="0.3"/>`,
    `<rect x="${fixed(x)}" y="${fixed(top)}" width="1.3" height="${fixed(height)}" fill="${colour}"/>`,
    ...written,
  ].join("");
}
