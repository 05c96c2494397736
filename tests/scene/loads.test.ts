import { describe, expect, it } from "vitest";
import { listJoints } from "../../src/kinematics/joints.ts";
import { jointNames } from "../../src/scene/jointNames.ts";
import { NO_LOADS } from "../../src/scene/loadRecords.ts";
import { removePart } from "../../src/scene/parts/remove.ts";
import { renamePart } from "../../src/scene/parts/rename.ts";
import { usesByName } from "../../src/scene/pointUses.ts";
import { readScene, validateDocument } from "../../src/scene/read.ts";
import { writeScene } from "../../src/scene/write.ts";
import { SCENE_FILES } from "../scenes/files.ts";
import { itRefuses, looseScene, sceneAfter } from "./fixture.ts";

const LOADS = {
  cornerMass_kg: 290,
  right: { cornerMass_kg: 305 },
  brakes: "inboard",
  cases: [
    { id: "kerb", timesStatic: { out: -2, up: 1 } },
    { id: "pull", force_N: { forward: 2000 }, timesStatic: { up: 1 }, torque: "carrier", roll_deg: 2 },
  ],
  target: 1.5,
  materials: [{ id: "bar stock", yield_MPa: 300, ultimate_MPa: 450, source: "delivery note" }],
  tubes: [
    { member: "upper", diameter_mm: 28, wall_mm: 3, material: "E235+N", endConstant: 1, bow_mm: 20 },
    { member: "arm", diameter_mm: 60, wall_mm: 4, material: "bar stock", cut: "arm.front", target: 2 },
  ],
  bolts: [{ joint: "upper.inboard", thread: "M12", class: "8.8", planes: 2, axis: [2, 0, 0] }],
  plates: [
    { joint: "upper.inboard", count: 2, thickness_mm: 4, hole_mm: 12.5, end_mm: 20, side_mm: 18, material: "S275" },
  ],
  welds: [{ joint: "upper.inboard", leg_mm: 5, length_mm: 40, runs: 2, lever_mm: 30, material: "S275" }],
  ratings: [{ joint: "upper.outboard", static_N: 30000, source: "maker's list" }],
};

const withLoads = (scene: ReturnType<typeof looseScene>) => {
  scene.loads = structuredClone(LOADS);
};

describe("the record of loads", () => {
  it("is read, written and read again without a change", () => {
    const raw = looseScene();
    withLoads(raw);
    const document = validateDocument(raw, "car.json");
    expect(readScene(writeScene(document), "car.json")).toEqual(document);
  });

  it("is resolved with its defaults, each side with its own mass, points in car coordinates", () => {
    const { loads } = sceneAfter(withLoads);
    expect(loads.cornerMass_kg).toEqual({ left: 290, right: 305 });
    expect(loads.cases![0]).toEqual({
      id: "kerb",
      timesStatic: [0, -2, 1],
      force_N: [0, 0, 0],
      torque: null,
      roll_deg: 0,
    });
    expect(loads.cases![1]).toMatchObject({
      timesStatic: [0, 0, 1],
      force_N: [2000, 0, 0],
      torque: "carrier",
      roll_deg: 2,
    });
    expect(loads.tubes[1]!.cut).toEqual([430, 640, 330]);
    expect(loads.bolts[0]!.axis).toEqual([1, 0, 0]);
    expect(sceneAfter(() => {}).loads).toEqual(NO_LOADS);
  });

  it("calls the joints as the kinematics do", () => {
    for (const { document, scene } of SCENE_FILES)
      expect(jointNames(document)).toEqual(listJoints(scene).map(({ id }) => id));
  });

  it("follows a member's new name, and a point in it is used by that member", () => {
    const raw = looseScene();
    withLoads(raw);
    const document = renamePart(renamePart(validateDocument(raw, ""), "upper", "top"), "arm", "swing");
    expect(document.loads!.tubes!.map(({ member }) => member)).toEqual(["top", "swing"]);
    expect(document.loads!.bolts![0]!.joint).toBe("top.inboard");
    expect(
      usesByName(document)
        .get("arm.front")!
        .map(({ path }) => path),
    ).toContain("loads.tubes[1].cut");
  });

  it("loses what it said of a part that is taken out", () => {
    const raw = looseScene();
    withLoads(raw);
    raw.loads.ratings.push({ joint: "driveshaft.inner", static_N: 1 }, { joint: "bar.arm", static_N: 2 });
    raw.loads.cases.push({ id: "drive", timesStatic: { forward: 1 }, torque: "shaft" });
    const whole = validateDocument(raw, "");
    const bare = removePart(removePart(whole, "driveshaft", { riders: true }), "bar");
    expect(bare.loads!.ratings!.map(({ joint }) => joint)).toEqual(["upper.outboard"]);
    expect(bare.loads!.brakes).toBeUndefined();
    expect(bare.loads!.cases!.map(({ torque, roll_deg }) => [torque, roll_deg])).toEqual([
      [undefined, undefined],
      ["carrier", undefined],
      [undefined, undefined],
    ]);
  });
});

