import { describe, expect, it } from "vitest";
import { dot, length } from "../../src/maths/vec3.ts";
import { meshFilesOf } from "../../src/scene/meshFiles.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import type { GroupShape, LinkMember, PrismShape, SphereShape, TubeShape } from "../../src/scene/scene.ts";
import { type Loose, looseScene, SAVED_VERSION_1, sceneAfter } from "./fixture.ts";

const asSaved = (): void => {};

describe("a resolved scene", () => {
  it("holds points where names and offsets lead", () => {
    const { points } = sceneAfter(asSaved);
    expect(points.get("arm.front")).toEqual({
      at: [430, 640, 330],
      boltedUpAt: null,
      tolerance_mm: 1,
      how: "tape from three studs",
    });
    expect(points.get("upper.in")).toEqual({
      at: [-20, 410, 425],
      boltedUpAt: [-20, 412, 425],
      tolerance_mm: null,
      how: null,
    });
    expect(points.get("upper.ear.bolt")).toEqual({
      at: [-20, 395, 455],
      boltedUpAt: [-20, 397, 455],
      tolerance_mm: null,
      how: null,
    });
  });

  it("gives a bolted-up mount twice, so that the part keeps its drawn length", () => {
    const { members } = sceneAfter(asSaved);
    const upper = members[1] as LinkMember;
    expect(upper.inboard).toEqual([-20, 410, 425]);
    expect(upper.inboardMounted).toEqual([-20, 412, 425]);
    const lower = members[2] as LinkMember;
    expect(lower.inboardMounted).toEqual(lower.inboard);
  });

  it("bolts up through an offset: the mount is where its base went, plus the offset", () => {
    const { members, damper, antiRollBar } = sceneAfter((s) => {
      s.members[2].inboard = { from: "upper.in", by: [0, -150, -225] };
      s.damper.top = { from: "upper.in", by: [0, 140, 180] };
      s.antiRollBar.pivot = "upper.ear";
    });
    expect(members[2]).toMatchObject({ inboard: [-20, 260, 200], inboardMounted: [-20, 262, 200] });
    expect(damper).toMatchObject({ top: [-20, 550, 605], topMounted: [-20, 552, 605] });
    expect(antiRollBar).toMatchObject({ pivot: [-20, 395, 455], pivotMounted: [-20, 397, 455] });
  });

  it("lets brackets on the chassis follow the mount, and leaves moving parts as drawn", () => {
    const { bodies, members } = sceneAfter(asSaved);
    const shapeOf = (id: string) => bodies.find((body) => body.id === id)!.shape;
    expect((shapeOf("ear") as PrismShape).origin).toEqual([-20, 412, 425]);
    expect(((shapeOf("lumps") as GroupShape).parts[0] as SphereShape).at).toEqual([-20, 397, 455]);
    expect((shapeOf("dust-cover") as SphereShape).at).toEqual([-20, 395, 455]);
    expect((members[1]!.body as TubeShape).path[0]).toEqual([-20, 410, 425]);
  });

  it("makes every direction a unit vector and squares the second of two to the first", () => {
    const scene = sceneAfter(asSaved);
    expect((scene.members[1] as LinkMember).bushAxis).toEqual([1, 0, 0]);
    expect(scene.powertrain.poses[1]!.axis).toEqual([0, 1, 0]);
    const { u, v } = scene.bodies[1]!.shape as PrismShape;
    expect(u).toEqual([0, 1, 0]);
    expect(v).toEqual([0, 0, 1]);
    for (const { forward, up } of scene.datums) {
      expect(length(forward)).toBeCloseTo(1, 12);
      expect(length(up)).toBeCloseTo(1, 12);
      expect(dot(forward, up)).toBeCloseTo(0, 12);
    }
    expect(scene.datums[1]!.forward).toEqual([-1, 0, 0]);
  });

  it("keeps a datum's up when only that is given", () => {
    const { datums } = sceneAfter((s) => {
      s.datums[1].forward = undefined;
    });
    expect(datums[1]!.up[0]).toBeCloseTo(1 / Math.sqrt(5), 12);
    expect(dot(datums[1]!.forward, datums[1]!.up)).toBeCloseTo(0, 12);
  });

  it("mirrors the shaft's inner end to the right, save what the scene says of the right", () => {
    const offset = sceneAfter(asSaved).driveshaft!.inner;
    expect(offset.left).toEqual({
      at: [25, 235, 345],
      axis: [0, 1, 0],
      shortest_mm: 419,
      longest_mm: 447,
      bar_mm: null,
      angleLimit_deg: 23,
    });
    expect(offset.right).toEqual({
      at: [25, -195, 345],
      axis: [0, -1, 0],
      shortest_mm: 419,
      longest_mm: 490,
      bar_mm: null,
      angleLimit_deg: 23,
    });
    const even = sceneAfter((s) => {
      delete s.driveshaft.right;
      s.driveshaft.innerAxis = [0, 3, 4];
    }).driveshaft!.inner;
    expect(even.right.at).toEqual([25, -235, 345]);
    expect(even.right.axis[1]).toBeCloseTo(-0.6, 12);
    expect(even.right.axis[2]).toBeCloseTo(0.8, 12);
    expect(even.right).toMatchObject({ shortest_mm: 419, longest_mm: 447, angleLimit_deg: 23 });
  });

  it("fills in the defaults that the format states", () => {
    const bare = sceneAfter((s) => {
      for (const key of [
        "notes",
        "datums",
        "damper",
        "antiRollBar",
        "driveshaft",
        "powertrain",
        "boltedUp",
        "tessellation_mm",
      ])
        delete s[key];
      s.bodies = [{ id: "lump", on: "chassis", shape: { kind: "box", size_mm: [1, 1, 1] } }];
      s.clearances = { default_mm: 12 };
      s.sides = "left";
      delete s.members[1].diameter_mm;
      s.members[0] = { id: "arm", kind: "ball", at: "arm.front" };
    });
    expect(bare).toMatchObject({
      notes: "",
      datums: [],
      damper: null,
      antiRollBar: null,
      driveshaft: null,
      sides: ["left"],
      tessellation_mm: 0.1,
    });
    expect(bare.clearances).toEqual({ default_mm: 12, jointRadius_mm: 40, rules: [], accept: [] });
    expect(bare.powertrain.place).toBeNull();
    expect(bare.powertrain.poses.map(({ id }) => id)).toEqual(["rest"]);
    expect(bare.members.map((member) => [member.id, member.diameter_mm, member.body])).toEqual([
      ["arm", 30, undefined],
      ["upper", 30, expect.anything()],
      ["lower", 30, undefined],
    ]);
    expect(bare.bodies).toEqual([
      {
        id: "lump",
        on: "chassis",
        role: null,
        mirror: false,
        shape: { kind: "box", size_mm: [1, 1, 1], edge_mm: null, at: null, turn_deg: null },
      },
    ]);
  });

  it("tells a bare member from one with the body of its kind", () => {
    const [arm, , lower] = sceneAfter(asSaved).members;
    expect(arm!.body).toBeNull();
    expect(lower!.body).toBeUndefined();
  });

  it("puts rest before the powertrain's own poses", () => {
    const { poses } = sceneAfter(asSaved).powertrain;
    expect(poses.map(({ id, within_mm }) => [id, within_mm])).toEqual([
      ["rest", null],
      ["drive", null],
      ["overrun", [-40, 60]],
    ]);
    expect(poses[0]).toMatchObject({ angle_deg: 0, shift_mm: [0, 0, 0] });
  });

  it("lets a rule wait for a role that no body has yet", () => {
    const rule = { a: "role:exhaust", b: "*", mm: 25 };
    expect(sceneAfter((s) => s.clearances.rules.push(rule)).clearances.rules[2]).toEqual(rule);
  });

  it.each([
    ["ball and two links", ["ball", "link", "link"]],
    ["two wishbones and a toe link", ["wishbone", "wishbone", "link"]],
    ["five links", ["link", "link", "link", "link", "link"]],
    ["a strut, a wishbone and a toe link", ["strut", "wishbone", "link"]],
    ["a trailing arm on a hinge", ["hinge"]],
  ])("takes %s as five constraints", (_, kinds) => {
    const ends = (i: number) => ({
      inboard: [i, 300, 300],
      outboard: [i, 600, 310],
      front: [100, 300, 200 + i],
      rear: [-100, 300, 200],
      top: [0, 600, 700],
      bottom: [0, 600, 300],
      at: [400, 600, 300],
    });
    const fields: Record<string, string[]> = {
      ball: ["at"],
      link: ["inboard", "outboard"],
      wishbone: ["front", "rear", "outboard"],
      hinge: ["front", "rear"],
      strut: ["top", "bottom"],
    };
    const scene = sceneAfter((s) => {
      s.members = kinds.map((kind, i) => ({
        id: `m${i}`,
        kind,
        ...Object.fromEntries(fields[kind]!.map((field) => [field, (ends(i) as Loose)[field]])),
      }));
      s.damper.on = "carrier";
      s.clearances = { default_mm: 10 };
    });
    expect(scene.members.map(({ kind }) => kind)).toEqual(kinds);
  });

  it("leaves the document as it was", () => {
    const document = readScene(SAVED_VERSION_1, "car.json");
    resolveScene(document);
    expect(document).toEqual(looseScene());
  });

  it("lists its mesh files once each", () => {
    const document = readScene(SAVED_VERSION_1, "car.json");
    expect(meshFilesOf(document)).toEqual([
      { file: "scans/tunnel.stl", unit: "m", repair: null, thinned: null, path: "bodies[2].shape.parts[6]" },
    ]);
  });
});
