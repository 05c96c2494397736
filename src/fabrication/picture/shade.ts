import { normalise, type Vec3 } from "../../maths/vec3.ts";
import {
  CLASH,
  CLASH_DEEP,
  DEEP_mm,
  DOTS_mm,
  HATCH_mm,
  INK,
  mixed,
  PAPER,
  type Rgb,
  TIGHT,
  TIGHT_FAR,
} from "./colours.ts";

const KEY: Vec3 = normalise([-0.42, 0.72, 0.62]);
const EDGE: Vec3 = normalise([0.8, -0.1, 0.35]);

/**
 * How bright matte clay is with this normal (across, up, towards the eye): half-Lambert light from above the eye's left (as in Mitchell,
 * McTaggart, Green, "Shading in Valve's Source Engine", SIGGRAPH 2006 course) and light from the car's own above (`sky`, −1 to 1).
 */
export function lightOn(normal: Float64Array, sky: number): number {
  const key = 0.5 + 0.5 * (normal[0]! * KEY[0] + normal[1]! * KEY[1] + normal[2]! * KEY[2]);
  const edge = 0.5 + 0.5 * (normal[0]! * EDGE[0] + normal[1]! * EDGE[1] + normal[2]! * EDGE[2]);
  return 0.4 + 0.52 * key * key + 0.17 * (0.5 + 0.5 * sky) + 0.05 * edge;
}

/** Surface that is too near, at a place of the paper in mm. */
export function patchColour(clearance_mm: number, required_mm: number, light: number, x: number, y: number): Rgb {
  if (clearance_mm < 0) {
    const deep = Math.min(1, -clearance_mm / DEEP_mm);
    const colour = lit(mixed(CLASH, CLASH_DEEP, deep * 0.8), 0.8 + 0.25 * light);
    return isOnHatch(x, y) ? mixed(colour, INK, 0.5) : colour;
  }
  const far = Math.min(1, clearance_mm / required_mm);
  const colour = lit(mixed(TIGHT, TIGHT_FAR, far), 0.75 + 0.3 * light);
  return isOnDot(x, y) ? mixed(colour, PAPER, 0.75 - 0.45 * far) : colour;
}

/** Lines that fall from the upper left to the lower right, as the legend has them. */
function isOnHatch(x: number, y: number): boolean {
  const across = (x - y) / Math.SQRT2;
  return across - HATCH_mm.pitch * Math.floor(across / HATCH_mm.pitch) < HATCH_mm.line;
}

function isOnDot(x: number, y: number): boolean {
  const { pitch, radius } = DOTS_mm;
  return Math.hypot((x % pitch) - pitch / 2, (y % pitch) - pitch / 2) < radius;
}

export function lit([red, green, blue]: Rgb, light: number): Rgb {
  return [Math.min(255, red * light), Math.min(255, green * light), Math.min(255, blue * light)];
}
