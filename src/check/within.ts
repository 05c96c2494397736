import type { ContentShape } from "../geometry/content.ts";
import type { Shape } from "../scene/scene.ts";
import type { Verdict } from "./result.ts";
import { verdictOf } from "./verdict.ts";

/** How far the surface of a shape may be from the one that is checked: what scans lose by welding and thinning out. */
export function withinOf(shape: ContentShape): number {
  if (shape.kind === "group")
    return shape.parts.reduce((most: number, part: Shape) => Math.max(most, withinOf(part)), 0);
  if (shape.kind !== "mesh") return 0;
  return (shape.repair?.weldWithin_mm ?? 0) + (shape.thinned?.within_mm ?? 0);
}

/**
 * The clearance that is told where the checked surfaces measure `measured_mm` and may be `within_mm` off: gaps smaller and depths
 * greater by that. Surfaces that do not meet are never told as a depth: what is nearer than the error counts as a bare touch.
 */
export function toldClearance(measured_mm: number, within_mm: number): number {
  return measured_mm < 0 ? measured_mm - within_mm : Math.max(0, measured_mm - within_mm);
}

/** "clear" only where the parts themselves keep what they want; "clash" where the checked surfaces meet. */
export function toldVerdict(measured_mm: number, within_mm: number, required_mm: number): Exclude<Verdict, "accepted"> {
  if (measured_mm < 0) return "clash";
  return measured_mm < within_mm ? "tight" : verdictOf(measured_mm - within_mm, required_mm);
}
