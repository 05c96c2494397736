import { describe, expect, it } from "vitest";
import { prepareCheck } from "../../src/check/check.ts";
import { sweptStates } from "../../src/check/sweptStates.ts";
import { solveCorner } from "../../src/kinematics/corner.ts";
import { mountPoses } from "../../src/kinematics/mounts.ts";
import { applyPose, composePoses, invertPose, POSE_SIZE, poseOfTrack } from "../../src/maths/pose.ts";
import { distance, type Vec3 } from "../../src/maths/vec3.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { smallScene } from "../app/smallScene.ts";

const scene = resolveScene(
  smallScene({
    driveshaft: { inner: [0, 200, 300], innerAxis: [0, 1, 0], outer: [0, 690, 300], diameter_mm: 26 },
  }),
);
const { bodies, runs } = prepareCheck(scene);
const body = (key: string) => bodies.find((each) => each.key === key)!;
let seed = 5;
const random = () => {
  seed = (Math.imul(seed, 1103515245) + 12345) & 0x7fffffff;
  return seed / 0x7fffffff;
};

/** Some points of the body, at a state of our own choosing, and how far they are from where the nearest placement has them. */
function farthestFromPlacements(key: string, on: string | null, accuracy_mm: number) {
  const [moving, seenFrom] = [body(key), on === null ? null : body(on)];
  const states = sweptStates(scene, runs, moving, seenFrom, accuracy_mm);
  const { positions } = moving.solid;
  const points = [0, 0.3, 0.6, 0.99].map((share): Vec3 => {
    const i = 3 * Math.floor((share * positions.length) / 3);
    return [positions[i]!, positions[i + 1]!, positions[i + 2]!];
  });
  let worst = 0;
  for (let n = 0; n < 25; n++) {
    const travel_mm = -70 + 130 * random();
    const share = random();
    const mounts = (side: string) =>
      mountPoses(
        runs.find((run) => run.side === side)!.corner,
        solveCorner(runs[0]!.corner, travel_mm).pose,
        "pulling",
        share,
      );
    const poseOf = (each: typeof moving) => mounts(each.side === "both" ? "left" : each.side).get(each.mount)!;
    const pose = seenFrom ? composePoses(invertPose(poseOf(seenFrom)), poseOf(moving)) : poseOf(moving);
    let least = Infinity;
    for (let p = 0; p < states.poses.length / POSE_SIZE; p++) {
      const placement = poseOfTrack(states.poses, p);
      least = Math.min(least, Math.max(...points.map((at) => distance(applyPose(pose, at), applyPose(placement, at)))));
    }
    worst = Math.max(worst, least);
  }
  return { worst, states };
}

describe("placements of a body over its motion", () => {
  it.each([
    ["toe@left", null],
    ["tyre@right", null],
    ["gearbox-mount-ear", null],
    ["driveshaft@left", null],
    ["toe@left", "gearbox-mount-ear"],
    ["gearbox-mount-ear", "tyre@left"],
  ] as const)("of %s seen from %s leave no state farther away than is told", (key, on) => {
    const { worst, states } = farthestFromPlacements(key, on, 6);
    expect(worst).toBeLessThanOrEqual(states.between_mm + 1e-3);
    // and are no waste: not ten times closer than they need be
    expect(states.between_mm).toBeGreaterThan(0.1);
    expect(states.between_mm).toBeLessThan(6);
  });

  it("of what stands still is one, where it stands", () => {
    const states = sweptStates(scene, runs, body("rail"), null, 2);
    expect(states.poses).toHaveLength(POSE_SIZE * 2);
    expect(states.between_mm).toBe(0);
  });
});
