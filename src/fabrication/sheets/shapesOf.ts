import { composePoses, identityPose, type Pose, turnPose } from "../../maths/pose.ts";
import { ZERO } from "../../maths/vec3.ts";
import type { Shape } from "../../scene/scene.ts";

/** A simple shape of a part, and where its own coordinates stand in the car's. */
export interface PlacedShape {
  readonly shape: Exclude<Shape, { kind: "group" }>;
  readonly pose: Pose;
}

/** The simple shapes that a shape is made of. Placement is p → at + R·p, R intrinsic X, Y, Z, from the outside in. */
export function simpleShapes(shape: Shape, outer: Pose = identityPose()): PlacedShape[] {
  const own = turnPose(shape.turn_deg ?? ZERO);
  [own[3], own[7], own[11]] = shape.at ?? ZERO;
  const pose = composePoses(outer, own);
  return shape.kind === "group" ? shape.parts.flatMap((part) => simpleShapes(part, pose)) : [{ shape, pose }];
}
