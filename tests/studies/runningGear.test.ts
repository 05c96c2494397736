// Numbers of stories 4 to 6 are those of the project's acceptance stories, worked out apart from this program by rigid-joint
// geometry; they hold to ±0.3 mm and ±0.02°, travels that the story gives rounded to what it rounds to.
import { describe, expect, it } from "vitest";
import { runSides, type SideRun } from "../../src/check/tracks.ts";
import { boltPulls } from "../../src/loads/boltPull.ts";
import { runLoads } from "../../src/loads/runLoads.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { PlaceStudy } from "../../src/studies/places/placeStudy.ts";
import { jointsStudy } from "../../src/studies/runningGear/joints.ts";
import { type ShaftStudy, shaftStudy } from "../../src/studies/runningGear/shaft.ts";
import { springStudy } from "../../src/studies/runningGear/spring.ts";
import { firstEnd, type TravelEnd, travelEnds } from "../../src/studies/runningGear/travelEnds.ts";
import { storyCorner } from "../check/storyCorner.ts";
import { corner, hinge, wheel } from "../kinematics/corners.ts";
import { agrees, agreesWithin } from "../truth/agreement.ts";

const MM = 0.3;
const RAD = Math.PI / 180;

function near(value: number | null | undefined, wanted: number, within: number) {
  expect(Math.abs((value ?? Number.NaN) - wanted), `${value} against ${wanted}`).toBeLessThanOrEqual(within);
}

function ran(document: SceneDocument, side = "left"): [Scene, SideRun] {
  const scene = resolveScene(document);
  return [scene, runSides(scene).find((run) => run.side === side)!];
}

const withShaft = (more: Partial<NonNullable<SceneDocument["driveshaft"]>>, rest: Partial<SceneDocument> = {}) =>
  storyCorner({ driveshaft: { ...storyCorner().driveshaft!, ...more }, ...rest });
const withDamper = (more: Partial<NonNullable<SceneDocument["damper"]>>, rest: Partial<SceneDocument> = {}) =>
  storyCorner({ damper: { ...storyCorner().damper!, ...more }, ...rest });
const shaftOf = (document: SceneDocument, side = "left", spare_mm?: number): ShaftStudy =>
  shaftStudy(...ran(document, side), spare_mm)!;

