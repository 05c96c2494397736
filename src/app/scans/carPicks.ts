import type { ModelBody } from "../../check/model.ts";
import { applyPose, identityPose, invertPose, type Pose, turnByPose } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import { nearestTriangle } from "../../scans/nearestTriangle.ts";
import { neighboursOf, pickPatch } from "../../scans/patch.ts";
import { surfaceHit } from "../points/drag/surface.ts";
import { app } from "../store/useApp.ts";
import type { GrabPlace } from "../viewport/gestures.ts";
import type { Sight } from "../viewport/sight.ts";
import { nameOf } from "../words/names.ts";
import { afterCarPick, changeMatch, changePair } from "./scanActions.ts";
import { type MatchTarget, useScan } from "./scanStore.ts";
import { noPatchText } from "./words.ts";

const REACH_PX = { mouse: 16, touch: 28 } as const;

export interface CarShown {
  readonly bodies: readonly ModelBody[];
  readonly poses: ReadonlyMap<string, Pose>;
}

/** A tap on the car: a hard point near it, else the surface under it. */
export function pickInCar(at: GrabPlace, sight: Sight, car: CarShown): void {
  const { picking, matches } = useScan.getState();
  if (picking?.end !== "car") return;
  if (picking.kind === "match") {
    const kind = matches.find(({ key }) => key === picking.key)?.kind ?? "plane";
    const target = surfaceTarget(at, sight, car, kind);
    if (!target) {
      useScan.setState({ trouble: noPatchText(kind) });
      return;
    }
    changeMatch(picking.key, { target });
    afterCarPick();
    return;
  }
  const point = hardPointAt(at, sight);
  const place = point?.at ?? surfaceHit(car.bodies, car.poses, sight.rayAt(at.x, at.y))?.at;
  if (!place) return;
  changePair(picking.key, { car: place, point: point?.name ?? null });
  afterCarPick();
}

function hardPointAt(at: GrabPlace, sight: Sight): { readonly name: string; readonly at: Vec3 } | null {
  let best: { readonly name: string; readonly at: Vec3 } | null = null;
  let least: number = REACH_PX[at.isTouch ? "touch" : "mouse"];
  for (const [name, point] of app.getState().scene?.points ?? []) {
    const spot = sight.project(point.at);
    const away = Math.hypot(spot.x - at.x, spot.y - at.y);
    if (away < least) [best, least] = [{ name, at: point.at }, away];
  }
  return best;
}

function surfaceTarget(
  at: GrabPlace,
  sight: Sight,
  { bodies, poses }: CarShown,
  kind: "plane" | "cylinder",
): MatchTarget | null {
  const hit = surfaceHit(bodies, poses, sight.rayAt(at.x, at.y));
  if (!hit) return null;
  const pose = poses.get(hit.body.key) ?? identityPose();
  const { solid } = hit.body;
  const local = applyPose(invertPose(pose), hit.at);
  const patch = pickPatch(neighboursOf(solid), nearestTriangle(solid, local), local, kind, Number.POSITIVE_INFINITY);
  if (!patch) return null;
  const { fitted } = patch;
  const way = fitted.kind === "plane" ? fitted.normal : fitted.axis;
  const name = nameOf(hit.body.id, app.getState().scene);
  return { at: applyPose(pose, fitted.at), way: turnByPose(pose, way), name };
}
