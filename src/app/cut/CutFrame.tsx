import "./cut.css";
import { useRef } from "react";
import { useProjected } from "../corner/projected.ts";
import { canPull, pullOf } from "../parts/handles.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import type { ProjectedPoint } from "../viewport/marks.ts";
import type { CutPlane } from "./cutPlane.ts";
import { moveTo, useCut } from "./cutStore.ts";
import { offsetText } from "./offsetText.ts";

/** The plane's frame over the picture, with a knob that pulls it along its way where that is not seen end on. */
export function CutFrame({ plane, offset }: { plane: CutPlane; offset: number }) {
  const projected = useProjected((state) => state.points);
  const corners = projected.slice(offset, offset + 4);
  const [knob, step] = [projected[offset + 4], projected[offset + 5]];
  if (corners.length < 4 || !knob || !step) return null;
  return (
    <div className="cut-frame">
      <svg aria-hidden="true">
        <path d={`M${corners.map(({ x, y }) => `${x} ${y}`).join("L")}Z`} />
      </svg>
      {knob.visible && canPull(knob, step) && <Knob plane={plane} at={knob} step={step} />}
    </div>
  );
}

interface Pull {
  readonly x: number;
  readonly y: number;
  readonly at: ProjectedPoint;
  readonly step: ProjectedPoint;
  readonly offset_mm: number;
}

const KEYS: Readonly<Record<string, 1 | -1>> = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1 };

function Knob({ plane, at, step }: { plane: CutPlane; at: ProjectedPoint; step: ProjectedPoint }) {
  const unit = useApp((state) => state.unit);
  const way = useCut((state) => state.way);
  const pull = useRef<Pull | null>(null);
  const { offset_mm, range_mm } = plane;
  const release = () => {
    pull.current = null;
  };
  return (
    <button
      type="button"
      role="slider"
      className="cut-knob"
      style={{ left: at.x, top: at.y }}
      aria-label={t("cut.knob")}
      aria-valuenow={Math.round(offset_mm)}
      aria-valuemin={Math.floor(range_mm[0])}
      aria-valuemax={Math.ceil(range_mm[1])}
      aria-valuetext={way === null ? "" : offsetText(way, offset_mm, unit)}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        pull.current = { x: event.clientX, y: event.clientY, at, step, offset_mm };
      }}
      onPointerMove={(event) => {
        const held = pull.current;
        if (!held) return;
        const by_mm = pullOf(held.at, held.step, { x: event.clientX - held.x, y: event.clientY - held.y });
        moveTo(Math.min(Math.max(Math.round(held.offset_mm + by_mm), range_mm[0]), range_mm[1]));
      }}
      onPointerUp={release}
      onPointerCancel={release}
      onKeyDown={(event) => {
        const by = KEYS[event.key];
        if (by === undefined) return;
        event.preventDefault();
        event.stopPropagation();
        moveTo(Math.round(offset_mm) + by * (event.shiftKey ? 10 : 1));
      }}
    />
  );
}