describe("story 4: the driveshaft", () => {
  it("is 436.0 at ride, 426.4 to 442.1 with the engine rocking, its joints at up to 16.2° and 17.9°", () => {
    const { ride, shortest, longest, innerAngle, outerAngle } = shaftOf(storyCorner());
    near(ride.shaft_mm, 436, MM);
    near(shortest.value, 426.4, MM);
    near(longest.value, 442.1, MM);
    expect([shortest.at.travel_mm, longest.at.travel_mm]).toEqual([60, -70]);
    near(innerAngle.value, 16.2, 0.05);
    near(outerAngle.value, 17.9, 0.05);
    // of the joints' angles at ride: the line from 25/235/345 to 0/668/300 against the crosswise axis
    near(ride.innerAngle_deg, Math.atan2(Math.hypot(25, 45), 433) / RAD, 1e-9);
  });

  it("tells the length to order: the middle leaves the same at both ends, the range's ends just the wanted spare", () => {
    const { order } = shaftOf(withShaft({ bar_mm: 372 }));
    // 442.1 + 3 − 447 and 426.4 − 3 − 419
    near(order.changeRange_mm![0], -1.9, MM);
    near(order.changeRange_mm![1], 4.4, MM);
    near(order.used_mm, 15.7, 2 * MM);
    expect(order.stroke_mm).toBe(28);
    expect(order.bar_mm! - order.change_mm!).toBeCloseTo(372, 9);
    const spares = (change_mm: number) => {
      const { limits } = shaftOf(withShaft({ shortest_mm: 419 + change_mm, longest_mm: 447 + change_mm }));
      return limits.filter(({ what }) => what === "shaft-length").map(({ value, limit }) => Math.abs(value - limit));
    };
    const [one, other] = spares(order.change_mm!);
    agrees("shaftOrder", one, other!, 6);
    for (const end of order.changeRange_mm!) agrees("shaftOrder", Math.min(...spares(end)), 3, 6);
  });

  it("says that no length works where the joint's stroke is too short, and what is needed where it is not told", () => {
    const tight = shaftOf(withShaft({ shortest_mm: 425, longest_mm: 444 })).order;
    expect(tight.changeRange_mm).toBeNull();
    expect(tight.change_mm).not.toBeNull();
    expect(shaftOf(withShaft({ shortest_mm: 425, longest_mm: 444 }), "left", 1).order.changeRange_mm).not.toBeNull();
    const { shortest_mm: _short, longest_mm: _long, ...bare } = storyCorner().driveshaft!;
    const untold = shaftOf(storyCorner({ driveshaft: bare })).order;
    expect([untold.stroke_mm, untold.change_mm, untold.bar_mm]).toEqual([null, null, null]);
    near(untold.used_mm, 15.7, 2 * MM);
  });

  it("reads the right side's own shaft from an offset differential", () => {
    const right = { inner: [25, -195, 345] as const, shortest_mm: 459, longest_mm: 487, bar_mm: 412 };
    const document = withShaft({ bar_mm: 372, right }, { sides: "both" });
    const [left, other] = [shaftOf(document, "left"), shaftOf(document, "right")];
    near(other.ride.shaft_mm, Math.hypot(25, 668 - 195, 45), 1e-9);
    expect(other.ride.shaft_mm).toBeGreaterThan(left.ride.shaft_mm + 39);
    expect(other.order.bar_mm! - other.order.change_mm!).toBeCloseTo(412, 9);
  });

  it("plots plunge against angle in every pose, the exact triple 360-105-375 among such figures", () => {
    const { plot, ride, difference } = shaftOf(storyCorner());
    expect(new Set(plot.map(({ at }) => at.pose))).toEqual(new Set(["rest", "tail-up", "tail-down"]));
    expect(plot.filter(({ at }) => at.pose === "rest")).toHaveLength(27);
    for (const { shaft_mm, plunge_mm, innerAngle_deg, outerAngle_deg, difference_deg } of plot) {
      expect(plunge_mm).toBeCloseTo(shaft_mm - ride.shaft_mm, 9);
      agrees("angleDifference", difference_deg, innerAngle_deg - outerAngle_deg, 9);
      expect(Math.abs(difference_deg)).toBeLessThanOrEqual(difference.value + 1e-9);
    }
    // 360 across, the inner joint dropped by 105: 15 of plunge at 16.2602° (3-4-5 triangle)
    const level = withShaft(
      { inner: [0, 308, 300], outer: [0, 668, 300] },
      {
        powertrain: { poses: [{ id: "low", about: [0, 0, 0], axis: [0, 1, 0], angle_deg: 0, shift_mm: [0, 0, -105] }] },
      },
    );
    const low = shaftOf(level).plot.find(({ at }) => at.pose === "low" && at.travel_mm === 0)!;
    expect(low.shaft_mm).toBeCloseTo(375, 9);
    agrees("plunge", low.plunge_mm, 15, 9);
    expect(low.innerAngle_deg).toBeCloseTo(16.2602, 5);
  });

  it("of a single cross tells the variation tan β · sin β of its angle at ride and at the worst (closed form)", () => {
    expect(shaftOf(storyCorner()).crosses).toBeNull();
    const { crosses, ride, outerAngle } = shaftOf(withShaft({ outerJoint: "universal" }));
    const spread = (angle_deg: number) => Math.tan(angle_deg * RAD) * Math.sin(angle_deg * RAD);
    expect(crosses!.atRide.fastest - crosses!.atRide.slowest).toBeCloseTo(spread(ride.outerAngle_deg), 6);
    expect(crosses!.worst.fastest - crosses!.worst.slowest).toBeCloseTo(spread(outerAngle.value), 6);
    expect([crosses!.lag_deg.inner, crosses!.lag_deg.outer! > 0]).toEqual([null, true]);
  });
});

