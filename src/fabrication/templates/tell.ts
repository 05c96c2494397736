import type { Vec3 } from "../../maths/vec3.ts";
import type { Difference, FlatPart, FoldLine } from "./flatPart.ts";
import { PLATE_RULES, type PlateWarning } from "./rules.ts";

/** What is written on templates, for sheets, files and the terminal. */

export function mm(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}

const RULES: Readonly<
  Record<PlateWarning["rule"], { readonly says: (warning: PlateWarning) => string; readonly from: string }>
> = {
  "inside-radius": {
    says: ({ which }) => `fold ${which}: inside radius`,
    from: `${PLATE_RULES.insidePerThickness} x thickness; common practice`,
  },
  "hole-to-fold": {
    says: ({ which }) => `hole ${which}: edge to where a bend begins`,
    from: `${PLATE_RULES.holeToFoldPerThickness} x thickness; common practice`,
  },
  flange: {
    says: ({ which }) => `fold ${which}: flange over all`,
    from: `${PLATE_RULES.flangePerThickness} x thickness; common practice`,
  },
  "hole-size": {
    says: ({ which }) => `hole ${which}: width`,
    from: `${PLATE_RULES.holePerThickness} x thickness; common practice`,
  },
  "hole-to-edge": {
    says: ({ which }) => `hole ${which}: centre to edge`,
    from: `${PLATE_RULES.edgePerHole} x diameter; EN 1993-1-8 table 3.3`,
  },
  "hole-pitch": {
    says: ({ which }) => `hole ${which}: centre to the next hole's`,
    from: `${PLATE_RULES.pitchPerHole} x diameter; EN 1993-1-8 table 3.3`,
  },
};

export function tellPlateWarning(warning: PlateWarning): string {
  const { says, from } = RULES[warning.rule];
  return `${says(warning)} is ${mm(warning.is_mm)} mm, at least ${mm(warning.least_mm)} wanted (${from})`;
}

export function tellDifference({ drawn_mm, folded_mm }: Difference): string {
  return `the base is drawn ${mm(drawn_mm)} mm thick and folds ${mm(folded_mm)} mm thick; pin to mounting face stays`;
}

export function tellFold({ angle_deg, inside_mm, way, allowance_mm }: FoldLine, index: number): string {
  return `fold ${index + 1}: ${mm(angle_deg)} deg ${way}, inside radius ${mm(inside_mm)}, takes up ${mm(allowance_mm)}`;
}

/** "2 off for each side, 5 mm plate" */
export function tellCount({ count, sides, thickness_mm }: FlatPart): string {
  return `${count} off${sides === "both" ? " for each side" : ""}, ${mm(thickness_mm)} mm plate`;
}

/** What is said about the sides where the same plate serves both. */
export function tellSides({ sides, folds, stands }: FlatPart): string | null {
  if (sides === "one") return null;
  if (folds.length > 0) return "The right side's is alike.";
  return stands ? "Drawn for the left side; turn it over for the right." : null;
}

export type Looks = "forward" | "back" | "out" | "in" | "left" | "right" | "up" | "down";

/** The way that a direction looks most, in the builder's words. */
export function looksTo([x, y, z]: Vec3, isOnASide: boolean): Looks {
  const most = Math.max(Math.abs(x), Math.abs(y), Math.abs(z));
  if (most === Math.abs(z)) return z > 0 ? "up" : "down";
  if (most === Math.abs(x)) return x > 0 ? "forward" : "back";
  if (isOnASide) return y > 0 ? "out" : "in";
  return y > 0 ? "left" : "right";
}
