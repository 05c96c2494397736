import { composePoses, identityPose, type Pose, turnPose } from "../../maths/pose.ts";
import { ZERO } from "../../maths/vec3.ts";
import type { GroupShape, Shape } from "../../scene/scene.ts";

export type Piece = Exclude<Shape, GroupShape>;

/** A piece of a body and the pose that takes it from where it is written to where it is in the car. */
export interface PlacedPiece {
  readonly piece: Piece;
  readonly pose: Pose;
}

/** The shape's pieces, groups opened. */
export function placedPieces(shape: Shape, outer: Pose = identityPose()): PlacedPiece[] {
  const pose = shape.at || shape.turn_deg ? composePoses(outer, ownPose(shape)) : outer;
  return shape.kind === "group" ? shape.parts.flatMap((part) => placedPieces(part, pose)) : [{ piece: shape, pose }];
}

function ownPose({ at, turn_deg }: Shape): Pose {
  const pose = turnPose(turn_deg ?? ZERO);
  const [x, y, z] = at ?? ZERO;
  pose[3] = x;
  pose[7] = y;
  pose[11] = z;
  return pose;
}
