import { type Corner, compileCorner } from "../../kinematics/corner.ts";
import { type MountEnd, mountEnds, mountResidualRates } from "../../kinematics/mountRates.ts";
import { type ReadingRates, readingRates } from "../../kinematics/readings.ts";
import type { Pose } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { usersOfPoint } from "../../scene/points.ts";
import type { Scene } from "../../scene/scene.ts";

export const DIRECTIONS = ["forward", "out", "up"] as const;
export type Direction = (typeof DIRECTIONS)[number];
const ALONG: Readonly<Record<Direction, Vec3>> = { forward: [1, 0, 0], out: [0, 1, 0], up: [0, 0, 1] };

/** Change of the wheel's readings per mm that a mount is moved, every part as long as it is. */
export type MountRates = Readonly<Record<Direction, ReadingRates>>;

/** A named point at which members are held to the chassis. */
export interface Mount {
  readonly point: string;
  readonly ends: readonly { readonly member: number; readonly end: MountEnd }[];
}

/** Every named point that holds a member to the chassis, in the order of the file. */
export function mountsOf(document: SceneDocument, scene: Scene): Mount[] {
  return Object.keys(document.points).flatMap((point): Mount[] => {
    const paths = usersOfPoint(document, point)
      .filter(({ isMount }) => isMount)
      .map(({ path }) => path);
    const ends = scene.members.flatMap((member, index) =>
      mountEnds(member).flatMap((end) => (paths.includes(`members[${index}].${end}`) ? [{ member: index, end }] : [])),
    );
    return ends.length > 0 ? [{ point, ends }] : [];
  });
}

/**
 * Exact derivatives at a carrier pose (left frame) by implicit differentiation: with the constraint equations F(q, m) = 0 of the carrier's
 * state q and a mount m, dq/dm = −(∂F/∂q)⁻¹·∂F/∂m at the wheel's height. Null exactly at a lock.
 */
export function mountRates(corner: Corner, mount: Mount, carrierLeft: Pose): MountRates | null {
  const rates: Partial<Record<Direction, ReadingRates>> = {};
  for (const direction of DIRECTIONS) {
    const residuals = mount.ends
      .map(({ member, end }) => mountResidualRates(corner.scene, member, end, ALONG[direction], carrierLeft))
      .reduce((sum, each) => sum.map((value, i) => value + each[i]!));
    const response = corner.solver.responseAt(carrierLeft, residuals);
    if (!response) return null;
    rates[direction] = readingRates(corner.scene, carrierLeft, response);
  }
  return rates as MountRates;
}

/** A corner at ride height, its first side. */
export function cornerAtRide(scene: Scene): { readonly corner: Corner; readonly pose: Pose } {
  const corner = compileCorner(scene, scene.sides[0]!);
  return { corner, pose: corner.ridePose };
}
