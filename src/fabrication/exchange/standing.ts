import type { ModelBody, PartGroup } from "../../check/model.ts";
import type { NamedMesh } from "../../geometry/export/meshFiles.ts";
import { compileCorner, solveCorner } from "../../kinematics/corner.ts";
import { mountPoses } from "../../kinematics/mounts.ts";
import { applyPose, type Pose } from "../../maths/pose.ts";
import { InputError } from "../../scene/error.ts";
import type { Scene, Side } from "../../scene/scene.ts";

/** Where the wheels are, and the powertrain in one of its poses or on its way there. */
export interface StandingState {
  /** Of both wheels, or of each; a side that is left out stands at ride height. */
  readonly travel_mm: number | Readonly<Partial<Record<Side, number>>>;
  /** "rest" or the id of a powertrain pose. */
  readonly pose: string;
  /** How far the powertrain has got from rest to its pose; 1 where left out. */
  readonly share?: number;
}

/** One body where it stands then, in car coordinates (forward, left, up), named as the check names it: "sump", "upper@left". */
export interface StandingPart extends NamedMesh {
  readonly group: PartGroup;
}

/**
 * Every body of the checked model in one state; bar and drop links are left out where the link does not reach. Throws
 * InputError for a travel that the corner does not reach and for a pose that is not there.
 */
export function standingParts(scene: Scene, bodies: readonly ModelBody[], state: StandingState): StandingPart[] {
  const poses = new Map(scene.sides.map((side) => [side, posesOf(scene, side, state)]));
  const parts: StandingPart[] = [];
  for (const { key, group, side, mount, solid } of bodies) {
    const pose = poses.get(side === "both" ? scene.sides[0]! : side)?.get(mount);
    if (pose) parts.push({ key, group, positions: posed(solid.positions, pose), indices: solid.indices });
  }
  return parts;
}

/** Poses of one side's mounts by name, car coordinates. Throws InputError as standingParts does. */
export function posesOf(
  scene: Scene,
  side: Side,
  { travel_mm: height, pose, share = 1 }: StandingState,
): Map<string, Pose> {
  const travel_mm = typeof height === "number" ? height : (height[side] ?? 0);
  const corner = compileCorner(scene, side);
  const { bump_mm, droop_mm } = scene.travel;
  const solved = travel_mm >= -droop_mm && travel_mm <= bump_mm ? solveCorner(corner, travel_mm) : null;
  if (solved?.status !== "solved")
    throw new InputError(
      "out-of-reach",
      { path: "travel" },
      `the corner does not reach ${travel_mm} mm of travel`,
      `one from ${-droop_mm} to ${bump_mm} mm that it goes through`,
    );
  return mountPoses(corner, solved.pose, pose, share);
}

function posed(positions: Float32Array, pose: Pose): Float32Array {
  const moved = new Float32Array(positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    moved.set(applyPose(pose, [positions[i]!, positions[i + 1]!, positions[i + 2]!]), i);
  }
  return moved;
}
