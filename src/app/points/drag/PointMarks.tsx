import { useEffect } from "react";
import { triangleRuns } from "../../../geometry/triangleRuns.ts";
import { useProjected } from "../../corner/projected.ts";
import { viewHandle } from "../../shell/viewHandle.ts";
import { app, useApp } from "../../store/useApp.ts";
import { t } from "../../text/text.ts";
import { lengthNumber, lengthText } from "../../words/number.ts";
import { usePointsLook } from "../pointsStore.ts";
import { DIRECTIONS, type Direction, datumOf, holdPointOf, readPlace, tryCoordinate } from "../usePointMove.ts";
import { DragTag } from "./DragTag.tsx";
import { GRIDS_mm, useDrag } from "./dragStore.ts";
import { armsOf, isPullable } from "./pointGrabs.ts";
import type { PointMark } from "./pointMarks.ts";
import "./drag.css";

const SLICE_ms = 3;
const SLICE_PAUSE_ms = 20;

interface PointMarksProps {
  readonly marks: readonly PointMark[];
  /** Where they begin among the projected points. */
  readonly offset: number;
  readonly width: number;
  readonly height: number;
}

/**
 * The hard points over the picture; the held one with three arms to pull it by. Pointers reach them through the view's
 * gestures, so that all of the picture stays free to be turned; here they are for the eye and the keyboard.
 */
export function PointMarks({ marks, offset, width, height }: PointMarksProps) {
  const projected = useProjected((state) => state.points);
  const heldPoint = useApp((state) => state.heldPoint);
  const isTried = useApp((state) => state.tried?.point === state.heldPoint && state.tried !== null);
  useReadySurfaces();
  const spots = marks.map((mark, i) => ({ mark, spot: projected[offset + i] }));
  const held = spots.find(({ mark }) => mark.info.name === heldPoint);
  return (
    <>
      <div className="point-marks">
        <svg aria-hidden="true">
          {spots.map(
            ({ mark, spot }) =>
              spot?.visible &&
              mark !== held?.mark && <circle key={mark.info.name} className="mark" cx={spot.x} cy={spot.y} r="6" />,
          )}
        </svg>
        {spots.map(
          ({ mark, spot }) =>
            spot?.visible &&
            mark !== held?.mark && (
              <button
                key={mark.info.name}
                type="button"
                className="mark-button"
                style={{ left: spot.x, top: spot.y }}
                aria-label={mark.info.title}
                onClick={() => holdPointOf(mark.info)}
              >
                <span aria-hidden="true">{mark.info.title}</span>
              </button>
            ),
        )}
        {held?.spot?.visible && <HeldMark mark={held.mark} spot={held.spot} />}
      </div>
      {held?.spot?.visible && isTried && <DragTag mark={held.mark} spot={held.spot} width={width} height={height} />}
    </>
  );
}

/** A moment's work at a time, while nothing is dragged yet: boxes round the triangles that a drag will ask. */
function useReadySurfaces(): void {
  const bodies = useApp((state) => state.bodies);
  useEffect(() => {
    const waiting = bodies.map(({ solid }) => solid);
    let timer = setTimeout(work, SLICE_PAUSE_ms);
    function work(): void {
      const until = performance.now() + SLICE_ms;
      while (waiting.length > 0 && performance.now() < until) triangleRuns(waiting.pop()!);
      if (waiting.length > 0) timer = setTimeout(work, SLICE_PAUSE_ms);
    }
    return () => clearTimeout(timer);
  }, [bodies]);
}

function HeldMark({ mark, spot }: { mark: PointMark; spot: { readonly x: number; readonly y: number } }) {
  const live = useDrag((drag) => drag.live);
  const free = useDrag((drag) => drag.free);
  // redrawn when the datum turns
  usePointsLook((look) => look.datumId);
  const sight = viewHandle.current?.sight();
  if (!sight) return null;
  const ends = armsOf(mark, sight);
  const open = live?.free ?? free;
  return (
    <>
      <svg className="held-mark" aria-hidden="true">
        {DIRECTIONS.map((direction) => {
          const end = sight.project(ends[direction]);
          const [dx, dy] = [end.x - spot.x, end.y - spot.y];
          const long = Math.hypot(dx, dy) || 1;
          const [tx, ty] = [end.x + (dx / long) * 16, end.y + (dy / long) * 16];
          const path = `M${spot.x} ${spot.y}L${end.x} ${end.y}`;
          return (
            isPullable(mark, ends[direction], sight) && (
              <g key={direction} className="arm" data-free={open.has(direction)}>
                <path className="halo" d={path} />
                <path className="ink" d={path} />
                <circle cx={end.x} cy={end.y} r="8" />
                <text x={tx} y={ty + 5} textAnchor={dx > 8 ? "start" : dx < -8 ? "end" : "middle"}>
                  {t(`points.directions.${direction}`)}
                </text>
              </g>
            )
          );
        })}
        <circle className="held" cx={spot.x} cy={spot.y} r="10" />
        <circle className="held-dot" cx={spot.x} cy={spot.y} r="2.5" />
      </svg>
      {DIRECTIONS.map((direction) => (
        <ArmSlider key={direction} mark={mark} direction={direction} spot={sight.project(ends[direction])} />
      ))}
    </>
  );
}

interface ArmSliderProps {
  readonly mark: PointMark;
  readonly direction: Direction;
  readonly spot: { readonly x: number; readonly y: number };
}

const MORE = ["ArrowUp", "ArrowRight"];
const LESS = ["ArrowDown", "ArrowLeft"];

/** An arm for the keyboard: arrow keys move the point along it by the grid's step, with Shift by ten. */
function ArmSlider({ mark, direction, spot }: ArmSliderProps) {
  const unit = useApp((state) => state.unit);
  const datum = datumOf(
    useApp((state) => state.scene),
    usePointsLook((look) => look.datumId),
  );
  const tried = useApp((state) => (state.tried?.point === mark.info.name ? state.tried : null));
  const elsewhere = useApp((state) => state.triedEdit !== null || (state.tried !== null && tried === null));
  const grid = useDrag((drag) => drag.grid);
  const value_mm = readPlace(tried?.to ?? mark.info.place, datum)[direction];
  const press = (event: React.KeyboardEvent) => {
    const way = MORE.includes(event.key) ? 1 : LESS.includes(event.key) ? -1 : 0;
    if (way === 0 || elsewhere) return;
    event.preventDefault();
    event.stopPropagation();
    const step_mm = GRIDS_mm[unit][grid || 1]! * (event.shiftKey ? 10 : 1);
    tryCoordinate(mark.info, direction, value_mm + way * step_mm);
  };
  return (
    <div
      role="slider"
      tabIndex={0}
      className="arm-slider"
      style={{ left: spot.x, top: spot.y }}
      aria-label={t(`points.drag.arms.${direction}`, { point: mark.info.title })}
      aria-disabled={elsewhere}
      aria-valuenow={Number(lengthNumber(value_mm, unit).replace("−", "-"))}
      aria-valuetext={lengthText(value_mm, unit)}
      onKeyDown={press}
      onKeyUp={(event) => event.key === "Escape" && app.getState().putBack()}
    />
  );
}
