import { useMemo } from "react";
import type { Scene, Side } from "../../scene/scene.ts";
import { liveCurve } from "../store/corners.ts";
import { findPair } from "../store/sessionActions.ts";
import type { Unit } from "../store/state.ts";
import { keptScene, shownDocument } from "../store/tried.ts";
import { useApp } from "../store/useApp.ts";
import { axisOf, CurvePlot } from "./CurvePlot.tsx";
import { CURVE_KINDS, type CurveKind, differ, readingsOfCurve } from "./curveKinds.ts";
import { GapPlot } from "./GapPlot.tsx";
import type { Reading } from "./linePath.ts";
import { PLOT } from "./PlotFrame.tsx";
import { linearScale } from "./scale.ts";
import { TravelAxis } from "./TravelAxis.tsx";
import { useCurveChoice } from "./useCurveChoice.ts";
import { type MoreCurves, type Needs, useMoreCurves } from "./useMoreCurves.ts";

const AXIS_WIDTH = 64;
const CAPTION_HEIGHT = 24;
/** In plots narrower than this name and value stand below each other. */
const STACKED_WIDTH = 156;
/** The same where the caption tells both wheels. */
const STACKED_WIDTH_OF_TWO = 270;
const STACKED_HEIGHT = 40;
const GAP = 6;
const NARROWEST = 126;

/** The travel axis and the plots in rows as wide as the place. */
export function CurvePlots({ width, height }: { width: number; height: number }) {
  const scene = useApp((state) => state.scene);
  const kept = useApp(keptScene);
  const unit = useApp((state) => state.unit);
  const travel_mm = useApp((state) => state.travel_mm);
  const pair = useApp((state) => (state.chosenPair === null ? null : (findPair(state, state.chosenPair) ?? null)));
  const stale = useApp((state) => state.stale);
  const shown = useCurveChoice((state) => state.shown);
  const kinds = useMemo(() => CURVE_KINDS.filter(({ id }) => shown.includes(id)), [shown]);
  const needs = useMemo(() => needsOf(kinds), [kinds]);
  const shownMore = useMoreCurves(scene, useApp(shownDocument), needs);
  const keptMore = useMoreCurves(
    kept,
    useApp(({ document }) => document),
    needs,
  );
  const curves = useMemo(
    () => kinds.map((kind) => readingsBySide(scene, shownMore, kind, unit)),
    [kinds, scene, shownMore, unit],
  );
  const before = useMemo(
    () => kept && kinds.map((kind) => readingsBySide(kept, keptMore, kind, unit)),
    [kinds, kept, keptMore, unit],
  );
  if (!scene) return null;
  const drawn = kinds.map((kind, i) => ({ kind, readings: curves[i]!, before: before?.[i] ?? null }));
  const present = drawn.filter(({ readings }) => (readings.left ?? readings.right ?? []).length > 0);
  const room = width - AXIS_WIDTH;
  const columns = Math.max(1, Math.min(present.length + 1, Math.floor(room / (NARROWEST + GAP))));
  const rows = Math.ceil((present.length + 1) / columns);
  const plotWidth = Math.floor(room / columns) - GAP;
  const tellsTwo =
    scene.sides.length === 2 && (travel_mm.left !== travel_mm.right || present.some((each) => isUneven(each, unit)));
  const stacked = plotWidth < (tellsTwo ? STACKED_WIDTH_OF_TWO : STACKED_WIDTH);
  const captionHeight = stacked ? STACKED_HEIGHT : CAPTION_HEIGHT;
  const plotHeight = Math.max(96, Math.floor(height / Math.min(rows, height > 300 ? 2 : 1)) - captionHeight);
  const up = linearScale(-scene.travel.droop_mm, scene.travel.bump_mm, plotHeight - PLOT.bottom, PLOT.top);
  const shared = { unit, width: plotWidth, height: plotHeight, up, travel_mm };
  const plots = [
    <GapPlot key="gap" {...shared} pair={pair} stale={stale} />,
    ...present.map(({ kind, readings, before: earlier }) => (
      <CurvePlot key={kind.id} {...shared} kind={kind} readings={readings} before={earlier} />
    )),
  ];
  return Array.from({ length: rows }, (_, row) => (
    <div className={stacked ? "curve-row stacked" : "curve-row"} key={plots[row * columns]!.key}>
      <TravelAxis height={plotHeight} up={up} unit={unit} travel_mm={travel_mm[scene.sides[0]!]} />
      {plots.slice(row * columns, (row + 1) * columns)}
    </div>
  ));
}

interface Drawn {
  readonly kind: CurveKind;
  readonly readings: Readonly<Partial<Record<Side, readonly Reading[]>>>;
}

/** Whether the two sides' lines can be told apart. */
function isUneven({ kind, readings: { left, right } }: Drawn, unit: Unit): boolean {
  if (!left || !right) return false;
  const [from, to] = axisOf(kind, unit, [left, right]);
  return differ(left, right, to - from);
}

function readingsBySide(
  scene: Scene | null,
  { derivatives, spring }: MoreCurves,
  kind: CurveKind,
  unit: Unit,
): Partial<Record<Side, readonly Reading[]>> {
  const bySide: Partial<Record<Side, readonly Reading[]>> = {};
  for (const side of scene?.sides ?? []) {
    const data = { curve: liveCurve(scene!, side), derivatives, spring: spring[side] };
    bySide[side] = readingsOfCurve(data, kind, unit);
  }
  return bySide;
}

function needsOf(kinds: readonly CurveKind[]): Needs {
  return {
    derivatives: kinds.some(({ from }) => from === "derivatives"),
    spring: kinds.some(({ from }) => from === "spring" || from === "bar"),
  };
}
