import type { Vec3 } from "../../maths/vec3.ts";
import type { Alteration } from "../../studies/moves/alter.ts";
import type { Unit } from "../store/state.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { directionText } from "../words/direction.ts";
import { nameOf } from "../words/names.ts";
import { angleText, lengthNumber, lengthText } from "../words/number.ts";

/** A scene or its document. */
interface Named {
  readonly members: readonly { readonly id: string; readonly kind: string }[];
}

/** What is made otherwise or stands elsewhere; `form` strong: its amount between `<b>` and `</b>`; step: as a step is named. */
export function alterationText(
  alteration: Alteration,
  scene: Named | null,
  unit: Unit,
  form: "strong" | "step",
): string {
  switch (alteration.kind) {
    case "thinner":
      return t(`moves.altered.thinner.${form}`, {
        part: nameOf(alteration.member, scene),
        diameter: lengthText(thinned_mm(alteration.diameter_mm), unit),
        was: lengthText(alteration.was_mm, unit),
      });
    case "bent":
      return t(`moves.altered.bent.${form}`, {
        part: nameOf(alteration.member, scene),
        bow: lengthText(alteration.bow_mm, unit),
        way: directionText(alteration.toward, "left"),
      });
    case "shifted":
      return t(`moves.altered.shifted.${form}`, { way: shiftText(alteration.by, unit) });
    case "turned": {
      const { turn, by_deg } = alteration;
      const angle = angleText(Math.abs(by_deg));
      return t(`moves.altered.turned.${form}`, {
        turn: t(`moves.altered.turns.${turn}.${by_deg > 0 ? "more" : "less"}`, { angle }),
      });
    }
  }
}

/** What is done with the other parts. */
export function alterationNote(alteration: Alteration): string {
  if (alteration.kind === "thinner" || alteration.kind === "bent") return t(`moves.altered.notes.${alteration.kind}`);
  return t(`moves.altered.notes.${alteration.fit}`);
}

/** Rounded down to a tenth: thicker would not clear. */
export function thinned_mm(diameter_mm: number): number {
  return Math.floor(diameter_mm * 10 + 1e-6) / 10;
}

const WAYS = [
  ["forward", "back"],
  ["left", "right"],
  ["up", "down"],
] as const;
/** What rounds to nothing of a tenth of a millimetre is left out. */
const TOLD_mm = 0.05;

/** "12.0 back, 3.5 up": the powertrain is written where it is, so that it goes left and right. */
function shiftText(by: Vec3, unit: Unit): string {
  const parts = by.flatMap((value, axis) =>
    Math.abs(value) < TOLD_mm
      ? []
      : [t(`moves.altered.ways.${WAYS[axis]![value > 0 ? 0 : 1]}`, { size: lengthNumber(Math.abs(value), unit) })],
  );
  return listText(parts, "unit");
}
