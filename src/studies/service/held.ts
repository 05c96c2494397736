import { listJoints } from "../../kinematics/joints.ts";
import { distance } from "../../maths/vec3.ts";
import { partOfJoint } from "../../scene/jointNames.ts";
import { bodiesOf } from "../../scene/parts/remove.ts";
import type { Side } from "../../scene/scene.ts";
import type { SwingStep } from "../../scene/serviceRecords.ts";
import type { ServiceCar } from "./car.ts";

const SAME_PLACE_mm = 1;

/**
 * Names of the joints that still hold what a step swings: all between it and what stands, but for the one that it swings about, the
 * driveshaft's, which slide, and those whose bolt is out or whose part is off.
 */
export function jointEnds(car: ServiceCar, side: Side, step: SwingStep, removed: readonly string[]): string[] {
  const { clusterOf, scene } = car;
  const moves = clusterOf(step.member);
  const gone = new Set(removed.flatMap((part) => bodiesOf(part)));
  return listJoints(scene, side).flatMap(({ id, between, atFirst }) => {
    const [one, other] = between.map(clusterOf) as [string, string];
    if ((one === moves) === (other === moves)) return [];
    const part = partOfJoint(id);
    if (part === "driveshaft" || id === step.joint || distance(atFirst, step.about) < SAME_PLACE_mm) return [];
    const isOff = removed.includes(id) || removed.includes(part) || between.some((mount) => gone.has(mount));
    return isOff ? [] : [id];
  });
}
