import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { lengthText } from "../words/number.ts";
import type { CutWay } from "./cutStore.ts";

/** Where a plane stands, read as people read a car. */
export function offsetText(way: CutWay, offset_mm: number, unit: Unit): string {
  const end = offset_mm < 0 ? "less" : "more";
  return t(`cut.offset.${way}.${end}`, { size: lengthText(Math.abs(offset_mm), unit) });
}
