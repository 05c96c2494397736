import type { CurvePoint } from "../../check/result.ts";
import type { Derivatives } from "../../kinematics/derivatives.ts";
import type { BarAt, SpringState, SpringStudy } from "../../studies/runningGear/spring.ts";
import { rateInShown, rateText } from "../gear/springText.ts";
import type { Unit } from "../store/state.ts";
import type { en } from "../text/en/index.ts";
import { t } from "../text/text.ts";
import { angleText, lengthNumber, lengthText, MM_PER_INCH, numberText } from "../words/number.ts";
import type { Reading } from "./linePath.ts";

export type CurveId = keyof (typeof en)["curves"]["names"];

type Measure = "length" | "angle" | "ratio" | "percent" | "rate" | "anglePerTravel";

interface CurveLook {
  readonly id: CurveId;
  readonly name: string;
  /** What the number means, where the name alone leaves a doubt. */
  readonly meaning: string;
  /** The whole definition. */
  readonly definition: string;
  readonly measure: Measure;
  readonly signed: boolean;
  /** Smallest span of the axis, so that rounding is not blown up into a curve; in the measure's own unit. */
  readonly leastSpan: number;
}

/** A curve that the drawer can show, and where its readings come from. `ride` is the same side's point at ride height. */
export type CurveKind = CurveLook &
  (
    | { readonly from: "corner"; read(point: CurvePoint, ride: CurvePoint): number | null }
    | { readonly from: "derivatives"; read(point: Derivatives): number | null }
    | { readonly from: "spring"; read(point: SpringState): number | null }
    | { readonly from: "bar"; read(point: BarAt): number | null }
  );

export const CURVE_KINDS: readonly CurveKind[] = [
  corner("toe", "angle", true, 0.1, (p) => p.toe_deg),
  corner("camber", "angle", true, 0.2, (p) => p.camber_deg),
  corner("halfTrack", "length", false, 2, (p) => p.halfTrack_mm),
  corner("plunge", "length", true, 2, (p, ride) =>
    p.shaft_mm === null || ride.shaft_mm === null ? null : p.shaft_mm - ride.shaft_mm,
  ),
  derivative("bumpSteer", "anglePerTravel", true, 0.002, (p) => p.bumpSteer_deg_per_mm),
  derivative("camberGain", "anglePerTravel", true, 0.005, (p) => p.camberGain_deg_per_mm),
  derivative("antiSquat", "percent", true, 5, (p) => p.antiSquat_percent),
  derivative("antiLift", "percent", true, 5, (p) => p.antiLift_percent),
  corner("rollCentre", "length", true, 5, (p) => p.rollCentre_mm),
  { ...look("wheelRate", "rate", false, 1), from: "spring", read: (p) => p.wheelRate_N_per_mm },
  corner("damperRatio", "ratio", false, 0.1, (p) => p.damperRatio),
  corner("damper", "length", false, 5, (p) => p.damper_mm),
  { ...look("barTurn", "angle", true, 1), from: "bar", read: (p) => p.turn_deg },
  { ...look("dropLink", "angle", false, 2), from: "bar", read: (p) => p.link_deg },
  corner("wheelbaseShift", "length", true, 2, (p) => p.wheelbaseShift_mm),
  corner("shaft", "length", false, 2, (p) => p.shaft_mm),
  corner("innerAngle", "angle", false, 1, (p) => p.innerAngle_deg),
  corner("outerAngle", "angle", false, 1, (p) => p.outerAngle_deg),
  corner("angleDifference", "angle", true, 1, (p) =>
    p.innerAngle_deg === null || p.outerAngle_deg === null ? null : p.innerAngle_deg - p.outerAngle_deg,
  ),
];

export const FIRST_CURVES: readonly CurveId[] = ["toe", "camber", "halfTrack", "plunge"];
/** What is told of roll and of the side view over the travel. */
export const SIDE_VIEW_CURVES: readonly CurveId[] = ["antiSquat", "antiLift", "rollCentre", "camberGain", "bumpSteer"];

