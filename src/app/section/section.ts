import type { ModelBody } from "../../check/model.ts";
import type { PairVerdict } from "../../check/result.ts";
import { dot, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { Scene } from "../../scene/scene.ts";
import { livePoses } from "../store/livePoses.ts";
import { type PlacedSolid, sectionPlane } from "./sectionPlane.ts";
import { type Flat, sliceSolid } from "./sliceSolid.ts";

/** A touch (or the narrowest gap) cut through, in mm from the middle between the pair's nearest points; up is positive. */
export interface Section {
  /** Outlines of the pair's two bodies in the plane, in the order of the verdict's keys. */
  readonly outlines: readonly [readonly Flat[][], readonly Flat[][]];
  /** The two points between which depth or gap is measured. */
  readonly from: Flat;
  readonly to: Flat;
  /** Half the height that is worth showing. */
  readonly reach_mm: number;
}

const LEAST_REACH_mm = 22;
const MOST_REACH_mm = 75;

/** The pair cut through at its worst state; null where a body is not there or has no outline (a scan with holes). */
export function sectionOf(pair: PairVerdict, scene: Scene, bodies: readonly ModelBody[]): Section | null {
  const { travel_mm, ...engine } = pair.at;
  const two = pair.keys.map((key) => bodies.find((body) => body.key === key));
  if (!two[0] || !two[1]) return null;
  const poses = livePoses(scene, [two[0], two[1]], { travel_mm: { left: travel_mm, right: travel_mm }, ...engine });
  const placed = two.map((body) => ({ solid: body!.solid, pose: poses.get(body!.key) }));
  if (!placed[0]?.pose || !placed[1]?.pose) return null;
  const plane = sectionPlane(pair.pointA, pair.pointB, pair.partingOfA, placed as [PlacedSolid, PlacedSolid]);
  const flat = (point: Vec3): Flat => {
    const from = subtract(point, plane.at);
    return [dot(from, plane.right), dot(from, plane.up)];
  };
  const cuts = placed.map(({ solid, pose: now }) => sliceSolid(solid, now!, plane));
  const outlines = [cuts[0]!, cuts[1]!] as const;
  if (outlines.some((outline) => outline.length === 0)) return null;
  const sizes = outlines.map(sizeAtTouch);
  const reach_mm = Math.min(MOST_REACH_mm, Math.max(LEAST_REACH_mm, 0.85 * Math.min(...sizes)));
  return { outlines, from: flat(pair.pointA), to: flat(pair.pointB), reach_mm };
}

/** The larger side of the box round the outline that comes nearest to the touch. */
function sizeAtTouch(outlines: readonly Flat[][]): number {
  let nearest = Infinity;
  let size = 0;
  for (const outline of outlines) {
    const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
    const distance = Math.min(...outline.map(([x, y]) => Math.hypot(x, y)));
    if (distance >= nearest) continue;
    nearest = distance;
    size = Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  }
  return size;
}
