import { describe, expect, it } from "vitest";
import { isChassisSide, listPoints, usersOfPoint, withBoltedUp, withPoint } from "../../src/scene/points.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { looseScene, refusal, SAVED_VERSION_1 } from "./fixture.ts";

const saved = readScene(SAVED_VERSION_1, "car.json");

describe("the list of points", () => {
  it("has every named point as the resolved scene has it, and knows the mounts", () => {
    const listed = listPoints(saved);
    expect(listed.map(({ name, isMount, ...point }) => [name, point])).toEqual([...resolveScene(saved).points]);
    expect(listed.filter(({ isMount }) => isMount).map(({ name }) => name)).toEqual([
      "arm.front",
      "upper.in",
      "damper.top",
    ]);
  });
});

describe("who uses a point", () => {
  it("finds users by name, by offset and through other points, and not the entries in between", () => {
    expect(usersOfPoint(saved, "upper.in").map(({ user, id, path }) => [user, id, path])).toEqual([
      ["datum", "bulkhead", "datums[1].at"],
      ["member", "upper", "members[1].inboard"],
      ["member", "upper", "members[1].body.path[0]"],
      ["body", "ear", "bodies[1].shape.origin"],
      ["body", "lumps", "bodies[2].shape.parts[0].at"],
      ["body", "dust-cover", "bodies[3].shape.at"],
    ]);
    expect(usersOfPoint(saved, "upper.ear.bolt").map(({ id }) => id)).toEqual(["lumps"]);
    expect(usersOfPoint(saved, "nothing")).toEqual([]);
  });

  it("knows damper, bar and shaft", () => {
    const scene = looseScene();
    Object.assign(scene.damper, { top: "arm.front" });
    Object.assign(scene.antiRollBar, { pickup: { from: "arm.front", by: [1, 0, 0] } });
    Object.assign(scene.driveshaft, { outer: "arm.front" });
    scene.powertrain.poses[0].about = "arm.front";
    expect(usersOfPoint(scene, "arm.front").map(({ user, isMount }) => [user, isMount])).toEqual([
      ["member", true],
      ["damper", true],
      ["antiRollBar", false],
      ["driveshaft", false],
      ["powertrain", false],
    ]);
  });

  it("tells mounts from moving ends and from brackets", () => {
    const scene = looseScene();
    scene.points.hub = [-20, 650, 430];
    scene.members[1].outboard = "hub";
    expect(isChassisSide(scene, "upper.in")).toBe(true);
    expect(isChassisSide(scene, "hub")).toBe(false);
    expect(isChassisSide(scene, "upper.ear")).toBe(false);
    expect(isChassisSide(scene, "nothing")).toBe(false);
    scene.members[2].inboard = { from: "upper.ear", by: [0, -100, -200] };
    expect(isChassisSide(scene, "upper.ear")).toBe(true);
  });

  it("goes round a circle of points once", () => {
    const scene = looseScene();
    scene.points.a = { at: "b" };
    scene.points.b = { at: "a" };
    scene.members[2].inboard = "a";
    expect(usersOfPoint(scene, "b").map(({ id }) => id)).toEqual(["lower"]);
  });
});

describe("cut to suit", () => {
  it("draws the point elsewhere, keeps what is known of it, and forgets that it was bolted up", () => {
    const front = withPoint(saved, "arm.front", [431, 642, 330]);
    expect(front.points["arm.front"]).toEqual({ at: [431, 642, 330], tolerance_mm: 1, how: "tape from three studs" });
    expect(front.boltedUp).toEqual(saved.boltedUp);
    const upper = withPoint(saved, "upper.in", [-20, 425, 415]);
    expect(upper.points["upper.in"]).toEqual([-20, 425, 415]);
    expect("boltedUp" in upper).toBe(false);
    expect(resolveScene(upper).points.get("upper.ear")).toMatchObject({ at: [-20, 410, 445], boltedUpAt: null });
  });

  it("shares everything else and leaves the old document alone", () => {
    const moved = withPoint(saved, "arm.front", [431, 642, 330]);
    expect(moved.members).toBe(saved.members);
    expect(moved.bodies).toBe(saved.bodies);
    expect(moved.points["damper.top"]).toBe(saved.points["damper.top"]);
    expect(Object.keys(moved.points)).toEqual(Object.keys(saved.points));
    expect(saved).toEqual(looseScene());
  });

  it("refuses a name that stands nowhere", () => {
    for (const name of ["uper.in", "toString", "__proto__"]) {
      expect(refusal(() => withPoint(saved, name, [0, 0, 0])).code).toBe("missing-point");
      expect(refusal(() => withBoltedUp(saved, name, null)).code).toBe("missing-point");
    }
  });
});

describe("bolt up", () => {
  it("moves the mount alone, and puts it back to the very same document", () => {
    const bolted = withBoltedUp(saved, "arm.front", [430, 638, 327]);
    expect(bolted.points).toBe(saved.points);
    expect(resolveScene(bolted).members[0]).toMatchObject({ at: [430, 640, 330], atMounted: [430, 638, 327] });
    expect(withBoltedUp(bolted, "arm.front", null)).toEqual(saved);
    expect(withBoltedUp(saved, "arm.front", null)).toBe(saved);
    expect("boltedUp" in withBoltedUp(saved, "upper.in", null)).toBe(false);
  });
});
