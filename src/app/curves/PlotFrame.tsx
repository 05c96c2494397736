import type { ReactNode } from "react";
import { numberText } from "../words/number.ts";
import { roundTicks, type Scale, tickDigits, travelTicks } from "./scale.ts";

/** Room below a plot's field for its figures, above it for the field's edge, and beside it. */
export const PLOT = { top: 6, bottom: 18, left: 4, right: 8 } as const;

/** A figure this near to a side of the plot would run into its neighbour's. */
const FIGURE_CLEAR = 16;

export interface PlotBox {
  readonly width: number;
  readonly height: number;
  readonly across: Scale;
  readonly up: Scale;
}

interface PlotFrameProps {
  readonly box: PlotBox;
  readonly label: string;
  readonly signed: boolean;
  readonly children: ReactNode;
}

/** Field, grid and figures of an upright plot: the value runs across, travel up. */
export function PlotFrame({ box: { width, height, across, up }, label, signed, children }: PlotFrameProps) {
  const foot = height - PLOT.bottom;
  const ticks = roundTicks(across.from, across.to, Math.max(2, Math.floor(width / 40)));
  const digits = tickDigits(ticks);
  const zero = across.from < 0 && across.to > 0;
  return (
    <svg
      className="plot"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={label}
    >
      <rect
        className="field-of-plot"
        x={PLOT.left}
        y={PLOT.top}
        width={width - PLOT.left - PLOT.right}
        height={foot - PLOT.top}
      />
      {travelTicks(up.from, up.to, 8, "mm").map((travel) => (
        <path
          key={travel}
          className={travel === 0 ? "ride-grid" : "grid"}
          d={`M${PLOT.left} ${up(travel)}H${width - PLOT.right}`}
        />
      ))}
      {ticks.map((tick) => (
        <g key={tick}>
          <path className="grid" d={`M${across(tick)} ${PLOT.top}V${foot}`} />
          {across(tick) > FIGURE_CLEAR && across(tick) < width - FIGURE_CLEAR && (
            <text className="tick" x={across(tick)} y={height - 4} textAnchor="middle">
              {numberText(tick, { digits, signed })}
            </text>
          )}
        </g>
      ))}
      {zero && <path className="zero" d={`M${across(0)} ${PLOT.top}V${foot}`} />}
      {children}
    </svg>
  );
}

/** A wheel's travel as a line across the plot, and its reading on it. */
export function LevelLine({ box, travel_mm, dashed }: { box: PlotBox; travel_mm: number; dashed: boolean }) {
  const y = box.up(travel_mm);
  return <path className={dashed ? "level dashed" : "level"} d={`M-8 ${y}H${box.width - 2}`} />;
}

export function Mark({ box, travel_mm, value }: { box: PlotBox; travel_mm: number; value: number }) {
  const x = Math.min(box.width - PLOT.right, Math.max(PLOT.left, box.across(value)));
  return <circle className="reading-mark" cx={x} cy={box.up(travel_mm)} r="4.6" />;
}
