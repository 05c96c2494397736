import { CURVE_READINGS, type CurvePoint } from "../check/result.ts";
import type { WheelChange } from "./entry.ts";

/** Readings at `travel_mm`, straight between the curve's points; null outside the curve, where the corner may not go. */
export function readingsAt(curve: readonly CurvePoint[], travel_mm: number): CurvePoint | null {
  const after = curve.findIndex((point) => point.travel_mm >= travel_mm);
  const upper = curve[after];
  if (upper === undefined) return null;
  if (upper.travel_mm === travel_mm) return upper;
  const lower = curve[after - 1];
  if (lower === undefined) return null;
  const t = (travel_mm - lower.travel_mm) / (upper.travel_mm - lower.travel_mm);
  const between = (name: (typeof CURVE_READINGS)[number]) => {
    const [from, to] = [lower[name], upper[name]];
    return from === null || to === null ? null : from + (to - from) * t;
  };
  return {
    travel_mm,
    ...Object.fromEntries(CURVE_READINGS.map((name) => [name, between(name)])),
  } as unknown as CurvePoint;
}

/** How far each reading runs over the whole curve: largest less smallest. An empty curve gives zeros. */
export function changeThroughTravel(curve: readonly CurvePoint[]): WheelChange {
  const shaft = curve.map((point) => point.shaft_mm);
  return {
    toe_deg: spread(curve.map((point) => point.toe_deg)),
    camber_deg: spread(curve.map((point) => point.camber_deg)),
    halfTrack_mm: spread(curve.map((point) => point.halfTrack_mm)),
    plunge_mm: shaft.every((length) => length !== null) && shaft.length > 0 ? spread(shaft as number[]) : null,
  };
}

function spread(values: readonly number[]): number {
  if (values.length === 0) return 0;
  return Math.max(...values) - Math.min(...values);
}
