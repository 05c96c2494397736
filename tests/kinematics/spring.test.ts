import { describe, expect, it } from "vitest";
import { compileCorner } from "../../src/kinematics/corner.ts";
import { readCorner } from "../../src/kinematics/readings.ts";
import { rideFrequency_Hz, springAtRide, sprungMass_kg, wheelRate_N_per_mm } from "../../src/kinematics/spring.ts";
import { standCorner } from "../../src/loads/stand.ts";
import { type Loads, NO_LOADS } from "../../src/scene/loadRecords.ts";
import type { Damper } from "../../src/scene/scene.ts";
import { agrees, agreesOn } from "../truth/agreement.ts";
import { ball, corner, damper, link, wheel } from "./corners.ts";

const MASS: Loads = { ...NO_LOADS, cornerMass_kg: { left: 300, right: 280 } };

const armCorner = (spring: Partial<Damper> = {}, loads = MASS) =>
  corner(
    [
      ball("arm", [430, 640, 330]),
      link("upper", [-20, 410, 425], [-20, 650, 430]),
      link("lower", [-70, 260, 200], [-70, 660, 205]),
    ],
    wheel([0, 740, 300], 0.15, -1),
    { damper: { ...damper([-15, 548, 600], [-45, 600, 235]), ...spring }, loads },
  );

describe("wheel rate", () => {
  // installation ratio 35/50, spring 40 N/mm: Milliken & Milliken, Race Car Vehicle Dynamics (1995), chapter 16 (from memory)
  it("is 19.6 N/mm at a ratio of 0.7 of a 40 N/mm spring, 21.1 with 3000 N on it and the ratio rising 0.0005 a mm", () => {
    agrees("wheelRate", wheelRate_N_per_mm(40, 35 / 50, 0, 0), 19.6, 12);
    agrees("wheelRate", wheelRate_N_per_mm(40, 0.7, 3000, 0.0005), 21.1, 12);
  });

  it("is not the spring's rate over the ratio squared, as the inverse definition of a ratio would have it", () => {
    expect(wheelRate_N_per_mm(40, 0.7, 0, 0)).not.toBeCloseTo(40 / 0.7 ** 2, 1);
  });

  it("gives 1.5762 Hz for 300 kg on 29.42 N/mm: √(g/δ)/2π at 100 mm of static deflection (any textbook of vibrations)", () => {
    const rate = (300 * 9.80665) / 100;
    agrees("rideFrequency", rideFrequency_Hz(rate, 300), Math.sqrt(9806.65 / 100) / (2 * Math.PI), 12);
    expect(rideFrequency_Hz(-1, 300)).toBeNull();
  });
});

describe("the spring at ride height", () => {
  it("carries the sprung weight over the damper ratio, which equilibrium of the whole corner confirms", () => {
    for (const side of ["left", "right"] as const) {
      const compiled = compileCorner(armCorner(), side);
      const weight_N = (side === "left" ? 300 : 280) * 9.80665;
      const { damperRatio } = readCorner(compiled, compiled.ridePose, "rest");
      const { force_N } = springAtRide(compiled)!;
      agrees("springForce", force_N, weight_N / damperRatio!, 9);
      // the ground point of a leaning wheel moves a little otherwise than the wheel centre
      const { damper_N } = standCorner(compiled, compiled.ridePose)!.balance({
        force_N: [0, 0, weight_N],
        torque: "carrier",
        dropLink_N: 0,
      });
      expect(damper_N / force_N!).toBeGreaterThan(0.99);
      expect(damper_N / force_N!).toBeLessThan(1.01);
    }
  });

  it("is as long as its free length less what that force presses it, unsprung mass left out", () => {
    const spring = { springFree_mm: 300, springRate_N_per_mm: 40 };
    const compiled = compileCorner(armCorner(spring, { ...MASS, unsprung_kg: 40 }), "left");
    agreesOn("sprungMass", sprungMass_kg(compiled), 260);
    const { length_mm, force_N } = springAtRide(compiled)!;
    agrees("springLength", length_mm, 300 - force_N! / 40, 12);
  });

  it("takes a measured length as it is, and its force from it", () => {
    const spring = { springFree_mm: 300, springRate_N_per_mm: 40, springAtRide_mm: 235 };
    expect(springAtRide(compileCorner(armCorner(spring, NO_LOADS), "left"))).toEqual({
      length_mm: 235,
      force_N: 2600,
      isMeasured: true,
    });
  });

  it("is unknown without mass or spring", () => {
    expect(springAtRide(compileCorner(armCorner({}, NO_LOADS), "left"))).toEqual({
      length_mm: null,
      force_N: null,
      isMeasured: false,
    });
  });
});
