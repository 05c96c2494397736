import { describe, expect, it } from "vitest";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { CarrierEquations } from "../../src/kinematics/equations.ts";
import { runTravel } from "../../src/kinematics/travel.ts";
import { applyPose, poseOfTrack, rotationPose } from "../../src/maths/pose.ts";
import { add, length, scale, type Vec3 } from "../../src/maths/vec3.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { corner, link, strut, wheel } from "./corners.ts";
import { fitCarrier } from "./fitCarrier.ts";
import { randomMembers, randomOf, wildMembers } from "./random.ts";

const SEEDS = Array.from({ length: 12 }, (_, i) => 1000 + i);
const mixes = [...randomMembers(randomOf(1)).keys()];

function sceneOf(seed: number, mix: string): Scene {
  const members = randomMembers(randomOf(seed)).get(mix)!;
  return corner(members, wheel([0, 740, 300], 0.15, -1));
}

describe.each(mixes)("%s", (mix) => {
  it("has the Jacobian that central differences of its equations give", () => {
    for (const seed of SEEDS.slice(0, 4)) {
      const scene = sceneOf(seed, mix);
      const equations = new CarrierEquations(scene);
      const { pose } = solveCorner(compileCorner(scene, "left"), 15);
      const rotation = Float64Array.of(...[0, 1, 2, 4, 5, 6, 8, 9, 10].map((i) => pose[i]!));
      const centre = Float64Array.from(applyPose(pose, scene.wheel.centre));
      const jacobian = new Float64Array(30);
      equations.evaluate(rotation, centre, new Float64Array(5), jacobian);
      const residualsAfter = (freedom: number, by: number) => {
        const residuals = new Float64Array(5);
        const moved = centre.slice();
        let turned = rotation;
        if (freedom >= 3) moved[freedom - 3]! += by;
        else {
          const axis = [0, 0, 0];
          axis[freedom] = 1;
          const turn = rotationPose(axis as unknown as Vec3, by);
          turned = Float64Array.from({ length: 9 }, (_, i) => {
            const [row, column] = [(i / 3) | 0, i % 3];
            return [0, 1, 2].reduce((sum, k) => sum + turn[row * 4 + k]! * rotation[k * 3 + column]!, 0);
          });
        }
        equations.evaluate(turned, moved, residuals, new Float64Array(30));
        return residuals;
      };
      for (let freedom = 0; freedom < 6; freedom++) {
        const by = freedom < 3 ? 1e-5 : 1e-3;
        const [plus, minus] = [residualsAfter(freedom, by), residualsAfter(freedom, -by)];
        for (let row = 0; row < 5; row++) {
          const difference = (plus[row]! - minus[row]!) / (2 * by);
          const wrong = Math.abs(difference - jacobian[row * 6 + freedom]!);
          expect(wrong, `seed ${seed}, row ${row}, freedom ${freedom}`).toBeLessThan(freedom < 3 ? 1e-4 : 1e-8);
        }
      }
    }
  });

  it("keeps every residual below 1e-9 mm and the rotation a rotation, through the whole run", () => {
    for (const seed of SEEDS) {
      const scene = sceneOf(seed, mix);
      const compiled = compileCorner(scene, "left");
      const run = runTravel(compiled, { bump_mm: 80, droop_mm: 70, step_mm: 1 });
      for (let knot = 0; knot < run.travel_mm.length; knot++) {
        const pose = poseOfTrack(run.carrier, knot);
        expect(compiled.solver.equations.residual_mm(pose), `seed ${seed}`).toBeLessThan(1e-9);
        const height = applyPose(pose, scene.wheel.centre)[2];
        expect(Math.abs(height - 300 - run.travel_mm[knot]!), `seed ${seed}`).toBeLessThan(1e-9);
        for (let a = 0; a < 3; a++)
          for (let b = 0; b < 3; b++) {
            const product = [0, 1, 2].reduce((sum, k) => sum + pose[a * 4 + k]! * pose[b * 4 + k]!, 0);
            expect(Math.abs(product - (a === b ? 1 : 0)), `seed ${seed}`).toBeLessThan(1e-13);
          }
      }
    }
  });

  it("stands where an independent least-squares fit of the raw distances puts it", () => {
    for (const seed of SEEDS.slice(0, 5)) {
      const scene = sceneOf(seed, mix);
      const compiled = compileCorner(scene, "left");
      const run = runTravel(compiled, { bump_mm: 60, droop_mm: 60, step_mm: 5 });
      for (const end of [run.to_mm * 0.95, run.from_mm * 0.95]) {
        const { pose: fit, misfit_mm } = fitCarrier(scene, end, 2);
        expect(misfit_mm, `seed ${seed} at ${end}`).toBeLessThan(1e-8);
        const { status, pose } = solveCorner(compiled, end);
        expect(status, `seed ${seed}`).toBe("solved");
        for (const point of [scene.wheel.centre, [300, 600, 400], [-100, 700, 150]] as Vec3[]) {
          const [ours, theirs] = [applyPose(pose, point), applyPose(fit, point)];
          expect(Math.hypot(...ours.map((v, i) => v - theirs[i]!)), `seed ${seed} at ${end}`).toBeLessThan(1e-5);
        }
      }
    }
  });

  it("tells no lock where the fit goes on, and one where it cannot", () => {
    for (const seed of SEEDS) {
      const scene = sceneOf(seed, mix);
      const { bindsAt_mm } = runTravel(compileCorner(scene, "left"), { bump_mm: 80, droop_mm: 70, step_mm: 5 });
      if (bindsAt_mm === null) continue;
      const beyond = fitCarrier(scene, bindsAt_mm + Math.sign(bindsAt_mm), 1);
      expect(beyond.misfit_mm, `seed ${seed} beyond ${bindsAt_mm}`).toBeGreaterThan(1e-4);
    }
  });

  it("comes to the same poses and locks in steps of 40 mm as in steps of 0.25", () => {
    for (const seed of SEEDS.slice(0, 3)) {
      const compiled = compileCorner(sceneOf(seed, mix), "left");
      const coarse = runTravel(compiled, { bump_mm: 400, droop_mm: 400, step_mm: 40 });
      const fine = runTravel(compiled, { bump_mm: 400, droop_mm: 400, step_mm: 0.25 });
      expect(Math.abs(coarse.to_mm - fine.to_mm), `seed ${seed}`).toBeLessThan(0.01);
      expect(Math.abs(coarse.from_mm - fine.from_mm), `seed ${seed}`).toBeLessThan(0.01);
      expect(coarse.bindsAt_mm === null, `seed ${seed}`).toBe(fine.bindsAt_mm === null);
      for (let knot = 1; knot < coarse.travel_mm.length - 1; knot++) {
        const other = fine.travel_mm.indexOf(coarse.travel_mm[knot]!);
        const [a, b] = [poseOfTrack(coarse.carrier, knot), poseOfTrack(fine.carrier, other)];
        const apart = Math.max(...[...a].map((value, i) => Math.abs(value - b[i]!)));
        expect(apart, `seed ${seed} at ${coarse.travel_mm[knot]}`).toBeLessThan(1e-6);
      }
    }
  });

  it("does not change when the whole car is turned about the vertical and moved along the ground", () => {
    const turn = rotationPose([0, 0, 1], 0.7);
    const there = (p: Vec3): Vec3 => add(applyPose(turn, p), [120, -45, 0]);
    const members = randomMembers(randomOf(7)).get(mix)!;
    const moved = members.map((member) =>
      Object.fromEntries(
        Object.entries(member).map(([key, value]) => [
          key,
          Array.isArray(value) ? there(value as unknown as Vec3) : value,
        ]),
      ),
    ) as unknown as typeof members;
    const here = solveCorner(compileCorner(corner(members, wheel([0, 740, 300])), "left"), 15).pose;
    const other = solveCorner(compileCorner(corner(moved, wheel(there([0, 740, 300]))), "left"), 15).pose;
    for (const point of [
      [0, 740, 300],
      [200, 650, 500],
    ] as Vec3[]) {
      const [a, b] = [there(applyPose(here, point)), applyPose(other, there(point))];
      expect(Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])).toBeLessThan(1e-8);
    }
  });
});

