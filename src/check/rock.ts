import type { Motion, Rock, RockBound } from "../clearance/types.ts";
import { shortName } from "../geometry/content.ts";
import type { Solid } from "../geometry/solid.ts";
import { placedPose } from "../kinematics/powertrain.ts";
import { powertrainReach, rocks, type ShaftAtRest, shaftAtRest, shaftReach } from "../kinematics/rock.ts";
import { applyPose, type Pose } from "../maths/pose.ts";
import { mirror, type Vec3 } from "../maths/vec3.ts";
import type { PowertrainPose } from "../scene/scene.ts";
import type { ModelBody } from "./model.ts";
import { type CheckShelf, recall } from "./shelf.ts";
import { powertrainMotion, type SideRun, shaftMotion, type Tracks } from "./tracks.ts";

const STANDS: RockBound = { speed_mm: 0, bend_mm: 0 };

/** Tells the way of two bodies from rest to one powertrain pose. */
export type RockOf = (first: ModelBody, second: ModelBody) => Rock;

/**
 * Makes the ways of all pairs of one side from rest to one powertrain pose after another; null for a pose that is where rest is.
 * `tracks`: motions in the pose itself; what neither powertrain nor driveshaft carries keeps them all the way.
 */
export function rockMaker(
  sideRun: SideRun,
  shelf: CheckShelf,
): (pose: PowertrainPose, tracks: Tracks) => RockOf | null {
  const { corner, run, side } = sideRun;
  const { driveshaft } = corner.scene;
  const atRest = driveshaft && shaftAtRest(corner.scene, driveshaft, side, run.carrier);
  return (pose, tracks) => (rocks(pose) ? rocksOf(sideRun, pose, tracks, atRest, shelf) : null);
}

function rocksOf(
  sideRun: SideRun,
  pose: PowertrainPose,
  tracks: Tracks,
  atRest: ShaftAtRest | null,
  shelf: CheckShelf,
): RockOf {
  const { corner, side } = sideRun;
  const { scene } = corner;
  const { driveshaft } = scene;
  const placed = placedPose(scene);
  const { about, axis, angle_deg, shift_mm } = pose;
  const turning = JSON.stringify([about, axis, angle_deg, shift_mm]);
  const placing = [...placed].join(",");
  const powertrainWay = shelf.ways.recall(`${placing} ${turning}`, () => new Map());
  const shaftWay = new Map<number, Motion>();
  const bounds = new Map<string, RockBound>();

  const motionAt = (mount: string, share: number): Motion => {
    if (mount === "powertrain") return recall(powertrainWay, share, () => powertrainMotion(scene, pose.id, share));
    if (mount === "driveshaft") return recall(shaftWay, share, () => shaftMotion(sideRun, pose.id, share));
    return tracks.get(mount)!;
  };
  const boundOf = (body: ModelBody): RockBound => {
    if (body.mount === "powertrain") {
      return recall(bounds, body.key, () => {
        const name = `${body.content} ${placing} ${about.join(",")} ${axis.join(",")}`;
        return powertrainReach(
          pose,
          shelf.reaches.recall(name, () => farthestFromAxis(body.solid, placed, about, axis)),
        );
      });
    }
    if (body.mount !== "driveshaft" || !driveshaft || !atRest) return STANDS;
    return recall(bounds, body.key, () => {
      const outer = side === "left" ? driveshaft.outer : mirror(driveshaft.outer);
      const name = `${body.content} ${outer.join(",")}`;
      const farthest_mm = shelf.reaches.recall(name, () => farthestFrom(body.solid, outer));
      return shaftReach(pose, atRest, farthest_mm);
    });
  };
  const shaft = driveshaft && [applyPose(placed, driveshaft.inner[side].at), driveshaft.outer];
  const content = shortName(JSON.stringify([turning, side, shaft]));
  return (first, second) => ({
    content,
    a: boundOf(first),
    b: boundOf(second),
    motionsAt: (share) => ({ a: motionAt(first.mount, share), b: motionAt(second.mount, share) }),
  });
}

/** The largest distance of a solid's points, the solid in the given pose, from the line through `about` along the unit vector `axis`. */
function farthestFromAxis({ positions }: Solid, pose: Pose, about: Vec3, axis: Vec3): number {
  const [ax, ay, az] = axis;
  const [p0, p1, p2, px, p4, p5, p6, py, p8, p9, p10, pz] = pose as unknown as number[];
  let most = 0;
  for (let i = 0; i < positions.length; i += 3) {
    const [x, y, z] = [positions[i]!, positions[i + 1]!, positions[i + 2]!];
    const dx = p0! * x + p1! * y + p2! * z + px! - about[0];
    const dy = p4! * x + p5! * y + p6! * z + py! - about[1];
    const dz = p8! * x + p9! * y + p10! * z + pz! - about[2];
    most = Math.max(most, (ay * dz - az * dy) ** 2 + (az * dx - ax * dz) ** 2 + (ax * dy - ay * dx) ** 2);
  }
  return Math.sqrt(most);
}

/** The largest distance of a solid's points, as drawn, from a point. */
function farthestFrom({ positions }: Solid, [x, y, z]: Vec3): number {
  let most = 0;
  for (let i = 0; i < positions.length; i += 3) {
    most = Math.max(most, (positions[i]! - x) ** 2 + (positions[i + 1]! - y) ** 2 + (positions[i + 2]! - z) ** 2);
  }
  return Math.sqrt(most);
}
