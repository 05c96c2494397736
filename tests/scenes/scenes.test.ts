import { describe, expect, it } from "vitest";
import { assembleModel } from "../../src/check/assemble.ts";
import { runSide } from "../../src/check/tracks.ts";
import { readCorner } from "../../src/kinematics/readings.ts";
import { poseOfTrack } from "../../src/maths/pose.ts";
import { distance, mirror } from "../../src/maths/vec3.ts";
import { writeScene } from "../../src/scene/write.ts";
import { SCENE_FILES } from "./files.ts";

describe("the sample scenes together", () => {
  it("show every kind of member", () => {
    const kinds = new Set(SCENE_FILES.flatMap(({ scene }) => scene.members.map(({ kind }) => kind)));
    expect([...kinds].sort()).toEqual(["ball", "hinge", "link", "strut", "wishbone"]);
  });

  it("have a title each and an anti-roll bar somewhere", () => {
    expect(new Set(SCENE_FILES.map(({ scene }) => scene.title)).size).toBe(SCENE_FILES.length);
    expect(SCENE_FILES.some(({ scene }) => scene.antiRollBar !== null)).toBe(true);
  });
});

describe.each(SCENE_FILES.map((file) => [file.name, file] as const))("%s", (_, { text, document, scene }) => {
  it("is written as the program itself would save it", () => {
    expect(writeScene(document)).toBe(text);
  });

  it("is a whole rear corner on both sides", () => {
    expect(scene.sides).toEqual(["left", "right"]);
    expect(scene.notes).toMatch(/invented car/);
    const ids = scene.bodies.map(({ id }) => id);
    for (const id of ["sump", "gearbox", "differential", "alternator", "disc", "caliper", "hub-flange"]) {
      expect(ids).toContain(id);
    }
    const roles = new Set(scene.bodies.map(({ role }) => role));
    for (const role of ["frame", "bracket", "bolt", "casing", "exhaust", "joint", "boot", "brake"]) {
      expect(roles, role).toContain(role);
    }
    expect(scene.powertrain.poses.length).toBeGreaterThanOrEqual(3);
    expect(scene.datums.length).toBeGreaterThanOrEqual(2);
    expect([...scene.points.values()].filter(({ how, tolerance_mm }) => how && tolerance_mm).length).toBeGreaterThan(3);
  });

  it("has a damper whose stop is solid before it closes, and a spring", () => {
    const damper = scene.damper!;
    expect(damper.spring_mm).not.toBeNull();
    expect(damper.springRate_N_per_mm).not.toBeNull();
    expect(damper.stopTouches_mm!).toBeGreaterThan(damper.stopSolid_mm!);
    expect(damper.stopSolid_mm!).toBeGreaterThan(damper.closed_mm);
  });

  it("has shafts of unequal length and a longer one on the left", () => {
    const { outer, inner } = scene.driveshaft!;
    const left = distance(inner.left.at, outer);
    const right = distance(inner.right.at, mirror(outer));
    expect(left - right).toBeGreaterThan(20);
    for (const { shortest_mm, longest_mm, angleLimit_deg } of [inner.left, inner.right]) {
      expect(shortest_mm).not.toBeNull();
      expect(longest_mm).not.toBeNull();
      expect(angleLimit_deg).not.toBeNull();
    }
  });

  it("asks for room: tyre 15, exhaust 25", () => {
    const { rules } = scene.clearances;
    expect(rules).toContainEqual({ a: "tyre", b: "*", mm: 15 });
    expect(rules).toContainEqual({ a: "role:exhaust", b: "*", mm: 25 });
  });

  it("has a bracket and a bolt at every mount on the chassis, written from its point", () => {
    const mounts = document.members.flatMap((member): unknown[] => {
      if (member.kind === "ball") return [member.at];
      if (member.kind === "link") return [member.inboard];
      if (member.kind === "strut") return [member.top];
      return [member.front, member.rear];
    });
    if (document.damper) mounts.push(document.damper.top);
    const texts = (role: string) =>
      document.bodies.filter((body) => body.on === "chassis" && body.role === role).map((body) => JSON.stringify(body));
    for (const mount of mounts) {
      expect(typeof mount, "a mount is a named point").toBe("string");
      for (const role of ["bracket", "bolt"]) {
        expect(
          texts(role).some((body) => body.includes(JSON.stringify(mount))),
          `a ${role} at ${mount}`,
        ).toBe(true);
      }
    }
  });

  it("is made of closed bodies, few enough to be quick", () => {
    const bodies = assembleModel(scene);
    for (const { key, solid } of bodies) {
      expect(
        solid.shells.every(({ closed }) => closed),
        key,
      ).toBe(true);
    }
    expect(bodies.reduce((sum, { solid }) => sum + solid.indices.length / 3, 0)).toBeLessThan(120_000);
  });

  it.each(["left", "right"] as const)(
    "runs through its whole travel on the %s, steering and tilting within reason",
    (side) => {
      const { corner, run } = runSide(scene, side);
      expect(run.bindsAt_mm).toBeNull();
      expect([run.from_mm, run.to_mm]).toEqual([-scene.travel.droop_mm, scene.travel.bump_mm]);
      for (let knot = 0; knot < run.travel_mm.length; knot++) {
        const readings = readCorner(corner, poseOfTrack(run.carrier, knot), "rest");
        const { toe_deg, camber_deg } = scene.wheel;
        expect(Math.abs(readings.toe_deg - toe_deg)).toBeLessThan(1);
        expect(readings.camber_deg - camber_deg).toBeGreaterThan(-4);
        expect(readings.camber_deg - camber_deg).toBeLessThan(3.5);
        expect(Math.abs(readings.halfTrack_mm - scene.wheel.centre[1])).toBeLessThan(20);
        expect(readings.damper_mm!).toBeGreaterThan(scene.damper!.stopSolid_mm!);
        expect(readings.damper_mm!).toBeLessThan(scene.damper!.open_mm);
        expect(readings.damperRatio!).toBeGreaterThan(0.5);
        expect(readings.damperRatio!).toBeLessThan(1.4);
      }
      // the wheel stands at ride height as the scene says
      const ride = readCorner(corner, corner.ridePose, "rest");
      expect(ride.toe_deg).toBeCloseTo(scene.wheel.toe_deg, 9);
      expect(ride.camber_deg).toBeCloseTo(scene.wheel.camber_deg, 9);
    },
  );
});
