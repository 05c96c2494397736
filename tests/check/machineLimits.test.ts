// Numbers of stories 4 to 6 are those of the project's acceptance stories, worked out apart from this program by rigid-joint
// geometry; they hold to ±0.3 mm and ±0.02°, travels that the story gives rounded to what it rounds to.
import { describe, expect, it } from "vitest";
import { assembleModel } from "../../src/check/assemble.ts";
import { prepareCheck } from "../../src/check/check.ts";
import { fingerprint } from "../../src/check/fingerprint.ts";
import { limitName, limitsOf } from "../../src/check/limits.ts";
import type { LimitVerdict } from "../../src/check/result.ts";
import { runSides, type SideRun } from "../../src/check/tracks.ts";
import { solveCorner } from "../../src/kinematics/corner.ts";
import { jointReader } from "../../src/kinematics/jointTilt.ts";
import { dot, normalise, subtract } from "../../src/maths/vec3.ts";
import { drawnPart } from "../../src/scene/aside.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { storyCorner } from "./storyCorner.ts";

const MM = 0.3;

function limitsIn(document: SceneDocument, side = "left"): LimitVerdict[] {
  const scene = resolveScene(document);
  return runSides(scene)
    .flatMap((run) => limitsOf(scene, run, scene.powertrain.poses))
    .filter((limit) => limit.side === side);
}

const named = (limits: readonly LimitVerdict[], name: string) => limits.filter((limit) => limitName(limit) === name);

function near(value: number | null | undefined, wanted: number, within: number) {
  expect(Math.abs((value ?? Number.NaN) - wanted), `${value} against ${wanted}`).toBeLessThanOrEqual(within);
}

const withDamper = (more: Partial<NonNullable<SceneDocument["damper"]>>, rest: Partial<SceneDocument> = {}) =>
  storyCorner({ damper: { ...storyCorner().damper!, ...more }, ...rest });

describe("story 4: both ends of the shaft's plunge", () => {
  it("bottoms with 7.4 mm to spare at +60 and lets go with 4.9 at −70, the nearer end first", () => {
    const [first, second, ...more] = named(limitsIn(storyCorner()), "shaft-length");
    expect(more).toEqual([]);
    near(447 - first!.value, 4.9, MM);
    near(first!.at.travel_mm, -70, 0);
    near(second!.value - 419, 7.4, MM);
    near(second!.at.travel_mm, 60, 0);
    expect([first!.verdict, second!.verdict]).toEqual(["clear", "clear"]);
  });

  it("each end is a verdict of its own with the wheel height where it is passed", () => {
    const shaft = { ...storyCorner().driveshaft!, shortest_mm: 430, longest_mm: 441 };
    const ends = named(limitsIn(storyCorner({ driveshaft: shaft })), "shaft-length");
    expect(ends.map(({ verdict }) => verdict)).toEqual(["clash", "clash"]);
    near(ends.find(({ limit }) => limit === 441)!.passedAt_mm, -45, 1);
    expect(ends.find(({ limit }) => limit === 430)!.passedAt_mm!).toBeGreaterThan(0);
  });

  it("holds an unequal right shaft against lengths of its own", () => {
    const right = { inner: [25, -195, 345] as const, shortest_mm: 459, longest_mm: 487 };
    const document = storyCorner({ sides: "both", driveshaft: { ...storyCorner().driveshaft!, right } });
    const [first] = named(limitsIn(document, "right"), "shaft-length");
    expect([459, 487]).toContain(first!.limit);
    expect(first!.value).toBeGreaterThan(455);
  });
});

