import { withAside } from "./aside.ts";
import type { SceneDocument } from "./document.ts";
import { readable } from "./parts/parts.ts";

export type JointRecord = NonNullable<SceneDocument["joints"]>[number];
export type VehicleRecord = NonNullable<SceneDocument["vehicle"]>;

/** The document with what is told of one joint, in the place of what was told of it before. Throws InputError as reading and resolving do. */
export function withJoint(document: SceneDocument, record: JointRecord): SceneDocument {
  const joints = document.joints ?? [];
  const place = joints.findIndex(({ joint }) => joint === record.joint);
  return readable({ ...document, joints: place < 0 ? [...joints, record] : joints.with(place, record) });
}

/** The document with nothing told of the joint. */
export function withoutJoint(document: SceneDocument, joint: string): SceneDocument {
  const joints = (document.joints ?? []).filter((record) => record.joint !== joint);
  const { joints: _, ...rest } = document;
  return readable(joints.length === 0 ? rest : { ...rest, joints });
}

/** The document with the car's wheelbase and centre of gravity; undefined takes them out. Throws InputError as reading does. */
export function withVehicle(document: SceneDocument, vehicle: VehicleRecord | undefined): SceneDocument {
  return readable(withAside(document, { vehicle }));
}
