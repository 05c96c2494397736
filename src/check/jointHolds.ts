import type { Corner } from "../kinematics/corner.ts";
import { jointReader, linkTwistReader } from "../kinematics/jointTilt.ts";
import type { Pose } from "../maths/pose.ts";
import type { Held } from "./limitStates.ts";
import type { LimitName } from "./result.ts";

/** The joints' limits of one corner, and what each has left at a carrier pose (left frame), in the same order. */
export interface JointHolds {
  readonly limits: readonly { readonly what: LimitName; readonly joint: string }[];
  held(carrier: Pose): Held[];
}

const made = new WeakMap<Corner, JointHolds | null>();

/**
 * Tilt and twist of every joint that has a limit of them, the bracket as crooked as it may stand, and the twist of links
 * between two rod ends. Null where the scene limits none.
 */
export function jointHolds(corner: Corner): JointHolds | null {
  const known = made.get(corner);
  if (known !== undefined) return known;
  const holds = makeHolds(corner);
  made.set(corner, holds);
  return holds;
}

function makeHolds(corner: Corner): JointHolds | null {
  const { joints, members } = corner.scene;
  const limits: JointHolds["limits"][number][] = [];
  const reads: ((carrier: Pose) => Held[])[] = [];
  for (const fit of joints) {
    const { joint, tilt_deg, twist_deg, crooked_deg } = fit;
    if (tilt_deg === null && twist_deg === null) continue;
    const read = jointReader(corner, fit);
    if (tilt_deg !== null) limits.push({ what: "joint-tilt", joint });
    if (twist_deg !== null) limits.push({ what: "joint-twist", joint });
    reads.push((carrier) => {
      const held: Held[] = [];
      if (tilt_deg !== null) held.push(atMost(read.tilt_deg(carrier) + crooked_deg, tilt_deg));
      if (twist_deg !== null) held.push(atMost(Math.abs(read.twist_deg(carrier)), twist_deg));
      return held;
    });
  }
  for (const member of members) {
    const read = member.kind === "link" ? linkTwistReader(corner, member, joints) : null;
    if (!read) continue;
    limits.push({ what: "joint-twist", joint: member.id });
    reads.push((carrier) => {
      const { twist_deg, room_deg } = read(carrier);
      return [atMost(Math.abs(twist_deg), room_deg)];
    });
  }
  if (limits.length === 0) return null;
  return { limits, held: (carrier) => reads.flatMap((read) => read(carrier)) };
}

function atMost(value: number, limit: number): Held {
  return { value, limit, spare: limit - value };
}
