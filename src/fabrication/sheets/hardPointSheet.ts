import type { DatumReading } from "../../scene/datum.ts";
import { formatLength, type LengthUnit } from "../../scene/length.ts";
import type { SheetFacts } from "../paper/frame.ts";
import { Sheet, type SheetSetting } from "../paper/sheet.ts";
import { type HardPointLine, type PointOnCar, WAYS } from "./hardPoints.ts";

/** What the sheet says beside numbers and names, in the language of the sheet. */
export interface HardPointWords {
  readonly point: string;
  readonly ways: string;
  readonly drawn: string;
  readonly left: string;
  readonly right: string;
  readonly difference: string;
  readonly how: string;
  readonly within: (length: string) => string;
  readonly leftHow: (how: string) => string;
  readonly rightHow: (how: string) => string;
  readonly note: string;
}

export const HARD_POINT_ENGLISH: HardPointWords = {
  point: "Hard point",
  ways: "forward\nout\nup",
  drawn: "Drawn",
  left: "Left on the car",
  right: "Right on the car",
  difference: "Right less left",
  how: "How measured, and how well",
  within: (length) => `± ${length}`,
  leftHow: (how) => `Left: ${how}`,
  rightHow: (how) => `Right: ${how}`,
  note: "Out is away from the centre plane on either side: equal numbers left and right are mirror images. Empty boxes are for what the car says.",
};

/**
 * The hard points on paper, its long edge lying: each as drawn and, on a sheet that is as built, as measured left and right with the
 * difference; empty boxes for what the car says otherwise; how each was measured and how well.
 */
export async function hardPointSheet(
  lines: readonly HardPointLine[],
  facts: SheetFacts,
  setting: SheetSetting,
  unit: LengthUnit,
  words: HardPointWords = HARD_POINT_ENGLISH,
): Promise<Uint8Array> {
  const sheet = await Sheet.begin(facts, { ...setting, landscape: true });
  const three = (reading: DatumReading | null | undefined, signed = false): string =>
    reading ? WAYS.map((way) => formatLength(reading[way], unit, { signed })).join("\n") : "";
  const room_mm = 25;
  const isBuilt = facts.standing === "built";
  sheet.table({
    columns: [
      { title: words.point },
      { title: "" },
      { title: words.drawn, align: "right" },
      { title: words.left, align: "right", room_mm },
      { title: words.right, align: "right", room_mm },
      { title: words.difference, align: "right", room_mm },
      { title: words.how, room_mm: 30 },
    ],
    rows: lines.map((line) => ({
      cells: [
        line.point,
        words.ways,
        three(line.drawn),
        three(isBuilt ? line.left?.reading : null),
        three(isBuilt ? line.right?.reading : null),
        three(isBuilt ? line.difference : null, true),
        howText(line, unit, words),
      ],
    })),
  });
  sheet.text(words.note);
  return sheet.finish();
}

function howText({ how, tolerance_mm, left, right }: HardPointLine, unit: LengthUnit, words: HardPointWords): string {
  const told = (place: PointOnCar | null): string =>
    place === null ? "" : [place.how, withinText(place.tolerance_mm, unit, words)].filter(Boolean).join(", ");
  const drawn = [how, withinText(tolerance_mm, unit, words)].filter(Boolean).join(", ");
  return [drawn, told(left) && words.leftHow(told(left)), told(right) && words.rightHow(told(right))]
    .filter(Boolean)
    .join("\n");
}

function withinText(tolerance_mm: number | null, unit: LengthUnit, words: HardPointWords): string {
  return tolerance_mm === null ? "" : words.within(formatLength(tolerance_mm, unit, { withUnit: true }));
}
