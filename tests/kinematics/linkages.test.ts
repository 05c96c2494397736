import { describe, expect, it } from "vitest";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { readCorner } from "../../src/kinematics/readings.ts";
import { applyPose } from "../../src/maths/pose.ts";
import { add, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { agrees } from "../truth/agreement.ts";
import { ball, corner, link, wheel, wishbone } from "./corners.ts";

const RAD = Math.PI / 180;

/** A planar linkage in the rear view: two wishbones turning about fore-aft lines, and a link that repeats the first. */
function planar(innerA: Vec3, outerA: Vec3, innerB: Vec3, outerB: Vec3, wheelCentre: Vec3): Scene {
  const ahead = (p: Vec3): Vec3 => add(p, [100, 0, 0]);
  const behind = (p: Vec3): Vec3 => add(p, [-100, 0, 0]);
  return corner(
    [
      wishbone("a", ahead(innerA), behind(innerA), outerA),
      wishbone("b", ahead(innerB), behind(innerB), outerB),
      link("c", behind(innerA), behind(outerA)),
    ],
    wheel(wheelCentre),
  );
}

function poseAt(scene: Scene, travel_mm: number) {
  const outcome = solveCorner(compileCorner(scene, "left"), travel_mm);
  expect(outcome.status).toBe("solved");
  return outcome.pose;
}

describe("planar four-bar: crank 40, coupler 120, rocker 80, ground 100", () => {
  // Norton, Design of Machinery, Example 4-1 (from memory, answers worked again): at crank 40° the coupler stands at
  // 20.2979° and the rocker at 57.3249° (open), −60.9780° and −98.0050° (crossed). Vector loop a + b − c − d = 0.
  const [a, b, c, d] = [40, 120, 80, 100];
  const O2: Vec3 = [0, 300, 300];
  const O4: Vec3 = add(O2, [0, d, 0]);
  const at = (from: Vec3, radius: number, angle: number): Vec3 =>
    add(from, [0, radius * Math.cos(angle), radius * Math.sin(angle)]);

  /** Coupler end from the two circles about crank end and O4; `side` +1 open, −1 crossed. */
  function couplerEnd(crank: Vec3, side: 1 | -1): Vec3 {
    const span = subtract(O4, crank);
    const reach = Math.hypot(span[1], span[2]);
    const along = (b * b - c * c + reach * reach) / (2 * reach);
    const off = side * Math.sqrt(b * b - along * along);
    const unit: Vec3 = scale(span, 1 / reach);
    return add(crank, [0, unit[1] * along - unit[2] * off, unit[2] * along + unit[1] * off]);
  }

  it.each([
    ["open", 1, 20.2979, 57.3249],
    ["crossed", -1, -60.978, -98.005],
  ] as const)("drawn %s at crank 65° and moved to 40° keeps its assembly mode", (_, side, coupler_deg, rocker_deg) => {
    const crankDrawn = at(O2, a, 65 * RAD);
    const endDrawn = couplerEnd(crankDrawn, side);
    // the wheel centre sits on the crank's end, so its height gives the crank angle
    const scene = planar(O2, crankDrawn, O4, endDrawn, crankDrawn);
    const pose = poseAt(scene, a * (Math.sin(40 * RAD) - Math.sin(65 * RAD)));
    const crank = applyPose(pose, crankDrawn);
    const end = applyPose(pose, endDrawn);
    const angle = (v: Vec3) => Math.atan2(v[2], v[1]) / RAD;
    expect(angle(subtract(crank, O2))).toBeCloseTo(40, 9);
    expect(angle(subtract(end, crank))).toBeCloseTo(coupler_deg, 4);
    expect(angle(subtract(end, O4))).toBeCloseTo(rocker_deg, 4);
  });
});

describe("planar parallelogram 50, 100, 50, 100", () => {
  it("keeps its coupler level at crank 35° (closed form: coupler 0°, rocker 35°)", () => {
    const [low, high]: Vec3[] = [
      [0, 300, 200],
      [0, 300, 300],
    ];
    const out: Vec3 = [0, 50 * Math.cos(10 * RAD), 50 * Math.sin(10 * RAD)];
    const scene = planar(low!, add(low!, out), high!, add(high!, out), add(low!, out));
    const pose = poseAt(scene, 50 * (Math.sin(35 * RAD) - Math.sin(10 * RAD)));
    for (const [index, value] of [1, 0, 0, 0, 1, 0, 0, 0, 1].entries())
      expect(pose[((index / 3) | 0) * 4 + (index % 3)]).toBeCloseTo(value, 9);
  });
});

describe("spherical four-bar: crank 30°, coupler 60°, output 50°, ground 70°", () => {
  // ψ = atan2(B, A) ± acos(C/√(A² + B²)), A = sγ(sα cη cθ − cα sη), B = sγ sα sθ, C = cβ − cγ(sα sη cθ + cα cη):
  // at θ = 60° the two closures stand at ψ = 73.40968° and −134.87762°.
  const [alpha, beta, gamma, eta] = [30 * RAD, 60 * RAD, 50 * RAD, 70 * RAD];
  const RADIUS = 300;
  const CENTRE: Vec3 = [200, 500, 400];
  const { sin, cos } = Math;
  /** From the formula's axes (crank axis z, ground arc in x–z) to car axes, with the crank's swing up and down. */
  const place = ([x, y, z]: Vec3): Vec3 => add(CENTRE, [RADIUS * x, -RADIUS * z, RADIUS * y]);
  const back = (p: Vec3): Vec3 => {
    const [x, z, y] = scale(subtract(p, CENTRE), 1 / RADIUS);
    return [x, y, -z];
  };
  const crankEnd = (theta: number): Vec3 => [sin(alpha) * cos(theta), sin(alpha) * sin(theta), cos(alpha)];
  const outputEnd = (psi: number): Vec3 => [
    cos(gamma) * sin(eta) + sin(gamma) * cos(psi) * cos(eta),
    sin(gamma) * sin(psi),
    cos(gamma) * cos(eta) - sin(gamma) * cos(psi) * sin(eta),
  ];
  function psiOf(theta: number, side: 1 | -1): number {
    const A = sin(gamma) * (sin(alpha) * cos(eta) * cos(theta) - cos(alpha) * sin(eta));
    const B = sin(gamma) * sin(alpha) * sin(theta);
    const C = cos(beta) - cos(gamma) * (sin(alpha) * sin(eta) * cos(theta) + cos(alpha) * cos(eta));
    return Math.atan2(B, A) + side * Math.acos(C / Math.hypot(A, B));
  }

  it.each([
    [-1, 73.40968],
    [1, -134.87762],
  ] as const)("closes on the drawn branch (%d) at θ = 60°", (side, psi_deg) => {
    const [crankDrawn, outputDrawn] = [place(crankEnd(45 * RAD)), place(outputEnd(psiOf(45 * RAD, side)))];
    // the coupler is the carrier: a ball at the centre, its ends held at their distance from a point of either axis
    const scene = corner(
      [
        ball("centre", CENTRE),
        link("crank", place([0, 0, 1]), crankDrawn),
        link("output", place([sin(eta), 0, cos(eta)]), outputDrawn),
      ],
      wheel(crankDrawn),
    );
    const pose = poseAt(scene, RADIUS * sin(alpha) * (sin(60 * RAD) - sin(45 * RAD)));
    const end = back(applyPose(pose, outputDrawn));
    const psi = Math.atan2(end[1], (end[0] - cos(gamma) * sin(eta)) / cos(eta));
    expect(Math.atan2(sin(psi - psi_deg * RAD), cos(psi - psi_deg * RAD)) / RAD).toBeCloseTo(0, 5);
  });
});

describe("double wishbone in the rear view: lower (300,150)–(700,150), upper (400,400)–(650,430)", () => {
  const lowerIn: Vec3 = [0, 300, 150];
  const lowerOut: Vec3 = [0, 700, 150];
  const upperIn: Vec3 = [0, 400, 400];
  const upperOut: Vec3 = [0, 650, 430];
  const scene = planar(lowerIn, lowerOut, upperIn, upperOut, [0, 750, 310]);

  it("has its roll centre at 46.2329: the line from the ground point to the arms' crossing (−1683.333, 150)", () => {
    const compiled = compileCorner(scene, "left");
    agrees("rollCentre", readCorner(compiled, compiled.ridePose, "rest").rollCentre_mm, 46.2329, 3);
  });

  it.each([
    [5, -1.011865],
    [-5, 0.670295],
  ])("with the lower arm turned by %d° reads the circle intersection's camber", (arm_deg, camber_deg) => {
    // circles about the lower arm's end (the carrier's length) and the upper pivot (the upper arm's length)
    const lower = add(lowerIn, [0, 400 * Math.cos(arm_deg * RAD), 400 * Math.sin(arm_deg * RAD)]);
    const carrier = Math.hypot(50, 280);
    const arm = Math.hypot(250, 30);
    const span = subtract(upperIn, lower);
    const reach = Math.hypot(span[1], span[2]);
    const along = (carrier ** 2 - arm ** 2 + reach ** 2) / (2 * reach);
    const off = Math.sqrt(carrier ** 2 - along ** 2);
    const upper = add(lower, [0, (span[1] * along + span[2] * off) / reach, (span[2] * along - span[1] * off) / reach]);
    const turn = Math.atan2(upper[2] - lower[2], upper[1] - lower[1]) - Math.atan2(280, -50);
    const rise = lower[2] + 50 * Math.sin(turn) + 160 * Math.cos(turn) - 310;
    const compiled = compileCorner(scene, "left");
    const { camber_deg: read } = readCorner(compiled, poseAt(scene, rise), "rest");
    expect(read).toBeCloseTo(camber_deg, 5);
  });
});
