import { applyPose, identityPose, mirrorPose, POSE_SIZE, type Pose } from "../maths/pose.ts";
import { normalise, subtract, type Vec3 } from "../maths/vec3.ts";
import { barState } from "./antiRollBar.ts";
import type { Corner } from "./corner.ts";
import { powertrainPose } from "./powertrain.ts";
import { writeLeastTurn } from "./rider.ts";
import { innerJoint, writeShaftPose } from "./shaft.ts";

/**
 * Every mount's pose for carrier poses of one corner and one powertrain pose, in car coordinates.
 *
 * A corner body's design position on the right is the mirror image of the drawn one, and its pose takes that image to
 * its place. Chassis and powertrain stand as drawn for both sides.
 */
export interface MountWriter {
  /** "chassis", "powertrain", "carrier", every member's id, then what exists of "damper-upper", "damper-lower", "driveshaft", "bar", "bar-link". */
  readonly order: readonly string[];
  /**
   * Writes 12 numbers per mount in that order from `offset`. False where the bar's drop link does not reach this
   * state: its two mounts are then left as they were.
   */
  write(carrierLeft: Pose, out: Float64Array, offset?: number): boolean;
}

/** `share`: as powertrainPose takes it. Throws InputError "missing-id" for an unknown powertrain pose. */
export function mountWriter(corner: Corner, powertrainPoseId: string, share = 1): MountWriter {
  const { scene, side } = corner;
  const { damper, driveshaft, antiRollBar } = scene;
  const powertrain = powertrainPose(scene, powertrainPoseId, share);
  const still = identityPose();
  const writers: ((carrier: Pose, out: Pose) => void)[] = [];
  const order: string[] = ["chassis", "powertrain", "carrier"];
  for (const id of ["carrier", ...scene.members.map((member) => member.id)]) {
    if (id !== "carrier") order.push(id);
    const rider = corner.rider(id);
    writers.push((carrier, out) => {
      rider.pose(carrier, out);
    });
  }
  if (damper) {
    const rider = corner.rider(damper.on);
    const drawn = normalise(subtract(damper.bottom, damper.top));
    const ridden = new Float64Array(POSE_SIZE);
    const bottomNow = (carrier: Pose): Vec3 => applyPose(rider.pose(carrier, ridden), damper.bottom);
    order.push("damper-upper", "damper-lower");
    writers.push((carrier, out) => {
      const line = subtract(bottomNow(carrier), damper.topMounted);
      writeLeastTurn(out, drawn, line, damper.top, damper.topMounted);
    });
    writers.push((carrier, out) => {
      const bottom = bottomNow(carrier);
      writeLeastTurn(out, drawn, subtract(bottom, damper.topMounted), damper.bottom, bottom);
    });
  }
  if (driveshaft) {
    const inner = innerJoint(driveshaft, side, powertrain).at;
    order.push("driveshaft");
    writers.push((carrier, out) => writeShaftPose(driveshaft, inner, carrier, out));
  }
  if (antiRollBar) order.push("bar", "bar-link");
  const written = new Float64Array(POSE_SIZE);
  return {
    order,
    write(carrierLeft, out, offset = 0) {
      copyPose(still, out, offset);
      copyPose(powertrain, out, offset + POSE_SIZE);
      let at = offset + 2 * POSE_SIZE;
      for (const writer of writers) {
        writer(carrierLeft, written);
        if (side === "right") mirrorPose(written, written);
        copyPose(written, out, at);
        at += POSE_SIZE;
      }
      if (!antiRollBar) return true;
      const bar = barState(corner, carrierLeft);
      if (!bar) return false;
      for (const pose of [bar.bar, bar.link]) {
        copyPose(side === "right" ? mirrorPose(pose) : pose, out, at);
        at += POSE_SIZE;
      }
      return true;
    },
  };
}

function copyPose(pose: Pose, out: Float64Array, at: number): void {
  for (let k = 0; k < POSE_SIZE; k++) out[at + k] = pose[k]!;
}

/** The mounts' poses by name for one state. Bar and bar link are missing where the bar's drop link does not reach. */
export function mountPoses(corner: Corner, carrierLeft: Pose, powertrainPoseId: string, share = 1): Map<string, Pose> {
  const writer = mountWriter(corner, powertrainPoseId, share);
  const poses = new Float64Array(writer.order.length * POSE_SIZE);
  const reaches = writer.write(carrierLeft, poses);
  const found = new Map<string, Pose>();
  for (const [index, mount] of writer.order.entries()) {
    if (!reaches && (mount === "bar" || mount === "bar-link")) continue;
    found.set(mount, poses.slice(index * POSE_SIZE, (index + 1) * POSE_SIZE));
  }
  return found;
}
