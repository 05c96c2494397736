import type { Vec3 } from "../../maths/vec3.ts";
import { distance } from "../../maths/vec3.ts";
import { toDatum } from "../../scene/datum.ts";
import type { Datum } from "../../scene/scene.ts";
import type { Unit } from "../store/state.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { fractionText, lengthNumber, lengthText } from "../words/number.ts";

type Way = "forward" | "back" | "outboard" | "inboard" | "up" | "down";

/** Less than this is not said: nobody moves steel by it. */
const LEAST_mm = 0.005;

export interface MoveWords {
  /** "12 back, 4 up"; "nowhere" for no move. */
  readonly way: string;
  /** "12.6 mm"; "0.498 in, about 1/2 in". */
  readonly far: string;
}

/** A move from one place to another, car coordinates in mm, in the directions of the datum it is measured from. */
export function moveWords(from: Vec3, to: Vec3, datum: Datum | null, unit: Unit): MoveWords {
  const [before, after] = [toDatum(datum, from, "left"), toDatum(datum, to, "left")];
  const parts = [
    part(after.forward_mm - before.forward_mm, "forward", "back", unit),
    part(after.out_mm - before.out_mm, "outboard", "inboard", unit),
    part(after.up_mm - before.up_mm, "up", "down", unit),
  ].filter((text) => text !== null);
  const far_mm = distance(from, to);
  const far = lengthText(far_mm, unit);
  return {
    way: parts.length === 0 ? t("points.way.nowhere") : listText(parts, "unit"),
    far: unit === "in" ? t("points.way.far", { far, fraction: fractionText(far_mm) }) : far,
  };
}

function part(by_mm: number, positive: Way, negative: Way, unit: Unit): string | null {
  if (Math.abs(by_mm) < LEAST_mm) return null;
  const size = lengthNumber(Math.abs(by_mm), unit).replace(/\.0$/, "");
  return t(`points.way.${by_mm > 0 ? positive : negative}`, { size });
}
