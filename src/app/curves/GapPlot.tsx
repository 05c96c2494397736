import type { PairVerdict } from "../../check/result.ts";
import type { Side } from "../../scene/scene.ts";
import { readingsOf } from "../rule/bands.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { lengthText, MM_PER_INCH } from "../words/number.ts";
import { linePath, type Reading, runsBelow, type Spot, valueAt } from "./linePath.ts";
import { LevelLine, Mark, PLOT, type PlotBox, PlotFrame } from "./PlotFrame.tsx";
import { linearScale, type Scale } from "./scale.ts";

interface GapPlotProps {
  readonly pair: PairVerdict | null;
  readonly unit: Unit;
  readonly width: number;
  readonly height: number;
  readonly up: Scale;
  readonly travel_mm: Readonly<Record<Side, number>>;
  readonly stale: boolean;
}

/** Height of the line that asks for a verdict: at the top, or below where the level would strike it through. */
export function clearOf(level: number, foot: number): number {
  const top = PLOT.top + 18;
  return Math.abs(level - (top - 4)) < 14 ? Math.min(foot - 8, top + 28) : top;
}

/** The chosen pair's gap over the travel, engine in the pair's worst pose. */
export function GapPlot({ pair, unit, width, height, up, travel_mm, stale }: GapPlotProps) {
  const size = unit === "in" ? MM_PER_INCH : 1;
  const wanted = Math.max(pair?.required_mm ?? 10, 1) / size;
  const readings = pair ? readingsOf(pair).map((reading) => ({ ...reading, value: reading.value / size })) : [];
  const low = Math.min(-wanted, ...readings.map(({ value }) => value * 1.1));
  const high = Math.max(2 * wanted, Math.min(4 * wanted, ...readings.map(({ value }) => value + wanted)));
  const across = linearScale(low, high, PLOT.left, width - PLOT.right);
  const box: PlotBox = { width, height, across, up };
  const at_mm = travel_mm[pair?.side === "right" ? "right" : "left"];
  const now = valueAt(readings, at_mm);
  const spot = ({ travel_mm: travel, value }: Reading): Spot => [
    across(Math.min(high, Math.max(low, value))),
    up(travel),
  ];
  const foot = height - PLOT.bottom;
  const text = now === null ? "" : lengthText(now * size, unit);
  return (
    <figure className={stale ? "curve stale" : "curve"} style={{ width }}>
      <figcaption title={t("curves.gap.meaning")}>
        <span>{t("curves.gap.name")}</span>
        <b className="tabular">{text}</b>
      </figcaption>
      <PlotFrame box={box} label={pair ? t("curves.gap.reading", { value: text }) : t("curves.gap.none")} signed>
        {pair ? (
          <>
            <rect
              className="wanted"
              x={across(0)}
              y={PLOT.top}
              width={across(wanted) - across(0)}
              height={foot - PLOT.top}
            />
            {runsBelow(readings, 0).map((run) => (
              <path
                key={run[0]!.travel_mm}
                fill="url(#pattern-clash)"
                d={`${linePath([[across(0), up(run[0]!.travel_mm)], ...run.map(spot), [across(0), up(run.at(-1)!.travel_mm)]])}Z`}
              />
            ))}
            <path className="wanted-edge" d={`M${across(wanted)} ${PLOT.top}V${foot}`} />
            <path className="curve-line" d={linePath(readings.map(spot))} />
            <LevelLine box={box} travel_mm={at_mm} dashed={false} />
            {now !== null && <Mark box={box} travel_mm={at_mm} value={Math.min(high, Math.max(low, now))} />}
          </>
        ) : (
          <>
            <LevelLine box={box} travel_mm={at_mm} dashed={false} />
            <text className="tick" x={width / 2} y={clearOf(up(at_mm), foot)} textAnchor="middle">
              {t("curves.gap.choose")}
            </text>
          </>
        )}
      </PlotFrame>
    </figure>
  );
}
