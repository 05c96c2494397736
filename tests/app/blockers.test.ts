import { describe, expect, it } from "vitest";
import { blockersOf } from "../../src/app/corner/blockers.ts";
import type { ModelBody } from "../../src/check/model.ts";
import { buildSolid } from "../../src/geometry/buildSolid.ts";
import { identityPose, translationPose } from "../../src/maths/pose.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { smallScene } from "./smallScene.ts";

const { wheel } = resolveScene(smallScene());

function block(key: string, at: Vec3): ModelBody {
  const shape = { kind: "box", size_mm: [40, 40, 40], edge_mm: null, at, turn_deg: null } as const;
  const solid = buildSolid(shape, { tessellation_mm: 0.1, wheel, meshFiles: new Map() });
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

describe("what stands before a touch", () => {
  const behind: Vec3 = [-1, 0, 0];
  const bodies = [
    block("before", [-300, 0, 0]),
    block("beyond", [300, 0, 0]),
    block("beside", [-300, 0, 120]),
    block("one of the pair", [-60, 0, 0]),
  ];
  const drawn = new Map(bodies.map(({ key }) => [key, identityPose()]));

  it("is what the eye's line meets, not what lies beyond, beside, or is the touching pair itself", () => {
    const found = blockersOf([0, 0, 0], behind, bodies, drawn, ["one of the pair", "the other"]);
    expect([...found]).toEqual(["before"]);
  });

  it("follows parts to where they are now", () => {
    const poses = new Map(drawn)
      .set("before", translationPose([0, 0, 200]))
      .set("beside", translationPose([0, 0, -120]));
    const found = blockersOf([0, 0, 0], behind, bodies, poses, ["one of the pair", "the other"]);
    expect([...found]).toEqual(["beside"]);
  });

  it("a part that only grazes the ring round the touch is in the way too", () => {
    const found = blockersOf([0, 0, 40], behind, bodies, drawn, ["one of the pair", "the other"]);
    expect([...found]).toEqual(["before"]);
  });
});
