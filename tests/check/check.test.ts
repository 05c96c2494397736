import { describe, expect, it } from "vitest";
import { isClashing } from "../../src/check/check.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { checkDocument, pairOf } from "./checkDocument.ts";
import { storyCorner } from "./storyCorner.ts";

const coarse = (change: Partial<SceneDocument> = {}) => storyCorner({ tessellation_mm: 0.3, ...change });
const bolt = {
  id: "bolt",
  on: "chassis",
  shape: { kind: "cylinder", from: [-30, 410, 425], to: [-10, 410, 425], diameter_mm: 12 },
} as const;

describe("the result of a check", () => {
  it("lists every pair once, names in order, worst first", async () => {
    const { pairs } = await checkDocument(coarse({ sides: "both" }));
    const names = pairs.map(({ side, a, b }) => `${side}/${a}/${b}`);
    expect(new Set(names).size).toBe(names.length);
    for (const { a, b } of pairs) expect(a < b).toBe(true);
    const rank = { clash: 0, tight: 1, clear: 2, accepted: 3 };
    const ranks = pairs.map(({ verdict }) => rank[verdict]);
    expect(ranks).toEqual([...ranks].sort());
  });

  it("holds nothing that JSON cannot carry", async () => {
    // the bolt lies wholly within the joint, so the link has nothing to be held against
    const result = await checkDocument(coarse({ bodies: [...coarse().bodies, bolt] }));
    expect(result.pairs.some(({ a, b }) => a === "bolt" && b === "upper")).toBe(false);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });

  it("gives the right side the mirror image of the left", async () => {
    const corner = coarse({ sides: "both", powertrain: { poses: [] } });
    const rail = { ...corner.bodies[0]!, on: "chassis", mirror: true };
    const { pairs, sides, limits } = await checkDocument({ ...corner, bodies: [rail] });
    const left = pairs.filter(({ side }) => side === "left");
    const right = pairs.filter(({ side }) => side === "right");
    expect(right.length).toBe(left.length);
    for (const pair of left) {
      const twin = pairOf({ pairs: right } as never, pair.a, pair.b, "right");
      // 0.01 mm near, 0.1 mm far: what the sweep promises
      expect(Math.abs(twin.clearance_mm - pair.clearance_mm)).toBeLessThan(pair.clearance_mm > 15 ? 0.1 : 0.02);
      expect(twin.verdict).toBe(pair.verdict);
    }
    expect(sides.right).toEqual(sides.left);
    const values = (side: string) => limits.filter((limit) => limit.side === side).map(({ value }) => value);
    expect(values("right")).toEqual(values("left"));
  });

  it("is the same in another place: moved and with names swapped", async () => {
    const before = await checkDocument(coarse());
    const renamed = coarse();
    const swapped = {
      ...renamed,
      members: renamed.members.map((member) => (member.id === "upper" ? { ...member, id: "a-link" } : member)),
    };
    const after = await checkDocument(swapped);
    const one = pairOf(before, "sump-rail", "upper");
    const other = pairOf(after, "a-link", "sump-rail");
    expect(Math.abs(other.clearance_mm - one.clearance_mm)).toBeLessThan(0.02);
    for (let axis = 0; axis < 3; axis++) expect(other.pointB[axis]).toBeCloseTo(one.pointA[axis]!, 1);
  });

  it("changes nothing but coordinates when the whole car is moved forward", async () => {
    const by = 137;
    const before = await checkDocument(coarse());
    const after = await checkDocument(movedForward(coarse(), by));
    expect(after.pairs.length).toBe(before.pairs.length);
    for (const pair of before.pairs) {
      const twin = pairOf(after, pair.a, pair.b);
      // 0.01 mm near, 0.1 mm far: what the sweep promises; and float32 coordinates
      expect(Math.abs(twin.clearance_mm - pair.clearance_mm)).toBeLessThan(pair.clearance_mm > 15 ? 0.1 : 0.02);
      expect(twin.verdict).toBe(pair.verdict);
    }
    for (const [i, point] of before.sides.left!.curve.entries()) {
      for (const [name, value] of Object.entries(point)) {
        expect(after.sides.left!.curve[i]![name as keyof typeof point]).toBeCloseTo(value, 8);
      }
    }
  });

  it("changes no verdict when the step is halved", async () => {
    const corner = coarse();
    const verdicts = async (step_mm: number) =>
      (await checkDocument({ ...corner, travel: { ...corner.travel, step_mm } })).pairs
        .map(({ side, a, b, verdict }) => `${side} ${a} ${b} ${verdict}`)
        .sort();
    expect(await verdicts(5)).toEqual(await verdicts(10));
  });

  it("leaves an accepted pair out of the count and says why", async () => {
    const corner = coarse();
    const clearances = { default_mm: 20, accept: [{ a: "upper", b: "sump-rail", why: "rubber flap, meant to touch" }] };
    const result = await checkDocument({ ...corner, clearances });
    const pair = pairOf(result, "sump-rail", "upper");
    expect(pair.verdict).toBe("accepted");
    expect(pair.why).toBe("rubber flap, meant to touch");
    expect(result.summary.accepted).toBe(1);
  });

  it("takes a pose only within its credible travel", async () => {
    const corner = coarse();
    const poses = corner.powertrain!.poses!.map((pose) => ({ ...pose, within_mm: [-70, 0] as [number, number] }));
    const pair = pairOf(await checkDocument({ ...corner, powertrain: { poses } }), "sump-rail", "upper");
    expect(pair.at.pose).toBe("rest");
    expect(Math.abs(pair.clearance_mm - 8.4)).toBeLessThan(0.5);
  });

  it("narrows to one pose", async () => {
    const result = await checkDocument(coarse(), "tail-up");
    expect(new Set(result.pairs.map(({ at }) => at.pose))).toEqual(new Set(["tail-up"]));
  });

  it("calls a passed limit a clash of the scene", async () => {
    const { damper: _damper, ...rest } = coarse({ clearances: { default_mm: 0 }, bodies: [] });
    expect(isClashing(await checkDocument(rest))).toBe(false);
    expect(isClashing(await checkDocument(coarse()))).toBe(true);
  });

  it("runs to the bind and says where it is", async () => {
    // a short link lies along its line to the arm's pivot long before 300 mm
    const corner = coarse({ travel: { bump_mm: 300, droop_mm: 10, step_mm: 10 } });
    const result = await checkDocument({ ...corner, points: { ...corner.points, "upper.in": [-20, 560, 428] } });
    const binds = result.limits.find(({ what }) => what === "binds");
    const { left } = result.sides;
    expect(binds?.verdict).toBe("clash");
    expect(left?.bindsAt_mm).toBe(binds?.value);
    expect(left?.curve.at(-1)?.travel_mm).toBeCloseTo(binds!.value, 1);
    expect(binds!.value).toBeLessThan(300);
  });

  it("holds a mirrored bracket on both sides and the powertrain's bodies where they are", async () => {
    const corner = coarse({ sides: "both", powertrain: { poses: [] } });
    const lug = {
      id: "lug",
      on: "chassis",
      mirror: true,
      shape: { kind: "sphere", at: [-20, 530, 500], diameter_mm: 30 },
    };
    const { pairs } = await checkDocument({ ...corner, bodies: [...corner.bodies, lug] } as SceneDocument);
    const left = pairOf({ pairs } as never, "lug", "upper", "left");
    const right = pairOf({ pairs } as never, "lug", "upper", "right");
    expect(Math.abs(left.clearance_mm - right.clearance_mm)).toBeLessThan(0.1);
    const rail = pairOf({ pairs } as never, "sump-rail", "upper", "right");
    expect(rail.clearance_mm).toBeGreaterThan(500);
  });
});

/** The document with every place shifted along X; directions, sizes and angles stay. */
function movedForward(document: SceneDocument, by_mm: number): SceneDocument {
  const places = new Set(["centre", "top", "bottom", "inner", "outer", "about", "at", "from", "to"]);
  const shift = (value: unknown, isPlace: boolean): unknown => {
    if (Array.isArray(value)) {
      if (isPlace && value.length === 3) return [value[0] + by_mm, value[1], value[2]];
      return value.map((item) => shift(item, false));
    }
    if (value === null || typeof value !== "object") return value;
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, shift(inner, places.has(key))]));
  };
  const points = Object.entries(document.points).map(([name, at]) => [name, shift(at, true)]);
  return { ...(shift(document, false) as SceneDocument), points: Object.fromEntries(points) };
}
