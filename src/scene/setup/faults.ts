import { distance, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { formatLength, type LengthUnit } from "../length.ts";
import { pointResolver } from "../pointResolver.ts";

/** Limits within which any road car's corner lies: wide, so that what they refuse is a slip. Common practice, no source. */

/** Hard points of one corner lie no farther from its wheel's centre. */
const FARTHEST_MM = 1800;

export function lengthFault(min_mm: number, max_mm: number, mend: string) {
  return (mm: number, _: SceneDocument, unit: LengthUnit): string | null => {
    if (mm >= min_mm && mm <= max_mm) return null;
    const words = (value: number) => formatLength(value, unit, { withUnit: true });
    return `${words(mm)} is ${mm < min_mm ? "too little" : "too much"}: ${words(min_mm)} to ${words(max_mm)} can be. ${mend}`;
  };
}

export function numberFault(min: number, max: number, unit: string, mend: string) {
  return (value: number): string | null => {
    if (value >= min && value <= max) return null;
    return `${value} ${unit} is ${value < min ? "too little" : "too much"}: ${min} to ${max} can be. ${mend}`;
  };
}

/** A point that is nowhere near the wheel was read from another datum, or in another unit. */
export function placeFault(at: Vec3, document: SceneDocument, unit: LengthUnit, isRight = false): string | null {
  const [x, y, z] = wheelCentre(document);
  const centre: Vec3 = isRight ? [x, -y, z] : [x, y, z];
  const away_mm = distance(at, centre);
  if (away_mm <= FARTHEST_MM) return null;
  const words = formatLength(away_mm, unit, { withUnit: true });
  return `That place is ${words} from the wheel's centre. Look at the datum it was read from, the unit and the signs: back and below are minus.`;
}

export function wheelCentre(document: SceneDocument): Vec3 {
  return pointResolver(document).drawn(document.wheel.centre, "wheel.centre");
}
