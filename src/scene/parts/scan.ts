import { composePoses, identityPose, invertPose, type Pose, turnPose } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { BodyDocument, SceneDocument, ShapeDocument } from "../document.ts";
import { InputError } from "../error.ts";
import type { MeshReading } from "../meshFiles.ts";
import { isVector } from "../pointResolver.ts";
import { turnOf } from "./mount.ts";
import { bodyIndex, readable, withBody } from "./parts.ts";

/** A mesh file as a part of the car. */
export interface ScanPart {
  readonly id: string;
  readonly on: string;
  readonly role: string | null;
  readonly file: string;
  readonly reading: MeshReading;
  /** Takes the mesh to where it is drawn, car coordinates. */
  readonly pose: Pose;
}

type MeshShape = Extract<ShapeDocument, { kind: "mesh" }>;

/** The part that is nothing but a mesh file; null where it is something else, or hangs on a hard point. */
export function scanOf(document: SceneDocument, id: string): ScanPart | null {
  const body = document.bodies.find((candidate) => candidate.id === id);
  const found = body && meshWithin(body.shape, identityPose());
  if (!body || !found) return null;
  const { file, unit, repair = null, thinned = null } = found.shape;
  return { id, on: body.on, role: body.role ?? null, file, reading: { unit, repair, thinned }, pose: found.pose };
}

/** Through groups that only place it, as a change of what the part rides on leaves them. */
function meshWithin(shape: ShapeDocument, outer: Pose): { readonly shape: MeshShape; readonly pose: Pose } | null {
  if (shape.at !== undefined && !isVector(shape.at)) return null;
  const own = turnPose(shape.turn_deg ?? [0, 0, 0]);
  if (shape.at !== undefined) for (const k of [0, 1, 2] as const) own[4 * k + 3] = shape.at[k];
  const pose = composePoses(outer, own);
  if (shape.kind === "mesh") return { shape, pose };
  return shape.kind === "group" && shape.parts.length === 1 ? meshWithin(shape.parts[0]!, pose) : null;
}

/**
 * The scene with that scan: a new part, or in place of the part `was`. Every part that is drawn by the same file is read as this
 * one is. Throws InputError `duplicate-id` and what the finished document is refused with.
 */
export function withScan(document: SceneDocument, scan: ScanPart, was: string | null = null): SceneDocument {
  if (scan.id !== was && bodyIndex(document, scan.id) >= 0) {
    const wrong = `there is a part "${scan.id}" already`;
    throw new InputError("duplicate-id", { path: "bodies" }, wrong, "a name of its own");
  }
  const shape: MeshShape = {
    kind: "mesh",
    at: placeOf(scan.pose),
    turn_deg: turnOf(scan.pose).map((angle) => rounded(angle, 1e9)) as unknown as Vec3,
    file: scan.file,
    ...readingFields(scan.reading),
  };
  const old = was === null ? undefined : document.bodies[bodyIndex(document, was)];
  const { made: _, role: __, ...kept } = old ?? { mirror: undefined };
  const body: BodyDocument = {
    ...(kept as Partial<BodyDocument>),
    id: scan.id,
    on: scan.on,
    shape,
    ...(scan.role ? { role: scan.role } : {}),
  };
  const grown =
    old && was !== null ? withBody(document, was, body) : { ...document, bodies: [...document.bodies, body] };
  return readable(readAlike(grown, scan));
}

/** To a millionth of a millimetre, a billionth of a degree: far below what is measured, and no longer to read than need be. */
function placeOf(pose: Pose): Vec3 {
  return [3, 7, 11].map((i) => rounded(pose[i]!, 1e6)) as unknown as Vec3;
}

function rounded(value: number, steps: number): number {
  return Math.round(value * steps) / steps + 0;
}

function readingFields({ unit, repair, thinned }: MeshReading): Pick<MeshShape, "unit" | "repair" | "thinned"> {
  return { unit, ...(repair ? { repair } : {}), ...(thinned ? { thinned } : {}) };
}

function readAlike(document: SceneDocument, { file, reading }: ScanPart): SceneDocument {
  const alike = (shape: ShapeDocument): ShapeDocument => {
    if (shape.kind === "group") {
      const parts = shape.parts.map(alike);
      return parts.every((part, i) => part === shape.parts[i]) ? shape : { ...shape, parts };
    }
    if (shape.kind !== "mesh" || shape.file !== file) return shape;
    const { unit: _, repair: __, thinned: ___, ...rest } = shape;
    return { ...rest, ...readingFields(reading) };
  };
  const bodies = document.bodies.map((body) => {
    const shape = alike(body.shape);
    return shape === body.shape ? body : { ...body, shape };
  });
  const members = document.members.map((member) => {
    const shape = member.body ? alike(member.body) : member.body;
    return shape === member.body ? member : { ...member, body: shape };
  });
  return { ...document, bodies, members };
}

/** The pose in which a part on a mount that stands at `mount` is drawn so that it is seen at `seen`. */
export function drawnPose(mount: Pose, seen: Pose): Pose {
  return composePoses(invertPose(mount), seen);
}
