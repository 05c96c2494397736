import { describe, expect, it } from "vitest";
import { type CutWish, cornersOf, cutPlane } from "../../../src/app/cut/cutPlane.ts";
import { hitBehindCut } from "../../../src/app/cut/hitBehindCut.ts";
import { liveMounts, livePoses } from "../../../src/app/store/livePoses.ts";
import { assembleModel } from "../../../src/check/assemble.ts";
import type { ModelBody } from "../../../src/check/model.ts";
import { buildSolid } from "../../../src/geometry/buildSolid.ts";
import { translationPose } from "../../../src/maths/pose.ts";
import { dot, length, subtract, type Vec3 } from "../../../src/maths/vec3.ts";
import { ridesOfPoints } from "../../../src/scene/pointRide.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import type { Shape } from "../../../src/scene/scene.ts";
import { smallScene } from "../smallScene.ts";

const document = smallScene();
const scene = resolveScene(document);
const bodies = assembleModel(scene);
const NONE: CutWish = { way: null, offset_mm: 0, point: null, body: null, isFlipped: false };

function stateAt(travel_mm: number) {
  const shown = { travel_mm: { left: travel_mm, right: travel_mm }, pose: "rest" };
  const poses = livePoses(scene, bodies, shown);
  return { scene, poses, mounts: liveMounts(scene, shown), rides: ridesOfPoints(document) };
}

describe("the section plane", () => {
  it("stands square to its axis where it is asked to, and cuts the other half away when flipped", () => {
    const plane = cutPlane({ ...NONE, way: "across", offset_mm: -40 }, bodies, stateAt(0))!;
    expect(plane.at[0]).toBeCloseTo(-40, 9);
    // seen from behind: what is nearer to the eye goes
    expect(plane.normal).toEqual([-1, 0, 0]);
    const flipped = cutPlane({ ...NONE, way: "across", offset_mm: -40, isFlipped: true }, bodies, stateAt(0))!;
    expect(dot(flipped.normal, [1, 0, 0])).toBe(1);
    for (const corner of cornersOf(plane)) expect(corner[0]).toBeCloseTo(-40, 9);
  });

  it("goes through a hard point, and with it as the wheel moves", () => {
    for (const travel_mm of [0, 30, -50]) {
      const state = stateAt(travel_mm);
      const plane = cutPlane({ ...NONE, way: "level", point: "toe.out" }, bodies, state)!;
      const pose = state.poses.get("tyre@left")!;
      const [x, y, z] = [-150, 670, 230];
      expect(plane.offset_mm).toBeCloseTo(pose[8]! * x! + pose[9]! * y! + pose[10]! * z! + pose[11]!, 9);
    }
  });

  it("holds both ends of the link it goes along, at any travel and shifted by what is asked", () => {
    for (const travel_mm of [-70, 0, 60]) {
      const state = stateAt(travel_mm);
      const plane = cutPlane({ ...NONE, way: "axis", body: "toe@left", offset_mm: 12 }, bodies, state)!;
      const inboard: Vec3 = [-150, 330, 225];
      expect(Math.abs(dot(subtract(inboard, plane.at), plane.axis))).toBeCloseTo(12, 6);
      expect(length(plane.normal)).toBeCloseTo(1, 9);
      expect(dot(plane.normal, plane.right)).toBeCloseTo(0, 9);
      // as upright as the link allows
      expect(dot(plane.normal, [0, 0, 1])).toBeCloseTo(0, 9);
    }
    expect(cutPlane({ ...NONE, way: "axis", body: "nobody" }, bodies, stateAt(0))).toBeNull();
  });
});

const nowhere = { at: null, turn_deg: null } as const;
function bodyOf(key: string, shape: Shape): ModelBody {
  const solid = buildSolid(shape, { tessellation_mm: 0.01, wheel: scene.wheel, meshFiles: new Map() });
  return {
    key,
    id: key,
    side: "both",
    mount: "chassis",
    group: "chassis",
    role: null,
    look: null,
    solid,
    content: key,
  };
}

describe("what is picked behind a cut", () => {
  const ball = bodyOf("ball", { ...nowhere, kind: "sphere", diameter_mm: 100 });
  const plate = bodyOf("plate", {
    kind: "box",
    size_mm: [200, 200, 10],
    edge_mm: null,
    at: [0, 0, -100],
    turn_deg: null,
  });
  const both = [ball, plate];
  const poses = new Map([["ball", translationPose([0, 0, 0])]]);
  const cut = { at: [0, 0, 30], normal: [0, 0, 1] } as const;
  const down = (x: number) => ({ from: [x, 0, 500], way: [0, 0, -1] }) as const;

  it("is the fill in the plane, as wide as the ball's circle there", () => {
    // the circle's radius is √(50² − 30²) = 40
    const hit = hitBehindCut(both, poses, down(39.5), cut)!;
    expect(hit.body.key).toBe("ball");
    expect(hit.at[2]).toBeCloseTo(30, 9);
    // outside of the circle the ball's lower side is met where it is: at 45 out it is 21.8 up
    const rim = hitBehindCut(both, poses, down(45), cut)!;
    expect(rim.body.key).toBe("ball");
    expect(rim.at[2]).toBeCloseTo(Math.sqrt(50 ** 2 - 45 ** 2), 1);
  });

  it("is never what is cut away, from either side", () => {
    const low = { at: [0, 0, -60], normal: [0, 0, 1] } as const;
    expect(hitBehindCut(both, poses, down(0), low)?.body.key).toBe("plate");
    const up = { from: [0, 0, -500], way: [0, 0, 1] } as const;
    expect(hitBehindCut([ball], poses, up, low)).toBeNull();
    expect(hitBehindCut([ball], poses, up, { at: [0, 0, 0], normal: [0, 0, 1] })?.at[2]).toBeCloseTo(-50, 1);
    expect(hitBehindCut([ball], poses, up, null)?.at[2]).toBeCloseTo(-50, 1);
  });

  it("of a body with holes is its surface: it has no fill", () => {
    const shells = ball.solid.shells.map((shell) => ({ ...shell, closed: false }));
    const open = { ...ball, solid: { ...ball.solid, shells } };
    expect(hitBehindCut([open], poses, down(0), cut)?.at[2]).toBeCloseTo(-50, 1);
  });
});