describe("corners that no one would build", () => {
  it("never take a coarse step over a lock that fine steps meet", () => {
    for (let seed = 1; seed <= 30; seed++)
      for (const [mix, members] of wildMembers(seed)) {
        const compiled = compileCorner(corner(members, wheel([0, 740, 300])), "left");
        const coarse = runTravel(compiled, { bump_mm: 200, droop_mm: 200, step_mm: 50 });
        const fine = runTravel(compiled, { bump_mm: 200, droop_mm: 200, step_mm: 0.5 });
        expect(Math.abs(coarse.to_mm - fine.to_mm), `seed ${seed}, ${mix}`).toBeLessThan(0.01);
        expect(Math.abs(coarse.from_mm - fine.from_mm), `seed ${seed}, ${mix}`).toBeLessThan(0.01);
      }
  });

  it("stop at the first of two turning points that lie close together", () => {
    // found by trial: an earlier, bolder step went over both, from −0.997 to −74 mm in the other assembly mode
    const members = [
      link("upper", [96.414, 286.08, 394.849], [15.399, 624.031, 538.448]),
      link("lower", [22.464, 238.03, 180.19], [-44.031, 761.668, 289.23]),
      link("toe", [-10.615, 430.286, 131.309], [-65.953, 693.944, 243.952]),
      link("high", [406.178, 666.237, 528.743], [122.361, 669.454, 351.078]),
      link("low", [425.752, 568.961, 105.331], [129.815, 661.459, 268.424]),
    ];
    for (const step_mm of [50, 5, 1, 0.5, 0.1]) {
      const compiled = compileCorner(corner(members, wheel([0, 740, 300])), "left");
      const { from_mm } = runTravel(compiled, { bump_mm: 100, droop_mm: 100, step_mm });
      expect(Math.abs(from_mm + 0.997), `step ${step_mm}`).toBeLessThan(0.01);
    }
  });
});