describe("story 5: what ends the travel", () => {
  const summary = (ends: readonly TravelEnd[]) => ends.map(({ what, at }) => [what, Math.round(at.travel_mm)]);

  it("up: the stop is touched at +42 and solid at +56.6; down: the damper tops out at −64.9, a strap at −60 comes first", () => {
    const ends = travelEnds(resolveScene(storyCorner()), "left");
    expect(summary(ends.up).slice(0, 2)).toEqual([
      ["stop-touched", 42],
      ["stop", 57],
    ]);
    const up = firstEnd(ends.up)!;
    near(up.at.travel_mm, 56.6, MM);
    const down = firstEnd(ends.down)!;
    expect([down.what, down.limit]).toEqual(["damper-length", 440]);
    near(down.at.travel_mm, -64.9, MM);
    const [scene, run] = ran(storyCorner());
    const atStrap = springStudy(scene, run).curve.find(({ travel_mm }) => travel_mm === -60)!;
    const strapped = firstEnd(
      travelEnds(resolveScene(withDamper({ strapTight_mm: atStrap.damper_mm! })), "left").down,
    )!;
    expect(strapped.what).toBe("strap");
    near(strapped.at.travel_mm, -60, 0.01);
  });

  it("names the shaft that lets go first, and the engine that makes it", () => {
    const down = firstEnd(travelEnds(resolveScene(withShaft({ shortest_mm: 413, longest_mm: 441 })), "left").down)!;
    expect([down.what, down.limit, down.at.pose]).toEqual(["shaft-length", 441, "tail-up"]);
    near(down.at.travel_mm, -45, 1);
  });

  it("names the joint that binds, the spring's turns, and where the spring comes loose", () => {
    const joints: SceneDocument["joints"] = [
      { joint: "upper.inboard", kind: "rod end", axis: [1, 0, 0], tilt_deg: 13, crooked_deg: 10 },
    ];
    const tilt = firstEnd(travelEnds(resolveScene(storyCorner({ joints })), "left").up);
    expect([tilt!.what, tilt!.joint]).toEqual(["joint-tilt", "upper.inboard"]);
    const spring = { springFree_mm: 280, springAtRide_mm: 220, springSolid_mm: 190 };
    const { up, down } = travelEnds(resolveScene(withDamper(spring)), "left");
    const bind = up.find(({ what }) => what === "coil-bind")!;
    const loose = down.find(({ what }) => what === "spring-loose")!;
    expect([firstEnd(up), loose.isSoft]).toEqual([bind, true]);
    // 30 mm in and 60 mm out of the damper at a ratio of 1.07
    near(bind.at.travel_mm, 30 / 1.065, 0.5);
    near(loose.at.travel_mm, -60 / 1.08, 0.6);
  });

  it("finds where the turns touch of a spring that is only weighed, each side by its own mass", () => {
    const document = withDamper(
      { springRate_N_per_mm: 40, springFree_mm: 300, springSolid_mm: 200 },
      { sides: "both", loads: { cornerMass_kg: 300, right: { cornerMass_kg: 250 } } },
    );
    const [left, right] = (["left", "right"] as const).map((side) => {
      return travelEnds(resolveScene(document), side).up.find(({ what }) => what === "coil-bind")!.at.travel_mm;
    });
    // 50 kg less press the spring by 50·g/(1.07·40) less, which the damper then has to spare
    near(right! - left!, (50 * 9.80665) / (1.07 * 40) / 1.06, 0.3);
  });

  it("looks beyond the scene's travel as far as the corner goes: a trailing arm of 150 mm locks upright at ±150", () => {
    const scene = corner([hinge("swing", [150, 600, 300], [150, 300, 300])], wheel([0, 740, 300]));
    const { up, down } = travelEnds(scene, "left");
    expect([up, down].map((ends) => ends.map(({ what }) => what))).toEqual([["binds"], ["binds"]]);
    agreesWithin("travelEnds", up[0]!.at.travel_mm, 150, 0.01);
    agreesWithin("travelEnds", down[0]!.at.travel_mm, -150, 0.01);
  });

  it("counts a pose only where it is credible", () => {
    const pose = storyCorner().powertrain!.poses![0]!;
    const poses = [{ ...pose, within_mm: [-20, 60] as const }];
    const short = withShaft({ shortest_mm: 413, longest_mm: 441 }, { powertrain: { poses } });
    for (const end of travelEnds(resolveScene(short), "left").down) {
      if (end.what === "shaft-length") expect(end.at.pose).toBe("rest");
    }
  });
});

