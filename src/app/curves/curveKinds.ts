import type { CurvePoint } from "../../check/result.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { angleText, lengthNumber, lengthText, MM_PER_INCH, numberText } from "../words/number.ts";
import type { Reading } from "./linePath.ts";

export type CurveId =
  | "toe"
  | "camber"
  | "halfTrack"
  | "plunge"
  | "wheelbaseShift"
  | "rollCentre"
  | "damper"
  | "damperRatio"
  | "shaft"
  | "innerAngle"
  | "outerAngle";

type Measure = "length" | "angle" | "ratio";

/** A curve that the drawer can show. */
export interface CurveKind {
  readonly id: CurveId;
  readonly name: string;
  /** What the number means, where the name alone leaves a doubt. */
  readonly meaning: string;
  readonly measure: Measure;
  readonly signed: boolean;
  /** Smallest span of the axis, so that rounding is not blown up into a curve; mm, degrees or 1. */
  readonly leastSpan: number;
  /** `ride` is the same side's point at ride height. */
  read(point: CurvePoint, ride: CurvePoint): number | null;
}

export const CURVE_KINDS: readonly CurveKind[] = [
  kind("toe", "angle", true, 0.1, (p) => p.toe_deg),
  kind("camber", "angle", true, 0.2, (p) => p.camber_deg),
  kind("halfTrack", "length", false, 2, (p) => p.halfTrack_mm),
  kind("plunge", "length", true, 2, (p, ride) =>
    p.shaft_mm === null || ride.shaft_mm === null ? null : p.shaft_mm - ride.shaft_mm,
  ),
  kind("damperRatio", "ratio", false, 0.1, (p) => p.damperRatio),
  kind("damper", "length", false, 5, (p) => p.damper_mm),
  kind("rollCentre", "length", true, 5, (p) => p.rollCentre_mm),
  kind("wheelbaseShift", "length", true, 2, (p) => p.wheelbaseShift_mm),
  kind("shaft", "length", false, 2, (p) => p.shaft_mm),
  kind("innerAngle", "angle", false, 1, (p) => p.innerAngle_deg),
  kind("outerAngle", "angle", false, 1, (p) => p.outerAngle_deg),
];

export const FIRST_CURVES: readonly CurveId[] = ["toe", "camber", "halfTrack", "plunge"];

function kind(id: CurveId, measure: Measure, signed: boolean, leastSpan: number, read: CurveKind["read"]): CurveKind {
  return { id, name: t(`curves.names.${id}`), meaning: t(`curves.meanings.${id}`), measure, signed, leastSpan, read };
}

/** The curve's readings in the shown unit, travel still in mm; empty where the scene has none. */
export function readingsOfCurve(curve: readonly CurvePoint[], { read, measure }: CurveKind, unit: Unit): Reading[] {
  const ride = curve.find(({ travel_mm }) => travel_mm === 0);
  if (!ride) return [];
  const size = measure === "length" && unit === "in" ? MM_PER_INCH : 1;
  return curve.flatMap((point) => {
    const value = read(point, ride);
    return value === null || !Number.isFinite(value) ? [] : [{ travel_mm: point.travel_mm, value: value / size }];
  });
}

/** A value that is in the shown unit already. */
export function valueText(value: number, { measure, signed }: CurveKind, unit: Unit, withUnit = true): string {
  if (measure === "angle") return angleText(value, { signed });
  if (measure === "ratio") return numberText(value, { digits: 3 });
  const value_mm = unit === "in" ? value * MM_PER_INCH : value;
  return withUnit ? lengthText(value_mm, unit, { signed }) : lengthNumber(value_mm, unit, { signed });
}

/** Whether two sides' readings differ by more than a drawn line's width of the axis. */
export function differ(left: readonly Reading[], right: readonly Reading[], span: number): boolean {
  if (left.length !== right.length) return true;
  return left.some((reading, i) => Math.abs(reading.value - right[i]!.value) > span * 0.004);
}

/** An axis range that holds all values with a little air, never narrower than `leastSpan`. */
export function axisRange(values: readonly number[], leastSpan: number): readonly [number, number] {
  if (values.length === 0) return [-leastSpan / 2, leastSpan / 2];
  const low = Math.min(...values);
  const high = Math.max(...values);
  const span = Math.max(high - low, leastSpan) * 1.16;
  const middle = (low + high) / 2;
  return [middle - span / 2, middle + span / 2];
}
