import { useEffect, useId, useLayoutEffect, useMemo, useRef } from "react";
import type { Scene } from "../../scene/scene.ts";
import { Choices } from "../shell/Choices.tsx";
import { useLayout } from "../shell/useLayout.ts";
import { useSize } from "../shell/useSize.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { boxOf, drawSlice, HIGHEST, placeUnder, type SliceBox, type SliceColours, spotOf } from "./drawSlice.ts";
import { lookAtPlace } from "./roomActions.ts";
import { AXES, type Way } from "./roomForm.ts";
import { type RoomRun, useRoom } from "./roomStore.ts";
import { type ComingMap, gridOf, homeOf, type Slice, sliceOf, stepFrom } from "./roomTold.ts";
import { alongText, verdictText } from "./roomWords.ts";

interface SliceProps {
  readonly map: ComingMap;
  readonly run: RoomRun;
  readonly scene: Scene;
}

/** A slice of the map, a slider for each direction, and what is told of the place that is looked at or pointed at. */
export function RoomSlice({ map, run, scene }: SliceProps) {
  const { ways } = run;
  const chosen = useRoom((look) => look.place);
  const pointed = useRoom((look) => look.pointed);
  const through = useRoom((look) => (ways.length === 3 ? look.through : -1));
  const unit = useApp((state) => state.unit);
  const verdictId = useId();
  const grid = gridOf(map);
  const place = chosen ?? homeOf(grid);
  const slice = useMemo(() => sliceOf(grid, ways, through, place), [grid, ways, through, place]);
  const told = pointed ?? chosen;
  return (
    <section className="room-slices" aria-label={t("room.slice.title")}>
      <div className="room-line">
        <h2>{t("room.slice.title")}</h2>
        {ways.length === 3 && (
          <Choices
            label={t("room.slice.through")}
            options={ways.map((way, span) => ({ value: String(span), name: t(`room.slice.ways.${way}`) }))}
            value={String(through)}
            onChoose={(span) => useRoom.setState({ through: Number(span) })}
          />
        )}
      </div>
      <p className="tool-note">{t(`room.slice.seen.${seenOf(ways, through)}`)}</p>
      <Plot map={map} ways={ways} through={through} slice={slice} place={place} verdictId={verdictId} />
      <p className="room-verdict" id={verdictId} role="status">
        {told === null ? "" : verdictText(map, run.question.limits, told, scene, unit)}
      </p>
      {ways.map((way, span) => (
        <WaySlider key={way} map={map} way={way} span={span} place={place} isThrough={span === through} />
      ))}
    </section>
  );
}

/** What is looked along. */
function seenOf(ways: readonly Way[], through: number): "forward" | "out" | "up" | "line" {
  if (ways.length === 1) return "line";
  const other = ways.length === 3 ? ways[through] : AXES.find((axis) => !ways.includes(axis));
  return other === "part" || other === undefined ? "out" : other;
}

interface PlotProps {
  readonly map: ComingMap;
  readonly ways: readonly Way[];
  readonly through: number;
  readonly slice: Slice;
  readonly place: number;
  readonly verdictId: string;
}

function Plot({ map, ways, through, slice, place, verdictId }: PlotProps) {
  const frame = useRef<HTMLDivElement>(null);
  const size = useSize(frame);
  const unit = useApp((state) => state.unit);
  const grid = gridOf(map);
  const highest = HIGHEST[useLayout()];
  const box = boxOf(slice, Math.max(120, size?.width ?? 0), highest);
  const by_mm = (steps: number) => steps * grid.region.step_mm;
  const ends = (span: number) => {
    const way = ways[span]!;
    const first = grid.first[span]!;
    return {
      less: alongText(way, by_mm(first), unit),
      more: alongText(way, by_mm(first + grid.counts[span]! - 1), unit),
    };
  };
  const across = ends(slice.across);
  const up = slice.up < 0 ? null : ends(slice.up);
  const at = through < 0 ? "" : alongText(ways[through]!, by_mm(grid.stepsOf(place)[through]!), unit);
  const press = (event: React.KeyboardEvent) => {
    const step = (span: number, by: number) => {
      event.preventDefault();
      if (span >= 0) lookAtPlace(stepFrom(grid, place, span, event.shiftKey ? 5 * by : by));
    };
    if (event.key === "ArrowLeft") step(slice.across, 1);
    else if (event.key === "ArrowRight") step(slice.across, -1);
    else if (event.key === "ArrowUp") step(slice.up, 1);
    else if (event.key === "ArrowDown") step(slice.up, -1);
    else if (event.key === "PageUp") step(through, 1);
    else if (event.key === "PageDown") step(through, -1);
    else if (event.key === "Home") {
      event.preventDefault();
      lookAtPlace(homeOf(grid));
    }
  };
  const under = (event: React.PointerEvent) => {
    const { left, top } = event.currentTarget.getBoundingClientRect();
    return placeUnder(slice, box, event.clientX - left, event.clientY - top);
  };
  return (
    <div className="room-plot" ref={frame}>
      {up && <span className="room-end">{up.more}</span>}
      {/* a map is walked with the arrow keys, which no plainer role lets through */}
      <div
        className="room-field-of-places"
        role="application"
        aria-roledescription={t("room.slice.map")}
        aria-label={ways.length === 1 ? t("room.slice.lineLabel") : t("room.slice.label", { at })}
        aria-describedby={verdictId}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys act on it
        tabIndex={0}
        style={{ width: box.width, height: box.height }}
        onKeyDown={press}
        onPointerMove={(event) => event.pointerType === "mouse" && point(under(event))}
        onPointerLeave={() => point(null)}
        onPointerDown={(event) => {
          const hit = under(event);
          if (hit !== null) lookAtPlace(hit);
        }}
      >
        <Places map={map} slice={slice} box={box} />
        <Rings map={map} slice={slice} box={box} through={through} place={place} />
      </div>
      <span className="room-ends" style={{ maxWidth: Math.max(260, box.width + 60) }}>
        <span>{across.more}</span>
        {up && <span>{up.less}</span>}
        <span>{across.less}</span>
      </span>
    </div>
  );
}

