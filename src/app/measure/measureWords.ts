import type { MeasureReading } from "../../check/measures.ts";
import type { Measure as GapMeasure } from "../../clearance/types.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { BodyName, Measure, MeasuredLine, Spot } from "../../scene/measures.ts";
import { pointInfos } from "../points/pointInfo.ts";
import type { Unit } from "../store/state.ts";
import { nameOf } from "../words/names.ts";
import { angleText, lengthNumber, lengthText } from "../words/number.ts";

type Kind = Measure["kind"];

const PROMPTS: Readonly<Record<Kind, readonly string[]>> = {
  distance: ["Point at the first place.", "Point at the second place."],
  angle: [
    "Point at a place on the first leg.",
    "Point at the corner of the angle.",
    "Point at a place on the second leg.",
  ],
  lines: ["Point at a round part or a flat face.", "Point at the other round part or face."],
  gap: ["Point at the first part.", "Point at the second part."],
};

const PINNED: Readonly<Record<Kind, string>> = {
  distance: "pin a distance",
  angle: "pin an angle",
  lines: "pin an angle",
  gap: "pin a gap",
};

const PLACES = { centre: "centre", corner: "corner", edge: "edge", surface: "face" } as const;

export const measureWords = {
  kinds: [
    { value: "distance", name: "distance" },
    { value: "gap", name: "gap" },
    { value: "angle", name: "angle" },
    { value: "lines", name: "axes" },
  ],
  kindLabel: "What to measure",
  prompt: (kind: Kind, picked: number) => PROMPTS[kind][picked] ?? "",
  snaps: "Hard points, centres of round parts, corners and edges are taken first.",
  gapCounts: "A gap counts the whole surface of both parts, joints included.",
  pinned: (kind: Kind) => PINNED[kind],
  samePlace: "That is the same place again.",
  nothingThere: "Nothing to measure there.",
  noLine: "A ball has no axis and no flat face.",
  none: "Nothing is pinned yet.",
  list: "Pinned measures",
  takeBack: "Take back the last place",
  hide: (number: string) => `Hide measure ${number}`,
  show: (number: string) => `Show measure ${number}`,
  remove: (number: string) => `Delete measure ${number}`,
  hidden: (number: string) => `hide measure ${number}`,
  shown: (number: string) => `show measure ${number}`,
  removed: (number: string) => `delete measure ${number}`,
  gone: "a place of it is not there any more",
  measuring: "being measured",
  byPoint: "or a hard point",
  byPart: "or a part",
  choose: "choose",
} as const;

export function sideText(side: "left" | "right" | undefined): string {
  return side === "right" ? ", right" : side === "left" ? ", left" : "";
}

export function bodyText({ part, side }: BodyName, document: SceneDocument | null): string {
  return `${nameOf(part, document)}${sideText(side)}`;
}

export function spotText(spot: Spot, document: SceneDocument | null): string {
  if ("part" in spot) return `${nameOf(spot.part, document)} ${PLACES[spot.is]}${sideText(spot.side)}`;
  const info = document && pointInfos(document).find(({ name }) => name === spot.point);
  return `${info?.title ?? spot.point}${spot.side === "right" ? ", right" : ""}`;
}

export function lineText(line: MeasuredLine, document: SceneDocument | null): string {
  return `${nameOf(line.part, document)} ${line.is}${sideText(line.side)}`;
}

/** Between what the measure is taken: "Sump corner to Upper link, inboard end". */
export function endsText(measure: Measure, document: SceneDocument | null): string {
  switch (measure.kind) {
    case "distance":
      return `${spotText(measure.from, document)} to ${spotText(measure.to, document)}`;
    case "angle":
      return `at ${spotText(measure.at, document)}, from ${spotText(measure.from, document)} to ${spotText(measure.to, document)}`;
    case "lines":
      return `${lineText(measure.a, document)} to ${lineText(measure.b, document)}`;
    case "gap":
      return `${bodyText(measure.a, document)} to ${bodyText(measure.b, document)}`;
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
  if (!reading) return { value: "lost", more: measureWords.gone };
  switch (reading.kind) {
    case "distance": {
      const { forward_mm, out_mm, up_mm } = reading.way;
      const size = (mm: number) => lengthNumber(Math.abs(mm), unit);
      const sideways = reading.isAcross ? "across" : out_mm < 0 ? "in" : "out";
      const parts = [
        `${size(forward_mm)} ${forward_mm < 0 ? "back" : "forward"}`,
        `${size(out_mm)} ${sideways}`,
        `${size(up_mm)} ${up_mm < 0 ? "down" : "up"}`,
      ];
      return { value: lengthText(reading.distance_mm, unit), more: parts.join(", ") };
    }
    case "angle":
      return reading.angle_deg === null
        ? { value: "no angle", more: "two of the places are one" }
        : { value: angleText(reading.angle_deg), more: "" };
    case "lines":
      return { value: angleText(reading.angle_deg), more: "" };
    case "gap":
      return gap ? gapText(gap.clearance_mm, gap.measure, unit) : { value: "…", more: measureWords.measuring };
  }
}

function gapText(clearance_mm: number, measure: GapMeasure, unit: Unit): MeasureText {
  if (!Number.isFinite(clearance_mm)) return { value: "no gap", more: "a part has no surface" };
  if (clearance_mm >= 0) return { value: `${lengthText(clearance_mm, unit)} off`, more: "" };
  const depth = `${lengthText(-clearance_mm, unit)} too deep`;
  return { value: depth, more: measure === "sampled" ? "depth sampled every 2 mm" : "" };
}