describe("spring and wheel", () => {
  const document = withDamper(
    { springRate_N_per_mm: 40, springFree_mm: 280 },
    { loads: { cornerMass_kg: 300, unsprung_kg: 40 }, travel: { bump_mm: 60, droop_mm: 50, step_mm: 1 } },
  );

  it("hold 260 kg up at ride with the preload that it takes", () => {
    const study = springStudy(...ran(document));
    agrees("staticLoad", study.staticLoad_N, 300 * 9.80665, 9);
    agrees("wheelForce", study.ride.wheelForce_N, 260 * 9.80665, 6);
    near(study.ride.ratio, 1.07, 0.005);
    agrees("springPressed", study.pressedAtRide_mm, study.ride.springForce_N! / 40, 9);
    // open at 440, ride at 369.9
    expect(Math.abs(study.pressedAtRide_mm! - study.pressedOpen_mm! - (440 - 369.9))).toBeLessThanOrEqual(MM);
    expect(study.frequency_Hz).toBeCloseTo(Math.sqrt((1000 * study.ride.wheelRate_N_per_mm!) / 260) / (2 * Math.PI), 9);
    expect(study.takesAllAsSprung).toBe(false);
  });

  it("have a wheel rate that is the slope of the wheel's force, and a force whose work is what the spring takes up", () => {
    const { curve } = springStudy(...ran(document));
    for (let i = 1; i < curve.length - 1; i++) {
      const slope = (curve[i + 1]!.wheelForce_N! - curve[i - 1]!.wheelForce_N!) / 2;
      expect(curve[i]!.wheelRate_N_per_mm).toBeCloseTo(slope, 2);
    }
    const work = curve.slice(1).reduce((sum, state, i) => sum + (state.wheelForce_N! + curve[i]!.wheelForce_N!) / 2, 0);
    const [first, last] = [curve[0]!, curve.at(-1)!];
    const stored = (last.springForce_N! ** 2 - first.springForce_N! ** 2) / (2 * 40);
    expect(work / stored).toBeCloseTo(1, 4);
  });

  it("tell by how much a spring as measured carries other than what rides on it", () => {
    const measured = withDamper(
      { springRate_N_per_mm: 40, springFree_mm: 280, springAtRide_mm: 220 },
      { loads: { cornerMass_kg: 300 } },
    );
    const study = springStudy(...ran(measured));
    agrees("carriesMore", study.carriesMore_kg, (60 * 40 * study.ride.ratio!) / 9.80665 - 300, 6);
    expect(study.takesAllAsSprung).toBe(true);
  });

  it("tell what they can without a mass: ratio, but no force", () => {
    const { ride, frequency_Hz, staticLoad_N } = springStudy(...ran(storyCorner()));
    expect([ride.springForce_N, ride.wheelRate_N_per_mm, frequency_Hz, staticLoad_N]).toEqual([null, null, null, null]);
    expect(ride.ratioRate_per_mm).not.toBeNull();
  });
});

