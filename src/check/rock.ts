import type { Motion, Rock, RockBound } from "../clearance/types.ts";
import { stableJson } from "../geometry/content.ts";
import type { Solid } from "../geometry/solid.ts";
import { placedPose } from "../kinematics/powertrain.ts";
import { axisDistance, powertrainReach, rocks, shaftReach } from "../kinematics/rock.ts";
import { applyPose } from "../maths/pose.ts";
import { distance, mirror, type Vec3 } from "../maths/vec3.ts";
import type { PowertrainPose } from "../scene/scene.ts";
import type { ModelBody } from "./model.ts";
import { powertrainMotion, type SideRun, shaftMotion, type Tracks } from "./tracks.ts";

const STANDS: RockBound = { speed_mm: 0, bend_mm: 0 };

/**
 * The way of every pair of one side from rest to one powertrain pose; null for a pose that is where rest is.
 * `tracks`: motions in the pose itself; what neither powertrain nor driveshaft carries keeps them all the way.
 */
export function rocksOf(
  sideRun: SideRun,
  pose: PowertrainPose,
  tracks: Tracks,
): ((first: ModelBody, second: ModelBody) => Rock) | null {
  if (!rocks(pose)) return null;
  const { corner, run, side } = sideRun;
  const { scene } = corner;
  const placed = placedPose(scene);
  const motions = new Map<string, Motion>();
  const bounds = new Map<string, RockBound>();

  const motionAt = (mount: string, share: number): Motion => {
    if (mount !== "powertrain" && mount !== "driveshaft") return tracks.get(mount)!;
    return recall(motions, `${mount} ${share}`, () =>
      mount === "powertrain" ? powertrainMotion(scene, pose.id, share) : shaftMotion(sideRun, pose.id, share),
    );
  };
  const boundOf = (body: ModelBody): RockBound => {
    const { driveshaft } = scene;
    if (body.mount === "powertrain") {
      return recall(bounds, body.key, () =>
        powertrainReach(
          pose,
          farthest(body, [placed, pose.about, pose.axis], (p) => axisDistance(pose, applyPose(placed, p))),
        ),
      );
    }
    if (body.mount !== "driveshaft" || !driveshaft) return STANDS;
    const outer = side === "left" ? driveshaft.outer : mirror(driveshaft.outer);
    return recall(bounds, body.key, () =>
      shaftReach(
        scene,
        driveshaft,
        side,
        pose,
        run.carrier,
        farthest(body, [outer], (p) => distance(outer, p)),
      ),
    );
  };
  const { about, axis, angle_deg, shift_mm } = pose;
  const content = JSON.stringify([
    about,
    axis,
    angle_deg,
    shift_mm,
    side,
    scene.driveshaft && [applyPose(placed, scene.driveshaft.inner[side].at), scene.driveshaft.outer],
  ]);
  return (first, second) => ({
    content,
    a: boundOf(first),
    b: boundOf(second),
    motionsAt: (share) => ({ a: motionAt(first.mount, share), b: motionAt(second.mount, share) }),
  });
}

const known = new WeakMap<Solid, Map<string, number>>();

/** The largest of a body's points' distances; `from`: all that those depend on. A scan's many points are gone through once. */
function farthest({ solid }: ModelBody, from: unknown, distanceOf: (point: Vec3) => number): number {
  const ofSolid = known.get(solid) ?? new Map<string, number>();
  known.set(solid, ofSolid);
  return recall(ofSolid, stableJson(from), () => {
    const { positions } = solid;
    let most = 0;
    for (let i = 0; i < positions.length; i += 3) {
      most = Math.max(most, distanceOf([positions[i]!, positions[i + 1]!, positions[i + 2]!]));
    }
    return most;
  });
}

function recall<T>(kept: Map<string, T>, name: string, make: () => T): T {
  let value = kept.get(name);
  if (value === undefined) {
    value = make();
    kept.set(name, value);
  }
  return value;
}
