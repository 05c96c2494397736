import { formatLength, type LengthUnit } from "../../scene/length.ts";
import type { BarSize } from "./bars.ts";
import { CUT_ENGLISH, type CutListWords } from "./cutListWords.ts";

/** "Ø 28 × 3", "60 × 40 × 3". */
export function sizeText(size: BarSize, unit: LengthUnit, words: CutListWords = CUT_ENGLISH): string {
  const short = (mm: number): string =>
    formatLength(mm, unit, { decimals: unit === "mm" ? 2 : 3 })
      .replace(/(\.\d*?)0+$/, "$1")
      .replace(/\.$/, "");
  if (size.kind === "round" && size.diameter_mm === null) return words.sizeUnknown;
  const outside =
    size.kind === "round" ? `Ø ${short(size.diameter_mm!)}` : `${short(size.height_mm)} × ${short(size.width_mm)}`;
  return size.wall_mm === null ? words.wallUnknown(outside) : `${outside} × ${short(size.wall_mm)}`;
}
