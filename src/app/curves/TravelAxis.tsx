import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { MM_PER_INCH } from "../words/number.ts";
import { PLOT } from "./PlotFrame.tsx";
import { type Scale, travelTicks } from "./scale.ts";

const WIDTH = 64;

/** The upright travel axis that all curves share, drawn as the rule's end. */
export function TravelAxis({
  height,
  up,
  unit,
  travel_mm,
}: {
  height: number;
  up: Scale;
  unit: Unit;
  travel_mm: number;
}) {
  const size = unit === "in" ? MM_PER_INCH : 1;
  const ticks = travelTicks(up.from / size, up.to / size, Math.max(2, height / 28), unit);
  const middle = (from: number, to: number): number => (up(from) + up(to)) / 2;
  return (
    <svg className="travel-axis" width={WIDTH} height={height} viewBox={`0 0 ${WIDTH} ${height}`} aria-hidden="true">
      <rect className="axis-steel" x="22" y={PLOT.top} width="42" height={height - PLOT.top - PLOT.bottom} />
      {ticks.map((tick) => (
        <g key={tick}>
          <path className="axis-line" d={`M64 ${up(tick * size)}h-10`} />
          {Math.abs(up(tick * size) - up(travel_mm)) > 8 &&
            up(tick * size) > PLOT.top + 6 &&
            up(tick * size) < height - PLOT.bottom - 5 && (
              <text className="axis-figure" x="50" y={up(tick * size)} dy="0.36em" textAnchor="end">
                {Math.abs(Number(tick.toFixed(2)))}
              </text>
            )}
        </g>
      ))}
      {height > 110 && up.to > 0 && <AxisWord y={middle(0, up.to)} word={t("curves.axis.bump")} />}
      {height > 110 && up.from < 0 && <AxisWord y={middle(up.from, 0)} word={t("curves.axis.droop")} />}
      <path className="level" d={`M22 ${up(travel_mm)}H${WIDTH}`} />
    </svg>
  );
}

function AxisWord({ y, word }: { y: number; word: string }) {
  return (
    <text className="tick" transform={`translate(14 ${y}) rotate(-90)`} textAnchor="middle">
      {word}
    </text>
  );
}
