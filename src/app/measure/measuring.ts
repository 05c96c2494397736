import { create } from "zustand";
import type { BodyName, MeasuredLine, NewMeasure, Spot } from "../../scene/measures.ts";
import { withMeasure } from "../../scene/measures.ts";
import { app } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { useTools } from "../tools/toolsStore.ts";

export type MeasureKind = NewMeasure["kind"];

/** What can be picked for a measure. */
export type Picked =
  | { readonly what: "spot"; readonly spot: Spot }
  | { readonly what: "line"; readonly line: MeasuredLine }
  | { readonly what: "body"; readonly body: BodyName };

interface Measuring {
  readonly kind: MeasureKind;
  /** Picked so far, in order. */
  readonly picks: readonly Picked[];
  /** What a press would pick where the pointer is. */
  readonly hover: Picked | null;
  /** Why the last press picked nothing. */
  readonly refusal: string | null;
}

/** A measure on its way; neither saved nor undone. */
export const useMeasuring = create<Measuring>()(() => ({ kind: "distance", picks: [], hover: null, refusal: null }));

export const PICKS: Readonly<Record<MeasureKind, number>> = { distance: 2, angle: 3, lines: 2, gap: 2 };

export function isMeasuring(): boolean {
  return useTools.getState().open === "measure";
}

export function chooseKind(kind: MeasureKind): void {
  useMeasuring.setState({ kind, picks: [], hover: null, refusal: null });
}

/** Takes the last pick back; false where there is none. */
export function takeBack(): boolean {
  const { picks } = useMeasuring.getState();
  if (picks.length === 0) return false;
  useMeasuring.setState({ picks: picks.slice(0, -1), refusal: null });
  return true;
}

/** One pick more; the last one pins the measure as a step of the document. */
export function addPick(picked: Picked): void {
  const { kind, picks } = useMeasuring.getState();
  const last = picks.at(-1);
  if (last && JSON.stringify(last) === JSON.stringify(picked)) {
    useMeasuring.setState({ refusal: t("measure.samePlace") });
    return;
  }
  const all = [...picks, picked];
  if (all.length < PICKS[kind]) {
    useMeasuring.setState({ picks: all, refusal: null });
    return;
  }
  useMeasuring.setState({ picks: [], hover: null, refusal: null });
  const measure = measureOf(kind, all);
  if (measure) app.getState().editAside(t(`measure.steps.pin.${kind}`), (document) => withMeasure(document, measure));
}

function measureOf(kind: MeasureKind, picks: readonly Picked[]): NewMeasure | null {
  const spots = picks.flatMap((pick) => (pick.what === "spot" ? [pick.spot] : []));
  const lines = picks.flatMap((pick) => (pick.what === "line" ? [pick.line] : []));
  const bodies = picks.flatMap((pick) => (pick.what === "body" ? [pick.body] : []));
  const [first, second, third] = spots;
  if (kind === "distance" && first && second) return { kind, from: first, to: second };
  if (kind === "angle" && first && second && third) return { kind, from: first, at: second, to: third };
  if (kind === "lines" && lines[0] && lines[1]) return { kind, a: lines[0], b: lines[1] };
  if (kind === "gap" && bodies[0] && bodies[1]) return { kind, a: bodies[0], b: bodies[1] };
  return null;
}

// what was picked belongs to the car that was open, and to the open tool
app.subscribe((state, before) => {
  if (state.fileName !== before.fileName) useMeasuring.setState({ picks: [], hover: null, refusal: null });
});
useTools.subscribe(({ open }) => {
  if (open !== "measure") useMeasuring.setState({ picks: [], hover: null, refusal: null });
});
