import "./measure.css";
import { useProjected } from "../corner/projected.ts";
import { useApp } from "../store/useApp.ts";
import type { ProjectedPoint } from "../viewport/marks.ts";
import { drawnMeasures } from "./drawnMeasures.ts";
import { bodyText, lineText, spotText } from "./measureWords.ts";
import { type Picked, useMeasuring } from "./measuring.ts";
import type { MeasureView } from "./useMeasureView.ts";

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
  const { drawn, used } = drawnMeasures(view.measures, projected.slice(offset), unit, width, height);
  const picks = view.picked.map((pick, i) => ({ ...pick, spot: projected[offset + used + i] }));
  return (
    <div className="measure-marks">
      <svg aria-hidden="true">
        {(["halo", "ink"] as const).map((stroke) => (
          <g key={stroke} className={stroke}>
            {drawn.map(({ id, path }) => (
              <path key={id} d={path} />
            ))}
          </g>
        ))}
        <path className="end" d={drawn.flatMap(({ spots }) => spots.map(dotAt)).join("")} />
        <path className="picked" d={ringsAt(picks.filter(({ isHover }) => !isHover))} />
        <path className="hover" d={ringsAt(picks.filter(({ isHover }) => isHover))} />
      </svg>
      {drawn.map(({ id, value, label }) => (
        <div key={id} className="measure-label" style={{ left: label.x, top: label.y }}>
          <small>{id}</small> <b className="tabular">{value}</b>
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

function dotAt({ x, y }: ProjectedPoint): string {
  return `M${x} ${y}h.01`;
}

function ringsAt(picks: readonly { readonly spot: ProjectedPoint | undefined }[]): string {
  return picks
    .map(({ spot }) => (spot?.visible ? `M${spot.x - 8} ${spot.y}a8 8 0 1 0 16 0a8 8 0 1 0 -16 0` : ""))
    .join("");
}
