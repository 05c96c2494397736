import { distance, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { pointResolver } from "../pointResolver.ts";

/** Limits within which any road car's corner lies: wide, so that what they refuse is a slip. Common practice, no source. */

/** Hard points of one corner lie no farther from its wheel's centre. */
const FARTHEST_MM = 1800;

export type NumberUnit = "inches" | "degrees" | "N/mm";

/** What to look at after a slip. */
export type Mend =
  | "travel"
  | "rimWidth"
  | "rimOffset"
  | "toe"
  | "camber"
  | "thickness"
  | "overAll"
  | "rock"
  | "eyes"
  | "tube"
  | "coils"
  | "springRate"
  | "stop"
  | "bar"
  | "shaft"
  | "plunge"
  | "bend"
  | "gap";

/** Why an answer cannot be right; a code never changes its meaning. */
export type SetupFault =
  | {
      readonly code: "too-little" | "too-much";
      readonly value: number;
      readonly min: number;
      readonly max: number;
      readonly unit: "mm" | NumberUnit;
      readonly mend: Mend;
    }
  | { readonly code: "far-off" | "centre-out" | "centre-up" | "centre-forward"; readonly size_mm: number }
  | { readonly code: "title" }
  | { readonly code: "tyre"; readonly written: string; readonly wrong: string; readonly wanted: string };

/** How far out from the centre plane and up from the ground a wheel's centre can be, mm. */
export const CENTRE_OUT_MM = [250, 1300] as const;
export const CENTRE_UP_MM = [120, 600] as const;

export function lengthFault(min: number, max: number, mend: Mend) {
  return rangeFault(min, max, "mm", mend);
}

export function numberFault(min: number, max: number, unit: NumberUnit, mend: Mend) {
  return rangeFault(min, max, unit, mend);
}

function rangeFault(min: number, max: number, unit: "mm" | NumberUnit, mend: Mend) {
  return (value: number): SetupFault | null => {
    if (value >= min && value <= max) return null;
    return { code: value < min ? "too-little" : "too-much", value, min, max, unit, mend };
  };
}

/** A point that is nowhere near the wheel was read from another datum, or in another unit. */
export function placeFault(at: Vec3, document: SceneDocument, isRight = false): SetupFault | null {
  const [x, y, z] = wheelCentre(document);
  const centre: Vec3 = isRight ? [x, -y, z] : [x, y, z];
  const size_mm = distance(at, centre);
  return size_mm <= FARTHEST_MM ? null : { code: "far-off", size_mm };
}

export function wheelCentre(document: SceneDocument): Vec3 {
  return pointResolver(document).drawn(document.wheel.centre, "wheel.centre");
}
