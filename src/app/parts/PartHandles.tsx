import { useMemo, useRef, useState } from "react";
import type { Pose } from "../../maths/pose.ts";
import { scale, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { MM_PER_INCH } from "../../scene/length.ts";
import { useProjected } from "../corner/projected.ts";
import { usePointsLook } from "../points/pointsStore.ts";
import { pace } from "../store/pace.ts";
import type { Unit } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import type { ProjectedPoint } from "../viewport/marks.ts";
import { lengthText } from "../words/number.ts";
import { canPull, type Handle, handlesOf, marksOf, partInHand, pullOf } from "./handles.ts";
import { draftOf, tryShift, tryValues, usePartDraft } from "./partDraft.ts";
import "./parts.css";

const NONE: readonly Handle[] = [];

/** The handles of the part in hand, while parts are looked at. */
export function useHandles(poses: ReadonlyMap<string, Pose>): { handles: readonly Handle[]; marks: readonly Vec3[] } {
  const document = useApp((state) => (state.document && state.triedEdit ? state.triedEdit.document : state.document));
  const held = useApp((state) => (state.place === "points" && state.heldPoint === null ? state.heldPart : null));
  const isParts = usePointsLook((look) => look.list === "parts");
  const bodies = useApp((state) => state.bodies);
  const handles = useMemo(() => {
    if (!document || held === null || !isParts) return NONE;
    const part = partInHand(document, held);
    return part ? handlesOf(document, part, bodies, poses) : NONE;
  }, [document, held, isParts, bodies, poses]);
  const marks = useMemo(() => marksOf(handles), [handles]);
  return { handles, marks };
}

interface PartHandlesProps {
  readonly handles: readonly Handle[];
  /** Which of the projected points is the first handle's. */
  readonly firstMark: number;
}

/** Knobs over the view: pulled along their way they change a size or move the part. Arrow keys do the same by steps. */
export function PartHandles({ handles, firstMark }: PartHandlesProps) {
  const points = useProjected((state) => state.points);
  const placed = apartFromEachOther(
    handles.flatMap((handle, i) => {
      const [at, step] = [points[firstMark + 2 * i], points[firstMark + 2 * i + 1]];
      return at?.visible && step && canPull(at, step) ? [{ handle, at, step }] : [];
    }),
  );
  if (placed.length === 0) return null;
  return (
    <div className="part-handles">
      <svg aria-hidden="true">
        {(["halo", "line"] as const).map((stroke) =>
          placed.map(({ handle, at, step }) => (
            <path key={`${stroke}-${handle.key}`} className={stroke} d={strokeOf(at, step)} />
          )),
        )}
      </svg>
      {placed.map(({ handle, at, step }) => (
        <Knob key={handle.key} handle={handle} at={at} step={step} />
      ))}
    </div>
  );
}

/** Nearer to each other than this, two knobs cannot be told apart by a finger: the later one waits until the eye comes nearer. */
const APART_px = 30;

function apartFromEachOther<Placed extends { readonly at: ProjectedPoint }>(placed: readonly Placed[]): Placed[] {
  const kept: Placed[] = [];
  for (const knob of placed) {
    if (kept.every(({ at }) => Math.hypot(at.x - knob.at.x, at.y - knob.at.y) >= APART_px)) kept.push(knob);
  }
  return kept;
}

/** A short stroke either way along which the knob goes. */
function strokeOf(at: ProjectedPoint, step: ProjectedPoint): string {
  const [dx, dy] = [step.x - at.x, step.y - at.y];
  const size = Math.hypot(dx, dy) || 1;
  const [ux, uy] = [(dx / size) * 22, (dy / size) * 22];
  return `M${at.x - ux} ${at.y - uy}L${at.x + ux} ${at.y + uy}`;
}

interface Pull {
  readonly x: number;
  readonly y: number;
  readonly at: ProjectedPoint;
  readonly step: ProjectedPoint;
  readonly handle: Handle;
  readonly size_mm: number;
  /** What the pull has come to, mm. */
  done_mm: number;
}

function Knob({ handle, at, step }: { handle: Handle; at: ProjectedPoint; step: ProjectedPoint }) {
  const unit = useApp((state) => state.unit);
  const pull = useRef<Pull | null>(null);
  const [pulled, setPulled] = useState(false);
  const size_mm = sizeNow(handle);
  const grain_mm = grainOf(unit);
  const move = (event: React.PointerEvent) => {
    const held = pull.current;
    if (!held) return;
    pace.beginPull();
    const raw_mm = pullOf(held.at, held.step, { x: event.clientX - held.x, y: event.clientY - held.y });
    if (held.handle.kind === "size") {
      setSize(held.handle, rounded(held.size_mm + raw_mm * held.handle.perPull, grain_mm));
      return;
    }
    const wanted_mm = rounded(raw_mm, grain_mm);
    shift(held.handle, wanted_mm - held.done_mm);
    held.done_mm = wanted_mm;
  };
  const release = () => {
    pull.current = null;
    setPulled(false);
  };
  return (
    <button
      type="button"
      role="slider"
      className="part-handle"
      data-kind={handle.kind}
      data-pulled={pulled}
      aria-label={handle.label}
      aria-valuenow={Math.round(size_mm * 10) / 10}
      aria-valuetext={lengthText(size_mm, unit)}
      style={{ left: at.x, top: at.y }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        pull.current = { x: event.clientX, y: event.clientY, at, step, handle, size_mm, done_mm: 0 };
        setPulled(true);
      }}
      onPointerMove={move}
      onPointerUp={release}
      onPointerCancel={release}
      onKeyDown={(event) => {
        const by = KEYS[event.key];
        if (by === undefined) return;
        event.preventDefault();
        event.stopPropagation();
        if (handle.kind === "size") setSize(handle, rounded(size_mm + by * grain_mm, grain_mm));
        else shift(handle, by * grain_mm);
      }}
    >
      <span>
        {handle.label}
        {handle.kind === "size" && ` ${lengthText(size_mm, unit)}`}
      </span>
    </button>
  );
}

const KEYS: Readonly<Record<string, 1 | -1>> = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1 };

/** Pulls come to whole millimetres, or thirty-seconds of an inch. */
function grainOf(unit: Unit): number {
  return unit === "in" ? MM_PER_INCH / 32 : 1;
}

function rounded(mm: number, grain_mm: number): number {
  return Math.round(Math.round(mm / grain_mm) * grain_mm * 1e6) / 1e6;
}

function inHand(): { document: SceneDocument; part: string } | null {
  const { document, heldPart } = app.getState();
  const part = document && heldPart !== null ? partInHand(document, heldPart) : null;
  return document && part ? { document, part: part.id } : null;
}

function sizeNow(handle: Handle): number {
  const held = inHand();
  const value = held && draftOf(usePartDraft.getState(), held.document, held.part).values?.[handle.key];
  return typeof value === "number" ? value : 0;
}

function setSize(handle: Handle, size_mm: number): void {
  const held = inHand();
  const values = held && draftOf(usePartDraft.getState(), held.document, held.part).values;
  if (held && values && size_mm > 0 && values[handle.key] !== size_mm) {
    tryValues(held.part, { ...values, [handle.key]: size_mm });
  }
}

function shift(handle: Handle, by_mm: number): void {
  const held = inHand();
  if (held && by_mm !== 0) tryShift(held.part, scale(handle.way, by_mm));
}
