import type { Unit } from "../store/state.ts";
import type { ProjectedPoint } from "../viewport/marks.ts";
import { type Label, placeLabels } from "./labels.ts";
import { readingText } from "./measureWords.ts";
import type { ShownMeasure } from "./useMeasureView.ts";

/** A measure as lines and a label over a picture. */
export interface DrawnMeasure {
  readonly id: string;
  readonly value: string;
  readonly spots: readonly ProjectedPoint[];
  /** SVG path of its lines and the leader to its label. */
  readonly path: string;
  readonly label: Label;
}

interface Flat {
  readonly x: number;
  readonly y: number;
}

/** The measures of which something is in the picture, by where their points are in it; `used`: how many points that were. */
export function drawnMeasures(
  measures: readonly ShownMeasure[],
  projected: readonly ProjectedPoint[],
  unit: Unit,
  width: number,
  height: number,
): { readonly drawn: readonly DrawnMeasure[]; readonly used: number } {
  let used = 0;
  const seen = measures.flatMap((shown) => {
    const spots = projected.slice(used, used + shown.points.length);
    used += shown.points.length;
    const isSeen = spots.length > 0 && spots.length === shown.points.length && spots.some(({ visible }) => visible);
    return isSeen ? [{ shown, spots, value: readingText(shown.reading, shown.gap, unit).value }] : [];
  });
  const labels = placeLabels(
    seen.map(({ spots, value }) => ({ at: anchorOf(spots), letters: value.length + 3 })),
    width,
    height,
  );
  const drawn = seen.map(({ shown, spots, value }, i) => {
    const label = labels[i]!;
    return {
      id: shown.measure.id,
      value,
      spots,
      path: `${pathOf(shown, spots)}${leaderOf(anchorOf(spots), label)}`,
      label,
    };
  });
  return { drawn, used };
}

/** The place that the label belongs to. */
function anchorOf(spots: readonly Flat[]): Flat {
  // of an angle its corner
  if (spots.length === 3) return spots[1]!;
  const sum = spots.reduce((total, { x, y }) => ({ x: total.x + x, y: total.y + y }), { x: 0, y: 0 });
  return { x: sum.x / spots.length, y: sum.y / spots.length };
}

function pathOf({ reading }: ShownMeasure, spots: readonly Flat[]): string {
  const line = (from: Flat, to: Flat) => `M${from.x} ${from.y}L${to.x} ${to.y}`;
  if (reading?.kind === "lines") {
    return `${line(spots[0]!, spots[1]!)}${spots.length > 3 ? line(spots[2]!, spots[3]!) : ""}`;
  }
  return spots
    .slice(1)
    .map((to, i) => line(spots[i]!, to))
    .join("");
}

function leaderOf(anchor: Flat, label: Label): string {
  return `M${anchor.x} ${anchor.y}L${label.x} ${label.y + label.height / 2}`;
}
