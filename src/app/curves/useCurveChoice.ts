import { create } from "zustand";
import { type CurveId, FIRST_CURVES } from "./curveKinds.ts";

/** Which curves the drawer shows, and how tall it is: kept while the page is open. */
export const useCurveChoice = create(() => ({ shown: FIRST_CURVES as readonly CurveId[], height: 224 }));

export function toggleCurve(id: CurveId): void {
  const { shown } = useCurveChoice.getState();
  useCurveChoice.setState({ shown: shown.includes(id) ? shown.filter((other) => other !== id) : [...shown, id] });
}

/** Shows these curves alone. */
export function showCurves(shown: readonly CurveId[]): void {
  useCurveChoice.setState({ shown });
}

export const DRAWER_REACH = [130, 520] as const;

export function setDrawerHeight(height: number): void {
  useCurveChoice.setState({ height: Math.min(DRAWER_REACH[1], Math.max(DRAWER_REACH[0], Math.round(height))) });
}