describe("story 6: joints", () => {
  const document = storyCorner({
    joints: [
      { joint: "upper.inboard", kind: "rod end", axis: [1, 0, 0], tilt_deg: 13, crooked_deg: 10 },
      { joint: "upper.outboard", kind: "rod end", axis: [1, 0, 0], tilt_deg: 13 },
    ],
    loads: {
      cornerMass_kg: 300,
      bolts: [{ joint: "upper.inboard", thread: "M12", class: "8.8", planes: 2 }],
    },
  });

  it("tilt 4.2° at the upper inner at +60 and at the upper outer at −70; 14.2° crooked is past the limit", () => {
    const { joints, limits, links } = jointsStudy(...ran(document));
    const [inner, outer] = ["upper.inboard", "upper.outboard"].map((id) => joints.find(({ joint }) => joint === id)!);
    near(inner!.tilt_deg!.value, 4.2, 0.06);
    near(outer!.tilt_deg!.value, 4.2, 0.06);
    expect([inner!.tilt_deg!.travel_mm, outer!.tilt_deg!.travel_mm]).toEqual([60, -70]);
    const past = limits.filter(({ verdict }) => verdict === "clash");
    expect(past.map(({ joint }) => joint)).toEqual(["upper.inboard"]);
    near(past[0]!.value, 14.2, 0.06);
    expect(links.map(({ member }) => member)).toEqual(["upper"]);
  });

  it("list what the scene does not tell of, the driveshaft's apart", () => {
    const untold = jointsStudy(...ran(document)).joints.filter(({ fit }) => fit === null);
    expect(untold.map(({ joint }) => joint)).toEqual([
      "arm.at",
      "lower.inboard",
      "lower.outboard",
      "damper.top",
      "damper.bottom",
    ]);
  });

  it("of a link are pulled along it: off square to the bolt by as much as the rod end tilts", () => {
    const scene = resolveScene(document);
    const { joints } = jointsStudy(...ran(document));
    const [side] = runLoads(scene).sides;
    const pulls = boltPulls(scene, "left", side!.states);
    expect(pulls.map(({ joint, planes }) => [joint, planes])).toEqual([
      ["upper.inboard", 2],
      ["upper.outboard", null],
    ]);
    // the inner bolt stands still, fore and aft: by hand from the joint's force in each state
    const inner = side!.states.map(({ loads }) => loads.joints.find(({ id }) => id === "upper.inboard")!.force_N);
    const most = inner.reduce((a, b) => (Math.abs(b[0]) > Math.abs(a[0]) ? b : a));
    agrees("boltPull", pulls[0]!.along_N, Math.abs(most[0]), 6);
    agrees("boltPull", pulls[0]!.across_N, Math.hypot(most[1], most[2]), 6);
    for (const { joint, along_N, across_N, angle_deg } of pulls) {
      const tilt_deg = joints.find((study) => study.joint === joint)!.tilt_deg!.value;
      expect(90 - angle_deg).toBeLessThanOrEqual(tilt_deg + 1e-9);
      agrees("boltPull", angle_deg, Math.atan2(across_N, along_N) / RAD, 9);
      expect(along_N).toBeGreaterThan(0);
    }
  });
});

describe("where a hard point may live", () => {
  it("is asked of joints too, and both ends of one length are one reason", () => {
    const joints: SceneDocument["joints"] = [{ joint: "upper.inboard", kind: "rod end", axis: [1, 0, 0], tilt_deg: 5 }];
    const study = new PlaceStudy(
      {
        document: storyCorner({ joints, bodies: [], tessellation_mm: 0.5 }),
        meshFiles: new Map(),
        points: ["upper.in"],
        fit: "cut",
        limits: {},
        leaveOut: ["stop", "damper-length"],
        travelStep_mm: 10,
        marginUpTo_mm: 5,
      },
      [[[-40, -40, -40]], [[40, 40, 40]]],
    );
    const asked = study.reasons.flatMap((reason) => (reason.kind === "limit" ? [reason.what] : []));
    expect(asked).toEqual(["shaft-length", "inner-angle", "outer-angle", "joint-tilt upper.inboard"]);
    const why = (by: readonly [number, number, number]) => {
      const { reason } = study.ask([by]);
      const told = study.reasons[reason];
      return told?.kind === "limit" ? told.what : (told?.kind ?? null);
    };
    // the rod end leans 4.2° at most as drawn, and more by how far its inner end is set off the outer one fore and aft
    expect(why([0, 0, 0])).not.toBe("joint-tilt upper.inboard");
    expect(why([30, 0, 0])).toBe("joint-tilt upper.inboard");
  });
});