describe("story 5: what ends the travel", () => {
  it("is solid on its stop at +56.6, tops out at −64.9, its strap tight at −60", () => {
    // the damper's length at −60 by the story's own corner: what a builder measures there
    const strap_mm = 434.7;
    const limits = limitsIn(withDamper({ strapTight_mm: strap_mm }));
    near(named(limits, "stop")[0]!.passedAt_mm, 56.6, MM);
    const length = named(limits, "damper-length");
    near(length.find(({ limit }) => limit === 440)!.passedAt_mm, -64.9, MM);
    expect(length.find(({ limit }) => limit === 300)).toMatchObject({ verdict: "clear" });
    const [strap] = named(limits, "strap");
    near(strap!.passedAt_mm, -60, 0.5);
    expect(strap!.verdict).toBe("clash");
  });

  it("binds its spring's coils at the travel where the damper has gone as far as the spring can", () => {
    const [bind] = named(limitsIn(withDamper({ springAtRide_mm: 200, springSolid_mm: 150 })), "coil-bind");
    // the damper is 369.9 at ride: 50 mm in it is 319.9
    near(bind!.value, 200 - (369.9 - 306.4), MM);
    expect(bind).toMatchObject({ verdict: "clash", limit: 150, at: { travel_mm: 60 } });
    const scene = resolveScene(withDamper({ springAtRide_mm: 200, springSolid_mm: 150, stopSolid_mm: 319.9 }));
    const [run] = runSides(scene);
    const stop = limitsOf(scene, run!, scene.powertrain.poses).find(({ what }) => what === "stop");
    near(bind!.passedAt_mm, stop!.passedAt_mm!, MM);
  });

  it("judges no spring of which only the load is told: loads start no check", () => {
    const document = withDamper(
      { springRate_N_per_mm: 40, springFree_mm: 300, springSolid_mm: 250 },
      { loads: { cornerMass_kg: 300 } },
    );
    expect(named(limitsIn(document), "coil-bind")).toEqual([]);
    expect(limitsIn(document)).toEqual(limitsIn(drawnPart(document)));
  });
});

describe("story 6: rod ends on fore-aft bolts", () => {
  const joints = (crooked_deg = 0): NonNullable<SceneDocument["joints"]> => [
    { joint: "upper.inboard", kind: "rod end", axis: [1, 0, 0], tilt_deg: 13, ...(crooked_deg ? { crooked_deg } : {}) },
    { joint: "upper.outboard", kind: "rod end", axis: [1, 0, 0], tilt_deg: 13 },
  ];

  it("tilts 4.2° at the upper inner at +60 and at the upper outer at −70, within 13°", () => {
    const limits = limitsIn(storyCorner({ joints: joints() }));
    const [inner] = named(limits, "joint-tilt upper.inboard");
    const [outer] = named(limits, "joint-tilt upper.outboard");
    near(inner!.value, 4.2, 0.06);
    near(inner!.at.travel_mm, 60, 0);
    near(outer!.value, 4.2, 0.06);
    near(outer!.at.travel_mm, -70, 0);
    expect([inner!.verdict, outer!.verdict]).toEqual(["clear", "clear"]);
  });

  it("binds at 14.2° with the inner bracket tacked 10° off in the worst direction", () => {
    const [inner] = named(limitsIn(storyCorner({ joints: joints(10) })), "joint-tilt upper.inboard");
    near(inner!.value, 14.2, 0.06);
    expect(inner).toMatchObject({ verdict: "clash", limit: 13 });
    expect(inner!.passedAt_mm!).toBeGreaterThan(0);
  });

  it("shares the hub's pitch between the link's two ends, as the link spins", () => {
    const [twist] = named(limitsIn(storyCorner({ joints: joints() })), "joint-twist upper");
    // the hub pitches about its front mount by about 70 over 431 behind it: 9.3°
    near(twist!.value, (Math.asin(70 / 431) * 180) / Math.PI, 0.5);
    expect(twist!.limit).toBeGreaterThan(20);
    expect(twist!.verdict).toBe("clear");
  });

  it("winds a bush up from ride height", () => {
    const document = storyCorner({
      joints: [{ joint: "arm.at", kind: "bush", axis: [0, 1, 0], twist_deg: 8, tilt_deg: 7 }],
    });
    const [twist] = named(limitsIn(document), "joint-twist arm.at");
    near(twist!.value, (Math.asin(70 / 431) * 180) / Math.PI, 0.5);
    expect(twist).toMatchObject({ verdict: "clash", limit: 8 });
    expect(named(limitsIn(document), "joint-tilt arm.at")).toHaveLength(1);
  });
});