describe("a corner whose wheel all but stops rising while the hub goes on", () => {
  // drawn at random: of 0.001 mm of rise past 4 mm the hub makes centimetres, and steps got across or not as they happened to fall
  const members = [
    strut("leg", [-7.2399, 487.3307, 556.8484], [42.0241, 638.8755, 184.5062]),
    strut("second-leg", [-45.694, 593.8077, 616.0349], [-139.1704, 687.207, 315.9848]),
    link("lower", [-40.0451, 204.2758, 166.2955], [-49.6575, 717.3783, 171.3823]),
  ];
  const centre: Vec3 = [35.67, 759.4414, 322.2355];

  it("locks there, whatever travel is asked for", () => {
    const compiled = compileCorner(corner(members, wheel(centre)), "left");
    const { bindsAt_mm } = runTravel(compiled, { bump_mm: 40, droop_mm: 0, step_mm: 5 });
    for (let travel_mm = 4.4; travel_mm < 40; travel_mm += 0.7) {
      const outcome = solveCorner(compiled, travel_mm);
      expect(outcome.status, `asked for ${travel_mm} mm`).toBe("binds");
      expect(Math.abs(outcome.travel_mm - bindsAt_mm!), `asked for ${travel_mm} mm`).toBeLessThan(1e-3);
    }
  });

  it("has gone hundreds of times the rise by then", () => {
    const compiled = compileCorner(corner(members, wheel(centre)), "left");
    const lock_mm = solveCorner(compiled, 40).travel_mm;
    const at = (travel_mm: number): Vec3 => applyPose(solveCorner(compiled, travel_mm).pose, centre);
    const way_mm = length(add(at(lock_mm), scale(at(lock_mm - 0.01), -1)));
    expect(way_mm / 0.01).toBeGreaterThan(200);
    expect(way_mm / 0.01).toBeLessThan(1000);
  });
});

describe("rates from the Jacobian", () => {
  it.each(mixes)("are the derivative of the pose by the travel: %s", (mix) => {
    for (const seed of SEEDS.slice(0, 3)) {
      const compiled = compileCorner(sceneOf(seed, mix), "left");
      const at = (travel: number) => solveCorner(compiled, travel).pose;
      const rates = compiled.solver.ratesAt(at(10))!;
      const point: Vec3 = [150, 640, 420];
      const [plus, minus, now] = [10.01, 9.99, 10].map((travel) => applyPose(at(travel), point));
      const difference = scale(add(plus!, scale(minus!, -1)), 1 / 0.02);
      const arm = add(now!, scale(applyPose(at(10), [0, 740, 300]), -1));
      const [wx, wy, wz] = rates.turn;
      const exact = add(rates.centre, [
        wy * arm[2] - wz * arm[1],
        wz * arm[0] - wx * arm[2],
        wx * arm[1] - wy * arm[0],
      ]);
      expect(length(add(exact, scale(difference, -1))), `seed ${seed}`).toBeLessThan(1e-6);
    }
  });
});
