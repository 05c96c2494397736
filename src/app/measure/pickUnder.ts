import { gripsOfBody } from "../../check/bodyGrips.ts";
import { type MeasuredState, spotNow } from "../../check/measures.ts";
import type { ModelBody } from "../../check/model.ts";
import { type Grip, gripAt, placeOfShare, shareOfPlace, shareOfWay } from "../../geometry/grips.ts";
import { applyPose, identityPose, invertPose } from "../../maths/pose.ts";
import { dot, mirror, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { BodyName, PartSpot, PointSpot } from "../../scene/measures.ts";
import { featureAt, type SurfaceHit } from "../points/drag/surface.ts";
import type { GrabPlace } from "../viewport/gestures.ts";
import type { Sight } from "../viewport/sight.ts";
import { faceAt } from "./faceAt.ts";
import type { MeasureKind, Picked } from "./measuring.ts";

const REACH_PX = { mouse: 12, touch: 22 } as const;
/** A face of a round piece that looks this much along its axis is its flat end. */
const FLAT_END = 0.95;
const AT_REST = identityPose();

export interface PickSurroundings {
  readonly state: MeasuredState;
  readonly sight: Sight;
  /** What lies under the pointer, hidden parts and what is cut away apart. */
  readonly hit: SurfaceHit | null;
}

/**
 * What a press there picks. A place is a hard point, the centre of a circle or ball, a corner, an edge, or else where the
 * surface is; a line is the axis of a round piece, or the way a face looks. null: nothing is there; "no-line": a ball.
 */
export function pickUnder(kind: MeasureKind, at: GrabPlace, around: PickSurroundings): Picked | "no-line" | null {
  const reach_px = REACH_PX[at.isTouch ? "touch" : "mouse"];
  const { hit } = around;
  if (kind === "gap") return hit && { what: "body", body: nameOfBody(hit.body) };
  if (kind === "lines") return hit && lineOf(hit, around);
  const point = pointNear(at, reach_px, around);
  if (point) return { what: "spot", spot: point };
  return hit && { what: "spot", spot: spotOn(hit, at, reach_px, around) };
}

export function nameOfBody({ key, id, side }: ModelBody): BodyName {
  const piece = /#(upper|lower)(@|$)/.exec(key)?.[1] as BodyName["piece"];
  return { part: id, ...(piece ? { piece } : {}), ...(side === "both" ? {} : { side }) };
}

/** The hard point whose place is nearest to the pointer, of either side. */
function pointNear(at: GrabPlace, reach_px: number, { state, sight }: PickSurroundings): PointSpot | null {
  let best: PointSpot | null = null;
  let least: number = reach_px;
  for (const side of state.scene.sides) {
    for (const name of state.scene.points.keys()) {
      if (side === "right" && state.rides.get(name) === "powertrain") continue;
      const spot: PointSpot = side === "right" ? { point: name, side } : { point: name };
      const place = spotNow(spot, state);
      const away = place ? awayFrom(at, place, sight) : Infinity;
      if (away <= least) [best, least] = [spot, away];
    }
  }
  return best;
}

function awayFrom(at: GrabPlace, place: Vec3, sight: Sight): number {
  const spot = sight.project(place);
  return Math.hypot(spot.x - at.x, spot.y - at.y);
}

/** The piece of the part that was hit. */
interface HitPiece {
  readonly name: BodyName;
  readonly number: number;
  readonly grip: Grip;
  /** From the left side's design position, where grips are, to where things are now, and back. */
  toNow(place: Vec3): Vec3;
  toDrawn(place: Vec3): Vec3;
}

function pieceAt({ body, at }: SurfaceHit, { state }: PickSurroundings): HitPiece | null {
  const name = nameOfBody(body);
  const pose = state.poses.get(body.key) ?? AT_REST;
  const back = invertPose(pose);
  const image = (place: Vec3) => (body.side === "right" ? mirror(place) : place);
  const toDrawn = (place: Vec3) => image(applyPose(back, place));
  const grips = gripsOfBody(state.scene, name.part, name.piece, name.side);
  const number = gripAt(grips, toDrawn(at));
  const grip = grips[number];
  return grip ? { name, number, grip, toDrawn, toNow: (place) => applyPose(pose, image(place)) } : null;
}

function spotOn(hit: SurfaceHit, at: GrabPlace, reach_px: number, around: PickSurroundings): PartSpot {
  const { sight, state } = around;
  const piece = pieceAt(hit, around);
  if (!piece) throw new Error(`${hit.body.key} has no shape in the scene`);
  const { name, number, grip, toNow, toDrawn } = piece;
  const spot = (share: Vec3, is: PartSpot["is"]): PartSpot => ({ ...name, grip: number, at: tidy(share), is });
  let centre: Vec3 | null = null;
  let least = reach_px;
  for (const share of grip.centres) {
    const away = awayFrom(at, toNow(placeOfShare(grip, share)), sight);
    if (away <= least) [centre, least] = [share, away];
  }
  if (centre) return spot(centre, "centre");
  const feature = featureAt(hit, state.poses, reach_px * sight.mmPerPx(hit.at));
  return spot(shareOfPlace(grip, toDrawn(feature?.at ?? hit.at)), feature?.kind ?? "surface");
}

function lineOf(hit: SurfaceHit, around: PickSurroundings): Picked | "no-line" {
  const piece = pieceAt(hit, around);
  if (!piece) return "no-line";
  const { name, number, grip, toDrawn } = piece;
  const place = toDrawn(hit.at);
  const pose = around.state.poses.get(hit.body.key) ?? AT_REST;
  const drawnHit = applyPose(invertPose(pose), hit.at);
  const found = faceAt(hit.body.solid, drawnHit);
  if (!found) return "no-line";
  const normal = hit.body.side === "right" ? mirror(found) : found;
  const isRound = grip.form === "rod" && Math.abs(dot(normal, grip.axes[2])) < FLAT_END;
  if (grip.form === "ball") return "no-line";
  const share = shareOfPlace(grip, isRound ? onAxis(grip, place) : place);
  const way = isRound ? ([0, 0, 1] as const) : shareOfWay(grip, normal);
  return {
    what: "line",
    line: { ...name, grip: number, at: tidy(share), way: tidy(way), is: isRound ? "axis" : "face" },
  };
}

function onAxis({ origin, axes }: Grip, place: Vec3): Vec3 {
  const along = dot(subtract(place, origin), axes[2]);
  const [x, y, z] = scale(axes[2], along);
  return [origin[0] + x, origin[1] + y, origin[2] + z];
}

/** To a millionth of a size: files stay short. */
function tidy(share: Vec3): Vec3 {
  const [u, v, w] = share.map((value) => Math.round(value * 1e6) / 1e6 || 0);
  return [u!, v!, w!];
}
