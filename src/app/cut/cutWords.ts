import type { Unit } from "../store/state.ts";
import { lengthText } from "../words/number.ts";
import type { CutWay } from "./cutStore.ts";

/** Where a plane stands, read as people read a car. */
export function offsetText(way: CutWay, offset_mm: number, unit: Unit): string {
  const size = lengthText(Math.abs(offset_mm), unit);
  switch (way) {
    case "across":
      return `${size} ${offset_mm < 0 ? "behind" : "ahead of"} the axle line`;
    case "along":
      return `${size} ${offset_mm < 0 ? "right" : "left"} of the middle`;
    case "level":
      return `${size} ${offset_mm < 0 ? "below" : "above"} the ground`;
    case "axis":
      return `${size} ${offset_mm < 0 ? "to one side" : "to the other side"} of the axis`;
  }
}

export const cutWords = {
  wayLabel: "How the section lies",
  ways: [
    { value: "off", name: "off" },
    { value: "across", name: "across" },
    { value: "along", name: "along" },
    { value: "level", name: "level" },
    { value: "axis", name: "by a part" },
  ],
  slider: "Where it lies",
  knob: "Move the section",
  flip: "Show the other half",
  face: "Look straight at it",
  point: "Through",
  noPoint: "no hard point",
  body: "Along the axis of",
  noBody: "choose a part",
  note: "Hatched where a part is cut. Scans with holes are cut open without a fill. What is cut away can be neither picked nor measured.",
} as const;
