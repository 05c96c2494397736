import { describe, expect, it } from "vitest";
import { removePart } from "../../src/scene/parts/remove.ts";
import { renamePart } from "../../src/scene/parts/rename.ts";
import { readScene, validateDocument } from "../../src/scene/read.ts";
import { writeScene } from "../../src/scene/write.ts";
import { itRefuses, type Loose, looseScene, sceneAfter } from "./fixture.ts";

const JOINTS = [
  { joint: "upper.inboard", kind: "bush", twist_deg: 20, tilt_deg: 7 },
  { joint: "upper.outboard", kind: "rod end", axis: [2, 0, 0], tilt_deg: 13, crooked_deg: 1 },
  { joint: "damper.top", kind: "ball joint", axis: [1, 0, 0], tilt_deg: 10 },
  { joint: "bar.pivot", kind: "bush", twist_deg: 30 },
];

const told = (scene: Loose) => {
  scene.joints = structuredClone(JOINTS);
  scene.vehicle = { wheelbase_mm: 2500, cgHeight_mm: 480 };
  Object.assign(scene.damper, { springFree_mm: 300, springSolid_mm: 140, springAtRide_mm: 210, strapTight_mm: 434 });
  Object.assign(scene.driveshaft, { bar_mm: 372, outerJoint: "universal" });
  scene.driveshaft.right.bar_mm = 412;
  scene.loads = { cornerMass_kg: 300, unsprung_kg: 42 };
};

describe("records of joints, spring, strap, shaft and vehicle", () => {
  it("are read, written and read again without a change", () => {
    const raw = looseScene();
    told(raw);
    const document = validateDocument(raw, "car.json");
    expect(readScene(writeScene(document), "car.json")).toEqual(document);
  });

  it("are resolved with the axis that the scene tells elsewhere, and nothing where nothing is told", () => {
    const scene = sceneAfter(told);
    expect(scene.joints.map(({ axis }) => axis)).toEqual([
      [1, 0, 0],
      [1, 0, 0],
      [1, 0, 0],
      [0, 1, 0],
    ]);
    expect(scene.joints[1]).toMatchObject({ tilt_deg: 13, twist_deg: null, crooked_deg: 1 });
    expect(scene.joints[0]).toMatchObject({ tilt_deg: 7, twist_deg: 20, crooked_deg: 0 });
    expect(scene.driveshaft).toMatchObject({ innerJoint: "constant velocity", outerJoint: "universal" });
    expect([scene.driveshaft!.inner.left.bar_mm, scene.driveshaft!.inner.right.bar_mm]).toEqual([372, 412]);
    expect(scene.vehicle).toEqual({ wheelbase_mm: 2500, cgHeight_mm: 480, rearBrakeShare: null });
    expect(scene.loads.unsprung_kg).toBe(42);
    const bare = sceneAfter(() => {});
    expect([bare.joints, bare.vehicle, bare.damper!.strapTight_mm, bare.loads.unsprung_kg]).toEqual([
      [],
      null,
      null,
      null,
    ]);
  });

  it("follow a member's new name and go with it, with the damper and the bar", () => {
    const raw = looseScene();
    told(raw);
    const document = validateDocument(raw, "");
    expect(renamePart(document, "upper", "top").joints!.map(({ joint }) => joint)).toEqual([
      "top.inboard",
      "top.outboard",
      "damper.top",
      "bar.pivot",
    ]);
    const left = removePart(removePart(document, "damper", { riders: true }), "bar", { riders: true });
    expect(left.joints!.map(({ joint }) => joint)).toEqual(["upper.inboard", "upper.outboard"]);
  });
});

describe("what does not fit is refused", () => {
  const joint = (more: object) => ({
    joints: [{ joint: "upper.outboard", kind: "rod end", axis: [1, 0, 0], ...more }],
  });

  itRefuses("missing-id", [
    ["a joint that there is not", joint({ joint: "uper.inboard" }), "joints[0].joint", /upper\.inboard\?/],
    [
      "a joint of the driveshaft, which has limits of its own",
      joint({ joint: "driveshaft.inner" }),
      "joints[0].joint",
      /names nothing here/,
    ],
  ]);
  itRefuses("duplicate-id", [
    [
      "two records of one joint",
      { joints: [...JOINTS.slice(0, 1), ...JOINTS.slice(0, 1)] },
      "joints[1].joint",
      /one record a joint/,
    ],
  ]);
  itRefuses("zero-length", [["an axis without length", joint({ axis: [0, 0, 0] }), "joints[0].axis", /no length/]]);
  itRefuses("wrong-value", [
    ["the twist of a rod end", joint({ twist_deg: 20 }), "joints[0].twist_deg", /turns freely/],
    [
      "a bolt whose axis only the loads tell, from which nothing is checked",
      {
        ...joint({ axis: undefined }),
        loads: { bolts: [{ joint: "upper.outboard", thread: "M12", class: "8.8", planes: 2, axis: [1, 0, 0] }] },
      },
      "joints[0]",
      /which way the bolt/,
    ],
    ["a bolt of which nothing tells the axis", joint({ axis: undefined }), "joints[0]", /which way the bolt/],
    ["a kind that there is not", joint({ kind: "pin" }), "joints[0].kind", /rod end, ball joint, bush/],
    ["a limit of nothing", joint({ tilt_deg: 0 }), "joints[0].tilt_deg", /above 0/],
    [
      "a spring at ride longer than free",
      { "damper.springFree_mm": 200, "damper.springAtRide_mm": 210 },
      "damper.springAtRide_mm",
      /less than springFree_mm, which is 200/,
    ],
    [
      "a spring longer than its damper",
      { "damper.springAtRide_mm": 400 },
      "damper.springAtRide_mm",
      /the damper as drawn/,
    ],
    [
      "a spring that is solid at ride",
      { "damper.springSolid_mm": 210, "damper.springAtRide_mm": 200 },
      "damper.springSolid_mm",
      /less than springAtRide_mm/,
    ],
    [
      "a spring solid when free",
      { "damper.springSolid_mm": 210, "damper.springFree_mm": 210 },
      "damper.springSolid_mm",
      /less than springFree_mm/,
    ],
    [
      "a strap that is always tight",
      { "damper.strapTight_mm": 300 },
      "damper.strapTight_mm",
      /more than closed_mm, which is 300/,
    ],
    [
      "more unsprung than the wheel carries",
      { loads: { cornerMass_kg: 300, right: { cornerMass_kg: 40 }, unsprung_kg: 42 } },
      "loads.unsprung_kg",
      /which is 40/,
    ],
    [
      "a share of braking above all of it",
      { vehicle: { wheelbase_mm: 2500, cgHeight_mm: 480, rearBrakeShare: 1.2 } },
      "vehicle.rearBrakeShare",
      /from 0 to 1/,
    ],
  ]);
});
