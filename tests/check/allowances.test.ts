// What tyres and bushes may take beyond the drawing, held against planes, spheres and moved copies.
import { describe, expect, it } from "vitest";
import { prepareCheck } from "../../src/check/check.ts";
import { buildTyre } from "../../src/geometry/tyreSolid.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { removePart } from "../../src/scene/parts/remove.ts";
import { renamePart } from "../../src/scene/parts/rename.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { fullCheck } from "../../src/studies/fullCheck.ts";
import { agrees } from "../truth/agreement.ts";
import { storyCorner } from "./storyCorner.ts";

const { damper: _, ...bare } = storyCorner({ tessellation_mm: 0.2 });
const corner = (allowances?: SceneDocument["allowances"], more: Partial<SceneDocument> = {}): SceneDocument => ({
  ...bare,
  ...more,
  ...(allowances ? { allowances } : {}),
});
const pairOf = (document: SceneDocument, a: string, b: string) =>
  fullCheck(document, new Map(), "allowances").pairs.find((pair) => pair.a === a && pair.b === b)!;

describe("a tyre that grows and bulges", () => {
  const wheel = resolveScene(corner(undefined, { wheel: { ...bare.wheel, toe_deg: 0, camber_deg: 0 } })).wheel;
  /** Farthest radius and width of a tyre whose axis runs along Y. */
  const sizeOf = (grown: Partial<typeof wheel>) => {
    const { positions } = buildTyre({ ...wheel, ...grown }, 0.1);
    let [radius, half] = [0, 0];
    for (let i = 0; i < positions.length; i += 3) {
      radius = Math.max(radius, Math.hypot(positions[i]! - wheel.centre[0], positions[i + 2]! - wheel.centre[2]));
      half = Math.max(half, Math.abs(positions[i + 1]! - wheel.centre[1]));
    }
    return { radius, half };
  };

  it("is larger by just that, all round and to both sides", () => {
    const [plain, grown] = [sizeOf({}), sizeOf({ growth_mm: 4, bulge_mm: 6 })];
    expect(grown.radius - plain.radius).toBeCloseTo(4, 1);
    expect(grown.half - plain.half).toBeCloseTo(6, 3);
  });

  // a wall square to the axle beside the tyre, a plate square to the radius behind it: the gap loses what the tyre gains
  const at = (id: string, size_mm: readonly [number, number, number], place: readonly [number, number, number]) =>
    ({ id, on: "chassis", shape: { kind: "box", size_mm, at: place } }) as const;
  const walls = {
    travel: { bump_mm: 0, droop_mm: 0, step_mm: 5 },
    wheel: { ...bare.wheel, toe_deg: 0, camber_deg: 0 },
    bodies: [at("wall", [800, 10, 800], [0, 590, 300]), at("plate", [10, 300, 300], [-360, 740, 300])],
    clearances: { default_mm: 40 },
  };

  it.each([
    ["wall", { tyreBulge_mm: 6 }, 6],
    ["plate", { tyreGrowth_mm: 4 }, 4],
    ["wall", { tyreGrowth_mm: 4 }, 0],
    ["plate", { tyreBulge_mm: 6 }, 0],
  ] as const)("comes nearer to a %s by %j", (other, allowances, by) => {
    const [a, b] = ["tyre", other].sort() as [string, string];
    const before = pairOf(corner(undefined, walls), a, b).clearance_mm;
    const after = pairOf(corner(allowances, walls), a, b).clearance_mm;
    expect(before - after).toBeCloseTo(by, 0);
    expect(Math.abs(before - after - by)).toBeLessThanOrEqual(0.3);
  });
});

describe("what bushes and mounts give", () => {
  const rail = (document: SceneDocument) => pairOf(document, "sump-rail", "upper");

  it("is taken off every clearance of what rides there, and told", () => {
    const before = rail(corner(undefined, { clearances: { default_mm: 0 }, powertrain: {} }));
    const after = rail(
      corner({ give: [{ on: "powertrain", mm: 3 }] }, { clearances: { default_mm: 0 }, powertrain: {} }),
    );
    agrees("give", before.clearance_mm - after.clearance_mm, 3, 2);
    agrees("give", after.give_mm, 3, 9);
    const given = resolveScene(corner({ give: [{ on: "powertrain", mm: 3 }] }));
    const body = prepareCheck(given, new Map()).bodies.find(({ id }) => id === "sump-rail")!;
    agrees("give", body.give_mm, 3, 9);
    expect(after).not.toHaveProperty("within_mm");
    expect(before).not.toHaveProperty("give_mm");
  });

  it("adds up of both parts, and counts for all that is one with the part", () => {
    const give = [
      { on: "powertrain", mm: 2 },
      { on: "upper", mm: 1 },
      { on: "arm", mm: 1.5 },
    ];
    expect(rail(corner({ give })).give_mm).toBe(3);
    // the one-piece arm is one with hub and tyre
    expect(pairOf(corner({ give }), "tyre", "upper").give_mm).toBe(2.5);
  });

  it("is never told less than a part pushed off that way shows: the rail itself lowered", () => {
    const still = { clearances: { default_mm: 0 }, powertrain: {} };
    const given = rail(corner({ give: [{ on: "powertrain", mm: 3 }] }, still)).clearance_mm;
    const ways = [
      [0, 0, -3],
      [0, 3, 0],
      [-3, 0, 0],
      [0, 2.1, -2.1],
    ] as const;
    for (const shift_mm of ways) {
      const pushed = corner(undefined, {
        ...still,
        powertrain: { place: { shift_mm, turn_deg: [0, 0, 0], about: [0, 0, 0] } },
      });
      expect(rail(pushed).clearance_mm).toBeGreaterThanOrEqual(given - 0.02);
    }
  });

  it("makes tight what it may bring together, and follows renamed and removed parts", () => {
    // 8.4 mm apart at rest
    const near = rail(corner({ give: [{ on: "powertrain", mm: 9 }] }, { powertrain: {} }));
    expect(near.verdict).toBe("tight");
    expect(near.clearance_mm).toBe(0);
    const given = corner({ give: [{ on: "upper", mm: 1 }], tyreGrowth_mm: 2 });
    expect(renamePart(given, "upper", "top-link").allowances?.give).toEqual([{ on: "top-link", mm: 1 }]);
    const shafted = corner({ give: [{ on: "driveshaft", mm: 1 }] });
    expect(removePart(shafted, "driveshaft")).not.toHaveProperty("allowances");
  });

  it("is read from a file, and refused for what is not there", () => {
    const text = JSON.stringify(corner({ give: [{ on: "nothing", mm: 1 }] }));
    expect(() => resolveScene(readScene(text, "s.json"), "s.json")).toThrow(/allowances\.give\[0\]\.on.*nothing/);
    const chassis = JSON.stringify(corner({ give: [{ on: "chassis", mm: 1 }] }));
    expect(() => resolveScene(readScene(chassis, "s.json"), "s.json")).toThrow(/chassis/);
    expect(() => readScene(JSON.stringify({ ...corner(), allowances: { tyreGrowth_mm: -1 } }), "s.json")).toThrow(
      /allowances\.tyreGrowth_mm/,
    );
  });
});
