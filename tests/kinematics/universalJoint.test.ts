import { describe, expect, it } from "vitest";
import { greatestLag_deg, unevenness } from "../../src/kinematics/universalJoint.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import { agrees } from "../truth/agreement.ts";

const RAD = Math.PI / 180;
const LINE: Vec3 = [0, 1, 0];
/** A unit axis that leaves the shaft's line by an angle, upwards or forwards. */
const up = (angle_deg: number): Vec3 => [0, Math.cos(angle_deg * RAD), Math.sin(angle_deg * RAD)];
const ahead = (angle_deg: number): Vec3 => [Math.sin(angle_deg * RAD), Math.cos(angle_deg * RAD), 0];
const INNER = { inner: true, outer: false };
const BOTH = { inner: true, outer: true };

describe("a single cross", () => {
  // Hooke's joint, closed forms: 1/cos β, cos β, tan β · sin β; cos 30° stands in mathematics texts
  it.each([
    [10, 1.015427, 0.030619],
    [20, 1.064178, 0.124485],
    [30, 1.154701, 0.288675],
  ])("at %d° runs between 1/cos and cos of its angle", (angle_deg, fastest, spread) => {
    for (const [axis, spin, which] of [
      [up(angle_deg), up(0), INNER],
      [up(0), ahead(angle_deg), { inner: false, outer: true }],
      [ahead(-angle_deg).map((value) => -value) as unknown as Vec3, up(0), INNER],
    ] as const) {
      const found = unevenness(axis, LINE, spin, which);
      agrees("unevenness", found.fastest, fastest, 6);
      agrees("unevenness", found.slowest, Math.cos(angle_deg * RAD), 6);
      expect(found.fastest - found.slowest).toBeCloseTo(spread, 6);
    }
  });

  it("varies by 12.5 % at 20.0404° (question of a textbook, answer computed from tan β · sin β)", () => {
    const { fastest, slowest } = unevenness(up(20.0404), LINE, LINE, INNER);
    expect(fastest - slowest).toBeCloseTo(0.125, 5);
  });

  it("lags by up to 1.78168° at 20° and 4.11719° at 30° (closed form), as a search over all positions finds", () => {
    agrees("crossLag", greatestLag_deg(20), 1.78168, 5);
    agrees("crossLag", greatestLag_deg(30), 4.11719, 5);
    let most = 0;
    for (let turn = 0; turn < 90; turn += 0.01)
      most = Math.max(most, Math.atan(Math.tan(turn * RAD) / Math.cos(30 * RAD)) / RAD - turn);
    expect(greatestLag_deg(30)).toBeCloseTo(most, 5);
  });
});

describe("true joints and two crosses", () => {
  it("true joints at both ends turn the wheel evenly at any angle", () => {
    expect(unevenness(up(25), LINE, ahead(40), { inner: false, outer: false })).toEqual({ fastest: 1, slowest: 1 });
  });

  it("two crosses at equal angles in one plane cancel, to both sides (textbook rule)", () => {
    for (const other of [up(18), up(-18)]) {
      const { fastest, slowest } = unevenness(up(18), LINE, other, BOTH);
      expect(fastest).toBeCloseTo(1, 9);
      expect(slowest).toBeCloseTo(1, 9);
    }
  });

  it("bent in planes square to each other they add up to 1/cos² and cos² (textbook rule for forks a quarter turn out)", () => {
    const { fastest, slowest } = unevenness(up(18), LINE, ahead(18), BOTH);
    expect(fastest).toBeCloseTo(1 / Math.cos(18 * RAD) ** 2, 5);
    expect(slowest).toBeCloseTo(Math.cos(18 * RAD) ** 2, 5);
  });

  it("unequal angles in one plane leave the ratio of their cosines", () => {
    const { fastest, slowest } = unevenness(up(25), LINE, up(10), BOTH);
    const ratio = Math.cos(10 * RAD) / Math.cos(25 * RAD);
    expect(fastest).toBeCloseTo(ratio, 6);
    expect(slowest).toBeCloseTo(1 / ratio, 6);
  });
});
