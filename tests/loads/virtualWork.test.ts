import { describe, it } from "vitest";
import { readCorner } from "../../src/kinematics/readings.ts";
import { carrierPointRate } from "../../src/kinematics/rider.ts";
import { applyPose, invertPose, POSE_SIZE } from "../../src/maths/pose.ts";
import {
  add,
  cross,
  distance,
  dot,
  mirror,
  normalise,
  scale,
  squareTo,
  subtract,
  type Vec3,
} from "../../src/maths/vec3.ts";
import { agreesWithin } from "../truth/agreement.ts";
import { MIXES, type RandomCase, randomCase } from "./cornerCase.ts";

/**
 * Power per mm of wheel travel of everything from outside that acts on the corner, the damper excepted, by the rates that
 * the solver's Jacobian gives: the members, which only hold, do no work.
 */
function powerOf({ scene, corner, carrier, load, loads }: RandomCase): number {
  const rates = corner.solver.ratesAt(carrier)!;
  const { centre } = scene.wheel;
  const drawn = invertPose(carrier);
  const put = (v: Vec3) => (corner.side === "left" ? v : mirror(v));
  const velocity = (at: Vec3) => carrierPointRate(centre, carrier, rates, applyPose(drawn, at));
  const jointOf = (id: string) => loads!.joints.find((joint) => joint.id === id);
  const ground = put(loads!.ground.at);
  let power = dot(load.force_N, velocity(ground));
  const shaft = jointOf("driveshaft.outer");
  if (shaft) {
    const couple = scale(put(shaft.moment_Nmm), corner.side === "left" ? 1 : -1);
    power += dot(put(shaft.force_N), velocity(put(shaft.at))) + dot(couple, rates.turn);
  }
  if (load.torque === "free") {
    const hub = applyPose(carrier, centre);
    const axis = spinNow(scene.wheel.toe_deg, scene.wheel.camber_deg, carrier);
    power -= dot(cross(subtract(ground, hub), load.force_N), axis) * dot(axis, rates.turn);
  }
  const pickup = jointOf("bar.pickup");
  if (pickup) {
    const { antiRollBar } = scene;
    power += dot(put(pickup.force_N), corner.rider(antiRollBar!.on).pointRate(carrier, rates, antiRollBar!.pickup));
  }
  // a bush that keeps a link from spinning about its own axis works as far as the link spins
  for (const member of scene.members) {
    const spin_Nmm = loads!.members.find(({ id }) => id === member.id)!.spin_Nmm;
    if (member.kind !== "link" || !spin_Nmm) continue;
    const axis = normalise(subtract(member.outboard, member.inboard));
    const aside = add(member.inboard, scale(squareTo(axis), 100));
    const rider = corner.rider(member.id);
    const pose = rider.pose(carrier, new Float64Array(POSE_SIZE));
    const arm = subtract(applyPose(pose, aside), applyPose(pose, member.inboard));
    const turning = cross(arm, rider.pointRate(carrier, rates, aside));
    const now = normalise(subtract(applyPose(pose, member.outboard), applyPose(pose, member.inboard)));
    power += spin_Nmm * (dot(turning, now) / distance(arm, [0, 0, 0]) ** 2);
  }
  return power;
}

function spinNow(toe_deg: number, camber_deg: number, carrier: Float64Array): Vec3 {
  const [t, c] = [(toe_deg * Math.PI) / 180, (camber_deg * Math.PI) / 180];
  const drawn: Vec3 = [Math.sin(t) * Math.cos(c), Math.cos(t) * Math.cos(c), -Math.sin(c)];
  return subtract(applyPose(carrier, drawn), applyPose(carrier, [0, 0, 0]));
}

describe.each(MIXES)("virtual work: %s", (mix) => {
  it("of the damper, its force times the solver's own damper ratio, is that of the wheel's loads", () => {
    for (let seed = 1; seed <= 60; seed++) {
      const found = randomCase(seed, mix);
      if (!found?.loads) continue;
      const { damperRatio } = readCorner(found.corner, found.carrier, "rest");
      const work = found.loads.damper_N * damperRatio!;
      agreesWithin("linkSpin", powerOf(found), work, 1e-6, `seed ${seed}: ${work}`);
    }
  });
});