describe("an edit of what no sweep hangs on", () => {
  it("tells its verdicts and leaves every sweep as it is known", () => {
    const plain = storyCorner({ tessellation_mm: 0.5 });
    const told: SceneDocument = {
      ...plain,
      joints: [{ joint: "upper.inboard", kind: "rod end", axis: [1, 0, 0], tilt_deg: 3 }],
      vehicle: { wheelbase_mm: 2500, cgHeight_mm: 480 },
      damper: { ...plain.damper!, strapTight_mm: 430, springFree_mm: 300, springAtRide_mm: 200, springSolid_mm: 150 },
      driveshaft: { ...plain.driveshaft!, bar_mm: 360, outerJoint: "universal" },
      loads: { cornerMass_kg: 300, unsprung_kg: 40 },
    };
    const [before, after] = [plain, told].map((document) =>
      prepareCheck(resolveScene(document)).pairs.map(fingerprint),
    );
    expect(before!.length).toBeGreaterThan(5);
    expect(after).toEqual(before);
    const names = limitsIn(plain).map(limitName);
    const more = limitsIn(told)
      .map(limitName)
      .filter((name) => !names.includes(name));
    expect(more.sort()).toEqual(["coil-bind", "joint-tilt upper.inboard", "strap"]);
  });
});

describe("a spring whose length at ride is measured", () => {
  it("is drawn so long between its seats, with the damper as drawn", () => {
    const drawn_mm = 369.9;
    for (const springAtRide_mm of [180, 230, 350]) {
      const scene = resolveScene(withDamper({ spring_mm: 90, springAtRide_mm }));
      const { top, bottom } = scene.damper!;
      const down = normalise(subtract(bottom, top));
      const along = assembleModel(scene)
        .filter(({ id }) => id === "spring")
        .flatMap(({ solid: { positions } }) =>
          Array.from({ length: positions.length / 3 }, (_, i) => {
            const at = [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!] as const;
            return dot(subtract(at, top), down);
          }),
        );
      expect(Math.max(...along) - Math.min(...along)).toBeCloseTo(springAtRide_mm, 2);
      expect(Math.max(...along)).toBeLessThanOrEqual(drawn_mm + MM);
      expect(Math.min(...along)).toBeGreaterThanOrEqual(-1e-3);
    }
  });
});

describe("joints read some millimetres of travel apart", () => {
  it("stray by no more than 0.01° from a reading at every half millimetre", () => {
    const joints: SceneDocument["joints"] = [
      { joint: "arm.at", kind: "ball joint", axis: [0.2, 1, 0.4], tilt_deg: 30 },
      { joint: "upper.inboard", kind: "rod end", axis: [1, 0, 0.3], tilt_deg: 30 },
      { joint: "lower.outboard", kind: "rod end", axis: [1, 0.1, 0], tilt_deg: 30 },
      { joint: "damper.bottom", kind: "bush", axis: [1, 0, 0], tilt_deg: 30, twist_deg: 60 },
    ];
    const document = storyCorner({ joints, travel: { bump_mm: 61, droop_mm: 68, step_mm: 5 } });
    const [{ corner }] = runSides(resolveScene(document)) as [SideRun];
    for (const limit of limitsIn(document)) {
      const fit = corner.scene.joints.find(({ joint }) => joint === limit.joint);
      if (!fit) continue;
      const read = jointReader(corner, fit);
      let most = 0;
      for (let travel_mm = -68; travel_mm <= 61; travel_mm += 0.5) {
        const { pose } = solveCorner(corner, travel_mm);
        most = Math.max(most, limit.what === "joint-tilt" ? read.tilt_deg(pose) : Math.abs(read.twist_deg(pose)));
      }
      expect(most - limit.value, limitName(limit)).toBeLessThan(0.01);
      expect(limit.value - most, limitName(limit)).toBeLessThan(1e-6);
    }
  });
});
