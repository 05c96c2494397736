import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { runSide } from "../../src/check/tracks.ts";
import { poseOfMotion } from "../../src/clearance/motion.ts";
import { mountWriter } from "../../src/kinematics/mounts.ts";
import { runTravel } from "../../src/kinematics/travel.ts";
import { applyPose, POSE_SIZE, poseOfTrack } from "../../src/maths/pose.ts";
import { distance } from "../../src/maths/vec3.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { readCornerFile } from "../corners/lot.ts";

const folder = new URL("../../scenes/", import.meta.url);
const samples = readdirSync(folder).filter((name) => name.endsWith(".json"));

/** Random corners whose parts run many times as fast as the wheel rises before they lock. */
const NEAR_LOCKS = [932, 1778];

/** How far the wheel's centre on any mount is from where the corner, solved anew, has it, the worst of many travels between all knots. */
function worstStray_mm(scene: Scene, least_mm: number): number {
  const { corner, run } = runSide(scene, scene.sides[0]!);
  const writer = mountWriter(corner, "rest");
  const at = (carrier: Float64Array) => {
    const poses = new Float64Array(writer.order.length * POSE_SIZE);
    writer.write(carrier, poses);
    return poses;
  };
  const { centre } = scene.wheel;
  let worst_mm = 0;
  for (let i = 1; i < run.travel_mm.length; i++) {
    const [from, to] = [run.travel_mm[i - 1]!, run.travel_mm[i]!];
    if (to - from < least_mm) continue;
    const ends = [at(poseOfTrack(run.carrier, i - 1)), at(poseOfTrack(run.carrier, i))];
    for (const share of [0.3, 0.5, 0.8]) {
      const travel_mm = from + share * (to - from);
      const solved = at(corner.solver.solve(travel_mm).pose);
      writer.order.forEach((_, mount) => {
        const poses = Float64Array.of(...ends.flatMap((each) => [...poseOfTrack(each, mount)]));
        const pose = poseOfMotion(
          { travel_mm: Float64Array.of(from, to), poses },
          travel_mm,
          new Float64Array(POSE_SIZE),
        );
        const off_mm = distance(applyPose(pose, centre), applyPose(poseOfTrack(solved, mount), centre));
        worst_mm = Math.max(worst_mm, off_mm);
      });
    }
  }
  return worst_mm;
}

describe("knots of a motion", () => {
  it.each(samples)("stand at whole steps in %s, as far apart as they always were", (name) => {
    const scene = resolveScene(readScene(readFileSync(new URL(name, folder), "utf8"), name));
    const { corner, run } = runSide(scene, scene.sides[0]!);
    expect(run).toEqual(runTravel(corner, { ...scene.travel, step_mm: Math.min(1, scene.travel.step_mm) }));
  });

  it.each(NEAR_LOCKS)(
    "come closer before a lock, until no part of corner %i is beside its way between them",
    (number) => {
      const { scene } = readCornerFile(number);
      const { corner, run } = runSide(scene, scene.sides[0]!);
      const plain = runTravel(corner, { ...scene.travel, step_mm: Math.min(1, scene.travel.step_mm) });
      expect(run.travel_mm.length).toBeGreaterThan(plain.travel_mm.length);
      expect([...run.travel_mm]).toEqual(expect.arrayContaining([...plain.travel_mm]));
      expect([run.from_mm, run.to_mm, run.bindsAt_mm]).toEqual([plain.from_mm, plain.to_mm, plain.bindsAt_mm]);
      for (let i = 1; i < run.travel_mm.length; i++) expect(run.travel_mm[i]!).toBeGreaterThan(run.travel_mm[i - 1]!);
      // held to 0.005 mm halfway; a way that bends like a root strays more beside it
      expect(worstStray_mm(scene, 1 / 500)).toBeLessThan(0.02);
    },
  );
});
