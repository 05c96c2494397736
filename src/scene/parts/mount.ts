import {
  applyPose,
  composePoses,
  identityPose,
  invertPose,
  type Pose,
  turnByPose,
  turnPose,
} from "../../maths/pose.ts";
import { length, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { BodyDocument, PointDocument, SceneDocument, ShapeDocument } from "../document.ts";
import { isVector, pointResolver } from "../pointResolver.ts";
import { mapMade } from "../recipes/makeShape.ts";
import { fine, movedPoint } from "../recipes/recipe.ts";
import { shapeOfMade } from "./follow.ts";
import { asMade, locateFor } from "./mapBody.ts";
import { bodyOf, readable, withBody } from "./parts.ts";
import { mapShape } from "./shapePoints.ts";

export type MountPose = (mount: string) => Pose;

/** Where each mount's parts stand at ride height, as far as the scene alone says: the powertrain in its place, the rest as drawn. */
export function drawnMounts(document: SceneDocument): MountPose {
  const { place } = document.powertrain ?? {};
  if (!place) return () => identityPose();
  const about = pointResolver(document).drawn(place.about, "powertrain.place.about");
  const pose = turnPose(place.turn_deg, about);
  for (const i of [0, 1, 2] as const) pose[4 * i + 3]! += place.shift_mm[i];
  return (mount) => (mount === "powertrain" ? pose : identityPose());
}

/**
 * The part riding on something else. It stays where it is at ride height: `poseOf` says where the parts of a mount stand
 * then (a bolted-up corner needs the solved one). Throws InputError `missing-id` for a mount that is not there, and for
 * members and units.
 */
export function changeMount(
  document: SceneDocument,
  id: string,
  on: string,
  poseOf: MountPose = drawnMounts(document),
): SceneDocument {
  const body = bodyOf(document, id);
  if (body.on === on) return document;
  const points = pointResolver(document);
  const [was, is] = [locateFor(body.on, points), locateFor(on, points)];
  const step = composePoses(invertPose(poseOf(on)), poseOf(body.on));
  const { mirror, ...rest } = body;
  const stands = on === "chassis" || on === "powertrain";
  const moved: BodyDocument = { ...rest, on, ...(mirror && stands ? { mirror } : {}) };
  const ofPoint = (point: PointDocument): PointDocument => {
    const by = subtract(applyPose(step, was(point, "shape")), is(point, "shape"));
    return length(by) < 1e-9 ? point : movedPoint(point, by);
  };
  if (body.made && asMade(document, body)) {
    const made = mapMade(body.made, ofPoint, (direction) => (isTurn(step) ? turnByPose(step, direction) : direction));
    return readable(withBody(document, id, { ...moved, made, shape: shapeOfMade(document, made) }));
  }
  if (!isTurn(step)) return readable(withBody(document, id, { ...moved, shape: mapShape(body.shape, ofPoint) }));
  const still = mapShape(body.shape, (point) => {
    const by = subtract(was(point, "shape"), is(point, "shape"));
    return length(by) < 1e-9 ? point : movedPoint(point, by);
  });
  const { made: _, ...plain } = moved;
  return readable(withBody(document, id, { ...plain, shape: turnedShape(still, step) }));
}

/** Sine: 1e-9 is less than a micrometre at the far end of a car. */
const SMALLEST_TURN = 1e-9;

function isTurn(pose: Pose): boolean {
  const identity = identityPose();
  return [0, 1, 2, 4, 5, 6, 8, 9, 10].some((i) => Math.abs(pose[i]! - identity[i]!) > SMALLEST_TURN);
}

/** The shape as drawn, put by the pose; where that undoes a placement round it, the placement goes. */
function turnedShape(shape: ShapeDocument, pose: Pose): ShapeDocument {
  const placed = composePoses(pose, placementOf(shape));
  const [only, ...others] = shape.kind === "group" ? shape.parts : [];
  if (only && others.length === 0 && !isTurn(placed) && isAtOrigin(placed)) return only;
  const at: Vec3 = [pose[3]!, pose[7]!, pose[11]!];
  return { kind: "group", at: fine(at), turn_deg: turnOf(pose), parts: [shape] } as ShapeDocument;
}

function placementOf({ at, turn_deg }: ShapeDocument): Pose {
  const pose = turnPose(turn_deg ?? [0, 0, 0]);
  if (at !== undefined && isVector(at)) for (const i of [0, 1, 2] as const) pose[4 * i + 3] = at[i];
  return pose;
}

/** Twice what a placement is rounded to. */
function isAtOrigin(pose: Pose): boolean {
  return [3, 7, 11].every((i) => Math.abs(pose[i]!) < 2e-4);
}

/** Degrees of the intrinsic turns X, Y, Z that make the pose's rotation, R = Rx·Ry·Rz. */
export function turnOf(pose: Pose): Vec3 {
  const degrees = 180 / Math.PI;
  const sine = Math.max(-1, Math.min(1, pose[2]!));
  const y = Math.asin(sine);
  const isUpright = Math.abs(sine) > 1 - 1e-12;
  const x = isUpright ? Math.atan2(pose[9]!, pose[5]!) : Math.atan2(-pose[6]!, pose[10]!);
  const z = isUpright ? 0 : Math.atan2(-pose[1]!, pose[0]!);
  // a file knows no -0
  return [x * degrees + 0, y * degrees + 0, z * degrees + 0];
}
