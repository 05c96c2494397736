import { compileCorner } from "../../src/kinematics/corner.ts";
import { mountWriter } from "../../src/kinematics/mounts.ts";
import { readCorner } from "../../src/kinematics/readings.ts";
import { runTravel } from "../../src/kinematics/travel.ts";
import { POSE_SIZE, poseOfTrack } from "../../src/maths/pose.ts";
import { corner, damper, shaft, wheel } from "../kinematics/corners.ts";
import { randomMembers, randomOf } from "../kinematics/random.ts";

const RANGE = { bump_mm: 80, droop_mm: 70, step_mm: 1 };
const SECONDS = 0.4;

/** Poses per second on one core for every mix of members, and the states per second of all mounts and of readings. */
export async function benchKinematics(): Promise<string[]> {
  const lines: string[] = [];
  for (const [mix, members] of randomMembers(randomOf(2024))) {
    const scene = corner(members, wheel([0, 740, 300], 0.15, -1), {
      damper: damper([-15, 500, 600], [-40, 560, 215]),
      driveshaft: shaft([25, 235, 345], [0, 1, 0], [0, 668, 300]),
    });
    const compiled = compileCorner(scene, "right");
    const { carrier, travel_mm } = runTravel(compiled, RANGE);
    const count = travel_mm.length;
    const solves = rate(() => runTravel(compiled, RANGE).travel_mm.length);
    const writer = mountWriter(compiled, "rest");
    const out = new Float64Array(writer.order.length * POSE_SIZE);
    const mounts = rate(() => {
      for (let knot = 0; knot < count; knot++) writer.write(poseOfTrack(carrier, knot), out);
      return count;
    });
    const readings = rate(() => {
      for (let knot = 0; knot < count; knot++) readCorner(compiled, poseOfTrack(carrier, knot), "rest");
      return count;
    });
    lines.push(
      `${mix.padEnd(26)} ${thousands(solves)} poses/s   ${thousands(mounts)} mount states/s   ${thousands(readings)} readings/s`,
    );
  }
  return lines;
}

function rate(work: () => number): number {
  for (let i = 0; i < 20; i++) work();
  const start = performance.now();
  let done = 0;
  let seconds = 0;
  while (seconds < SECONDS) {
    done += work();
    seconds = (performance.now() - start) / 1000;
  }
  return done / seconds;
}

function thousands(perSecond: number): string {
  return `${Math.round(perSecond / 1000)}k`.padStart(6);
}