describe("a record of loads is refused by its path", () => {
  const loaded = (change: Record<string, unknown>) => ({ loads: LOADS, ...change });
  itRefuses("unknown-key", [
    ["a slip", loaded({ "loads.cornerMas_kg": 3 }), "loads.cornerMas_kg", /cornerMass_kg\?/],
    ["in a case", loaded({ "loads.cases[0].timesStatic.upp": 3 }), "loads.cases[0].timesStatic.upp", /up\?/],
    ["in a bolt", loaded({ "loads.bolts[0].grade": 8 }), "loads.bolts[0].grade", /thread/],
  ]);
  itRefuses("wrong-value", [
    ["a case without force", loaded({ "loads.cases[0].timesStatic": undefined }), "loads.cases[0]", /no force/],
    ["a mass of nothing", loaded({ "loads.cornerMass_kg": 0 }), "loads.cornerMass_kg", /above 0/],
    [
      "a wheel held by nothing known",
      loaded({ "loads.cases[0].torque": "hub" }),
      "loads.cases[0].torque",
      /carrier, shaft, free/,
    ],
    ["one and a half planes", loaded({ "loads.bolts[0].planes": 1.5 }), "loads.bolts[0].planes", /1 or 2/],
    ["an unknown thread", loaded({ "loads.bolts[0].thread": "M11" }), "loads.bolts[0].thread", /M10, M12/],
    ["a hole at the edge", loaded({ "loads.plates[0].end_mm": 6 }), "loads.plates[0].end_mm", /half the hole/],
    ["two sizes of a weld", loaded({ "loads.welds[0].throat_mm": 3 }), "loads.welds[0]", /both/],
    ["no size of a weld", loaded({ "loads.welds[0].leg_mm": undefined }), "loads.welds[0]", /neither/],
    ["an arm that is not cut", loaded({ "loads.tubes[1].cut": undefined }), "loads.tubes[1].cut", /one with the hub/],
    ["a link that is cut", loaded({ "loads.tubes[0].cut": [0, 0, 0] }), "loads.tubes[0].cut", /bar of its own/],
    ["a leg of a link", loaded({ "loads.tubes[0].section": "front" }), "loads.tubes[0].section", /inboard, outboard/],
    ["inboard brakes without a shaft", loaded({ driveshaft: undefined }), "loads.brakes", /driveshaft/],
    ["roll without a bar", loaded({ antiRollBar: undefined }), "loads.cases[1].roll_deg", /no anti-roll bar/],
  ]);
  itRefuses("missing-id", [
    ["no such joint", loaded({ "loads.bolts[0].joint": "upper.inbord" }), "loads.bolts[0].joint", /upper\.inboard\?/],
    ["no such member", loaded({ "loads.tubes[0].member": "uper" }), "loads.tubes[0].member", /upper\?/],
  ]);
  itRefuses("missing-point", [
    ["no such point", loaded({ "loads.tubes[1].cut": "arm.frnt" }), "loads.tubes[1].cut", /arm\.front\?/],
  ]);
  itRefuses("duplicate-id", [
    ["two cases of one name", loaded({ "loads.cases[1].id": "kerb" }), "loads.cases[1].id", /another load case/],
  ]);
});
