import type { MeasureReading } from "../../check/measures.ts";
import type { Measure as GapMeasure } from "../../clearance/types.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { BodyName, Measure, MeasuredLine, Spot } from "../../scene/measures.ts";
import { pointInfos } from "../points/pointInfo.ts";
import type { Unit } from "../store/state.ts";
import type { en } from "../text/en/index.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";
import { angleText, lengthNumber, lengthText } from "../words/number.ts";

type Kind = Measure["kind"];
type Way = keyof (typeof en)["measure"]["way"];

const PROMPTS: Readonly<Record<Kind, readonly string[]>> = {
  distance: [t("measure.prompts.distance.first"), t("measure.prompts.distance.second")],
  angle: [t("measure.prompts.angle.first"), t("measure.prompts.angle.second"), t("measure.prompts.angle.third")],
  lines: [t("measure.prompts.lines.first"), t("measure.prompts.lines.second")],
  gap: [t("measure.prompts.gap.first"), t("measure.prompts.gap.second")],
};

/** What to point at next. */
export function promptText(kind: Kind, picked: number): string {
  return PROMPTS[kind][picked] ?? "";
}

function onSide(what: string, side: "left" | "right" | undefined): string {
  return side ? t(`measure.onSide.${side}`, { what }) : what;
}

export function bodyText({ part, side }: BodyName, document: SceneDocument | null): string {
  return onSide(nameOf(part, document), side);
}

export function spotText(spot: Spot, document: SceneDocument | null): string {
  if ("part" in spot) return onSide(t(`measure.spot.${spot.is}`, { part: nameOf(spot.part, document) }), spot.side);
  const info = document && pointInfos(document).find(({ name }) => name === spot.point);
  return onSide(info?.title ?? spot.point, spot.side === "right" ? "right" : undefined);
}

export function lineText(line: MeasuredLine, document: SceneDocument | null): string {
  return onSide(t(`measure.line.${line.is}`, { part: nameOf(line.part, document) }), line.side);
}

/** Between what the measure is taken: "Sump corner to Upper link, inboard end". */
export function endsText(measure: Measure, document: SceneDocument | null): string {
  switch (measure.kind) {
    case "distance":
      return t("measure.between", { from: spotText(measure.from, document), to: spotText(measure.to, document) });
    case "angle":
      return t("measure.angleBetween", {
        at: spotText(measure.at, document),
        from: spotText(measure.from, document),
        to: spotText(measure.to, document),
      });
    case "lines":
      return t("measure.between", { from: lineText(measure.a, document), to: lineText(measure.b, document) });
    case "gap":
      return t("measure.between", { from: bodyText(measure.a, document), to: bodyText(measure.b, document) });
  }
}

export interface MeasureText {
  readonly value: string;
  /** The distance's parts, or how the gap was found; "" where there is nothing to add. */
  readonly more: string;
}

/** The reading in words; `gap` is what the kernel told last, of a measured gap. */
export function readingText(
  reading: MeasureReading | null,
  gap: { readonly clearance_mm: number; readonly measure: GapMeasure } | null,
  unit: Unit,
): MeasureText {
  if (!reading) return { value: t("measure.lost.value"), more: t("measure.lost.more") };
  switch (reading.kind) {
    case "distance": {
      const { forward_mm, out_mm, up_mm } = reading.way;
      const way = (word: Way, mm: number) => t(`measure.way.${word}`, { size: lengthNumber(Math.abs(mm), unit) });
      const sideways = reading.isAcross ? "across" : out_mm < 0 ? "in" : "out";
      const parts = [
        way(forward_mm < 0 ? "back" : "forward", forward_mm),
        way(sideways, out_mm),
        way(up_mm < 0 ? "down" : "up", up_mm),
      ];
      return { value: lengthText(reading.distance_mm, unit), more: listText(parts, "unit") };
    }
    case "angle":
      return reading.angle_deg === null
        ? { value: t("measure.noAngle.value"), more: t("measure.noAngle.more") }
        : { value: angleText(reading.angle_deg), more: "" };
    case "lines":
      return { value: angleText(reading.angle_deg), more: "" };
    case "gap":
      return gap ? gapText(gap.clearance_mm, gap.measure, unit) : { value: "…", more: t("measure.measuring") };
  }
}

function gapText(clearance_mm: number, measure: GapMeasure, unit: Unit): MeasureText {
  if (!Number.isFinite(clearance_mm)) return { value: t("measure.noGap.value"), more: t("measure.noGap.more") };
  if (clearance_mm >= 0) return { value: t("measure.off", { size: lengthText(clearance_mm, unit) }), more: "" };
  const depth = t("measure.tooDeep", { size: lengthText(-clearance_mm, unit) });
  return { value: depth, more: measure === "sampled" ? t("measure.sampled") : "" };
}