type Read<Point> = (point: Point) => number | null;

function look(id: CurveId, measure: Measure, signed: boolean, leastSpan: number): CurveLook {
  return {
    id,
    name: t(`curves.names.${id}`),
    meaning: t(`curves.meanings.${id}`),
    definition: t(`curves.definitions.${id}`),
    measure,
    signed,
    leastSpan,
  };
}

function corner(
  id: CurveId,
  measure: Measure,
  signed: boolean,
  leastSpan: number,
  read: (point: CurvePoint, ride: CurvePoint) => number | null,
): CurveKind & { readonly from: "corner" } {
  return { ...look(id, measure, signed, leastSpan), from: "corner", read };
}

function derivative(
  id: CurveId,
  measure: Measure,
  signed: boolean,
  leastSpan: number,
  read: Read<Derivatives>,
): CurveKind {
  return { ...look(id, measure, signed, leastSpan), from: "derivatives", read };
}

/** What the readings of one side are taken from. */
export interface CurveData {
  readonly curve: readonly CurvePoint[];
  readonly derivatives: readonly (Derivatives & { readonly travel_mm: number })[];
  readonly spring: SpringStudy | undefined;
}

/** The curve's readings in the shown unit, travel still in mm; empty where the scene has none. */
export function readingsOfCurve({ curve, derivatives, spring }: CurveData, kind: CurveKind, unit: Unit): Reading[] {
  const size = sizeOf(kind.measure, unit);
  const readings = <Point extends { readonly travel_mm: number }>(points: readonly Point[], read: Read<Point>) =>
    points.flatMap((point) => {
      const value = read(point);
      return value === null || !Number.isFinite(value) ? [] : [{ travel_mm: point.travel_mm, value: value / size }];
    });
  switch (kind.from) {
    case "corner": {
      const ride = curve.find(({ travel_mm }) => travel_mm === 0);
      return ride ? readings(curve, (point) => kind.read(point, ride)) : [];
    }
    case "derivatives":
      return readings(derivatives, kind.read);
    case "spring":
      return readings(spring?.curve ?? [], kind.read);
    case "bar":
      return readings(spring?.bar?.curve ?? [], kind.read);
  }
}

/** Travel after which a turn of the wheel is told: 10 mm, or an inch. */
export function perTravel_mm(unit: Unit): number {
  return unit === "in" ? MM_PER_INCH : 10;
}

/** The shown unit in the core's own. */
export function sizeOf(measure: Measure, unit: Unit): number {
  if (measure === "anglePerTravel") return 1 / perTravel_mm(unit);
  if (unit === "mm") return 1;
  if (measure === "length") return MM_PER_INCH;
  return measure === "rate" ? 1 / rateInShown(1, unit) : 1;
}

/** A value that is in the shown unit already. */
export function valueText(value: number, { measure, signed }: CurveLook, unit: Unit, withUnit = true): string {
  switch (measure) {
    case "angle":
      return angleText(value, { signed });
    case "ratio":
      return numberText(value, { digits: 3 });
    case "percent": {
      const percent = numberText(value, { digits: 0, signed });
      return withUnit ? t("curves.values.percent", { percent }) : percent;
    }
    case "rate": {
      const rate_N_per_mm = value * sizeOf(measure, unit);
      return withUnit ? rateText(rate_N_per_mm, unit) : numberText(value, { digits: unit === "in" ? 0 : 1 });
    }
    case "anglePerTravel": {
      const angle = angleText(value, { digits: 3, signed });
      return withUnit ? t(`curves.values.perTravel.${unit}`, { angle }) : angle;
    }
    case "length": {
      const value_mm = value * sizeOf(measure, unit);
      return withUnit ? lengthText(value_mm, unit, { signed }) : lengthNumber(value_mm, unit, { signed });
    }
  }
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
