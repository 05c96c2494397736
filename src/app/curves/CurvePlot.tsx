import type { Side } from "../../scene/scene.ts";
import type { Unit } from "../store/state.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { axisRange, type CurveKind, differ, sizeOf, valueText } from "./curveKinds.ts";
import { Definition } from "./Definition.tsx";
import { linePath, type Reading, valueAt } from "./linePath.ts";
import { LevelLine, Mark, PLOT, type PlotBox, PlotFrame } from "./PlotFrame.tsx";
import { linearScale, type Scale } from "./scale.ts";

interface CurvePlotProps {
  readonly kind: CurveKind;
  readonly unit: Unit;
  readonly width: number;
  readonly height: number;
  readonly up: Scale;
  readonly readings: Readonly<Partial<Record<Side, readonly Reading[]>>>;
  /** The kept document's readings while a move is tried. */
  readonly before: Readonly<Partial<Record<Side, readonly Reading[]>>> | null;
  readonly travel_mm: Readonly<Record<Side, number>>;
}

const NONE: readonly Reading[] = [];

/** Range of the axis that holds all these lines. */
export function axisOf(kind: CurveKind, unit: Unit, lines: readonly (readonly Reading[])[]): readonly [number, number] {
  const leastSpan = kind.leastSpan / sizeOf(kind.measure, unit);
  return axisRange(
    lines.flatMap((line) => line.map(({ value }) => value)),
    leastSpan,
  );
}

/** One reading of the wheel over its travel: left solid, right dashed where it differs. */
export function CurvePlot({ kind, unit, width, height, up, readings, before, travel_mm }: CurvePlotProps) {
  const left = readings.left ?? readings.right ?? NONE;
  const right = readings.right ?? NONE;
  const ghost = before?.left ?? before?.right ?? NONE;
  const [from, to] = axisOf(kind, unit, [left, right, ghost]);
  const box: PlotBox = { width, height, up, across: linearScale(from, to, PLOT.left, width - PLOT.right) };
  const path = (line: readonly Reading[]): string =>
    linePath(line.map(({ travel_mm: travel, value }) => [box.across(value), up(travel)]));
  const twoLines = right.length > 0 && differ(left, right, to - from);
  const leftTravel = readings.left ? travel_mm.left : travel_mm.right;
  const opposed = readings.left !== undefined && right.length > 0 && travel_mm.left !== travel_mm.right;
  const now = valueAt(left, leftTravel);
  const nowRight = right.length > 0 && (twoLines || opposed) ? valueAt(right, travel_mm.right) : null;
  const text = (value: number | null): string =>
    value === null ? "–" : valueText(value, kind, unit, nowRight === null);
  const named = { name: kind.name, meaning: kind.meaning };
  const label =
    nowRight === null
      ? t("curves.reading.one", { ...named, value: text(now) })
      : t("curves.reading.two", { ...named, left: text(now), right: text(nowRight) });
  if (left.length === 0) return null;
  return (
    <figure className="curve" style={{ width }}>
      <figcaption>
        <Definition kind={kind} />
        {nowRight === null ? (
          <b className="tabular">{text(now)}</b>
        ) : (
          <b className="tabular">
            <Rich text={t("curves.reading.both", { left: text(now), right: text(nowRight) })} />
          </b>
        )}
      </figcaption>
      <PlotFrame box={box} label={label} signed={kind.signed}>
        {ghost.length > 0 && <path className="ghost-line" d={path(ghost)} />}
        <path className={before ? "curve-line tried" : "curve-line"} d={path(left)} />
        {twoLines && <path className="curve-line right" d={path(right)} />}
        <LevelLine box={box} travel_mm={leftTravel} dashed={false} />
        {opposed && <LevelLine box={box} travel_mm={travel_mm.right} dashed />}
        {now !== null && <Mark box={box} travel_mm={leftTravel} value={now} />}
        {nowRight !== null && <Mark box={box} travel_mm={travel_mm.right} value={nowRight} />}
      </PlotFrame>
    </figure>
  );
}