function point(pointed: number | null): void {
  if (useRoom.getState().pointed !== pointed) useRoom.setState({ pointed });
}

function Places({ map, slice, box }: { map: ComingMap; slice: Slice; box: SliceBox }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const version = useRoom((look) => look.version);
  const level = useRoom((look) => (look.isRunning ? look.level : 0));
  const theme = useApp((state) => state.theme);
  const draw = () => {
    const element = canvas.current;
    const context = element?.getContext("2d");
    if (!element || !context) return;
    const ratio = window.devicePixelRatio || 1;
    element.width = Math.round(box.width * ratio);
    element.height = Math.round(box.height * ratio);
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    drawSlice(context, map, slice, box, level, coloursOf(element));
  };
  const newest = useRef(draw);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the version stands for what the map's lists hold
  useLayoutEffect(() => {
    newest.current = draw;
    draw();
  }, [map, version, level, slice, box.width, box.height]);
  // the page takes the colours of a theme after this is drawn
  // biome-ignore lint/correctness/useExhaustiveDependencies: the theme tells when
  useEffect(() => {
    const frame = requestAnimationFrame(() => newest.current());
    return () => cancelAnimationFrame(frame);
  }, [theme]);
  return (
    <span aria-hidden="true">
      <canvas ref={canvas} style={{ width: box.width, height: box.height }} />
    </span>
  );
}

function coloursOf(element: Element): SliceColours {
  const style = getComputedStyle(element);
  const known = new Map<string, string>();
  return (token) => {
    const colour = known.get(token) ?? style.getPropertyValue(token);
    known.set(token, colour);
    return colour;
  };
}

interface RingsProps {
  readonly map: ComingMap;
  readonly slice: Slice;
  readonly box: SliceBox;
  readonly through: number;
  readonly place: number;
}

/** Where the point is now, and the place that is looked at. */
function Rings({ map, slice, box, through, place }: RingsProps) {
  const chosen = useRoom((look) => look.place);
  const grid = gridOf(map);
  const home = homeOf(grid);
  const isHome = grid.stepsOf(home).every((step) => step === 0);
  const isLevel = through < 0 || grid.stepsOf(home)[through] === grid.stepsOf(place)[through];
  const now = isHome && isLevel ? spotOf(slice, box, home) : null;
  const at = chosen === null ? null : spotOf(slice, box, chosen);
  const r = Math.max(8, box.cell * 0.62);
  return (
    <svg className="room-rings" width={box.width} height={box.height} aria-hidden="true">
      {now && <circle className="room-now" cx={now[0]} cy={now[1]} r={r} />}
      {at && <circle className="room-at" cx={at[0]} cy={at[1]} r={r + 3} />}
    </svg>
  );
}

interface SliderProps {
  readonly map: ComingMap;
  readonly way: Way;
  readonly span: number;
  readonly place: number;
  readonly isThrough: boolean;
}

function WaySlider({ map, way, span, place, isThrough }: SliderProps) {
  const unit = useApp((state) => state.unit);
  const grid = gridOf(map);
  const step = grid.stepsOf(place)[span]!;
  const first = grid.first[span]!;
  const last = first + grid.counts[span]! - 1;
  const text = alongText(way, step * grid.region.step_mm, unit);
  return (
    <label className="room-slider" data-through={isThrough}>
      <span>{t(`room.slice.ways.${way}`)}</span>
      <input
        type="range"
        min={first}
        max={last}
        step={1}
        value={step}
        aria-label={t("room.slice.slider", { way: t(`room.slice.ways.${way}`) })}
        aria-valuetext={text}
        onChange={(event) => lookAtPlace(stepFrom(grid, place, span, Number(event.target.value) - step))}
      />
      <b className="tabular">{text}</b>
    </label>
  );
}
