import "./measure.css";
import { useProjected } from "../corner/projected.ts";
import { useApp } from "../store/useApp.ts";
import type { ProjectedPoint } from "../viewport/marks.ts";
import { type Label, placeLabels } from "./labels.ts";
import { bodyText, lineText, readingText, spotText } from "./measureWords.ts";
import { type Picked, useMeasuring } from "./measuring.ts";
import type { MeasureView, ShownMeasure } from "./useMeasureView.ts";

interface MeasureMarksProps {
  readonly view: MeasureView;
  /** Where they begin among the projected points. */
  readonly offset: number;
  readonly width: number;
  readonly height: number;
}

/** Pinned measures over the picture, each with a leader to its label; and what is being picked. */
export function MeasureMarks({ view, offset, width, height }: MeasureMarksProps) {
  const projected = useProjected((state) => state.points);
  const unit = useApp((state) => state.unit);
  let at = offset;
  const drawn = view.measures.flatMap((shown) => {
    const spots = projected.slice(at, at + shown.points.length);
    at += shown.points.length;
    const isSeen = spots.length > 0 && spots.length === shown.points.length && spots.some(({ visible }) => visible);
    return isSeen ? [{ shown, spots, text: readingText(shown.reading, shown.gap, unit) }] : [];
  });
  const labels = placeLabels(
    drawn.map(({ spots, text }) => ({ at: anchorOf(spots), letters: text.value.length + 3 })),
    width,
    height,
  );
  const picks = view.picked.map((pick, i) => ({ ...pick, spot: projected[at + i] }));
  return (
    <div className="measure-marks">
      <svg aria-hidden="true">
        {(["halo", "ink"] as const).map((stroke) => (
          <g key={stroke} className={stroke}>
            {drawn.map(({ shown, spots }, i) => (
              <path key={shown.measure.id} d={`${pathOf(shown, spots)}${leaderOf(anchorOf(spots), labels[i]!)}`} />
            ))}
          </g>
        ))}
        <path className="end" d={drawn.flatMap(({ spots }) => spots.map(dotAt)).join("")} />
        <path className="picked" d={ringsAt(picks.filter(({ isHover }) => !isHover))} />
        <path className="hover" d={ringsAt(picks.filter(({ isHover }) => isHover))} />
      </svg>
      {drawn.map(({ shown, text }, i) => (
        <div key={shown.measure.id} className="measure-label" style={{ left: labels[i]!.x, top: labels[i]!.y }}>
          <small>{shown.measure.id}</small> <b className="tabular">{text.value}</b>
        </div>
      ))}
      <HoverLabel spot={picks.find(({ isHover }) => isHover)?.spot} />
    </div>
  );
}

/** What a press would pick, beside the pointer. */
function HoverLabel({ spot }: { spot: ProjectedPoint | undefined }) {
  const hover = useMeasuring((state) => state.hover);
  const document = useApp((state) => state.document);
  if (!hover || !spot?.visible) return null;
  const text = pickedText(hover, document);
  return (
    <div className="measure-hover" style={{ left: spot.x + 14, top: spot.y + 12 }}>
      {text}
    </div>
  );
}

export function pickedText(pick: Picked, document: Parameters<typeof spotText>[1]): string {
  if (pick.what === "spot") return spotText(pick.spot, document);
  return pick.what === "line" ? lineText(pick.line, document) : bodyText(pick.body, document);
}

interface Flat {
  readonly x: number;
  readonly y: number;
}

function dotAt({ x, y }: Flat): string {
  return `M${x} ${y}h.01`;
}

function ringsAt(picks: readonly { readonly spot: ProjectedPoint | undefined }[]): string {
  return picks
    .map(({ spot }) => (spot?.visible ? `M${spot.x - 8} ${spot.y}a8 8 0 1 0 16 0a8 8 0 1 0 -16 0` : ""))
    .join("");
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
