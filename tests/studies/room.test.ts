// Numbers of the stories are those of the project's acceptance stories, worked out apart from this program by rigid-joint geometry;
// they hold to ±0.3 mm and ±0.02°.
import { describe, expect, it } from "vitest";
import type { Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { fullCheck } from "../../src/studies/fullCheck.ts";
import type { PlaceQuestion } from "../../src/studies/places/placeStudy.ts";
import { blocksOf } from "../../src/studies/room/order.ts";
import { PlaceGrid, type Region } from "../../src/studies/room/region.ts";
import { FREE, mapRoom, mergeRooms, type RoomMap, UNASKED } from "../../src/studies/room/room.ts";
import { readRoom, toldRoom } from "../../src/studies/room/told.ts";
import { StudyStopped } from "../../src/studies/stopped.ts";
import { bracketCorner, question, studyCorner } from "./studyCorner.ts";

const OUT: Vec3 = [0, 1, 0];
const UP: Vec3 = [0, 0, 1];

function box(half: number, step_mm: number): Region {
  const axes: Vec3[] = [[1, 0, 0], OUT, UP];
  return { spans: axes.map((along) => ({ along, from_mm: -half, to_mm: half })), step_mm };
}

function line(along: Vec3, from_mm: number, to_mm: number, step_mm: number): Region {
  return { spans: [{ along, from_mm, to_mm }], step_mm };
}

function room(document: SceneDocument, region: Region, change: Partial<PlaceQuestion> = {}): RoomMap {
  return mapRoom({ ...question(document, change), region });
}

function placeOf(map: RoomMap, offset: Vec3): number {
  const grid = new PlaceGrid(map.region);
  return [...map.reason.keys()].find((place) => grid.offsetOf(place).every((v, k) => Math.abs(v - offset[k]!) < 1e-9))!;
}

/** Offsets of the places that are free. */
function freeOf(map: RoomMap): string[] {
  const grid = new PlaceGrid(map.region);
  return [...map.reason.keys()]
    .filter((place) => map.reason[place] === FREE)
    .map((place) =>
      grid
        .offsetOf(place)
        .map((v) => v.toFixed(6))
        .join(" "),
    );
}

const bare = studyCorner({ bodies: [], clearances: { default_mm: 0 } });
/** The story tells of bump: in deep droop this camber comes sooner. */
const inBump = { ...bare, travel: { bump_mm: 60, droop_mm: 30, step_mm: 5 } };
const arm: Vec3 = [0, -240 / Math.hypot(240, 5), -5 / Math.hypot(240, 5)];

describe("room map: the stories", () => {
  it("1: refuses the pivot 15 outboard by the sump rail and frees it 10 lower, with 1.4 mm more than wanted", () => {
    const map = room(studyCorner(), {
      spans: [
        { along: OUT, from_mm: 0, to_mm: 15 },
        { along: UP, from_mm: -10, to_mm: 0 },
      ],
      step_mm: 5,
    });
    const refused = placeOf(map, [0, 15, 0]);
    expect(map.reasons[map.reason[refused]!]).toMatchObject({ kind: "clearance", a: "sump-rail", b: "upper" });
    expect(map.states[map.state[refused]!]).toMatchObject({ pose: "tail-down" });
    expect(map.margin_mm[refused]).toBeLessThan(0);
    const free = placeOf(map, [0, 15, -10]);
    expect(map.reason[free]).toBe(FREE);
    expect(Math.abs(map.margin_mm[free]! - 1.4)).toBeLessThanOrEqual(0.3);
    expect(map.states[map.state[free]!]).toEqual({ travel_mm: 60, pose: "tail-down" });
  });

  it.each([
    [-2.5, 193.4],
    [-3, 162.8],
  ])("2: camber of %s° at +60 is reached with a link of %s mm", (camber_deg, length_mm) => {
    const map = room(inBump, line(arm, -90, 0, 0.1), { limits: { camber_deg: [camber_deg, 10] } });
    const grid = new PlaceGrid(map.region);
    const free = [...map.reason.keys()].filter((place) => map.reason[place] === FREE);
    const shortest = 240.1 - Math.max(...free.map((place) => Math.hypot(...grid.offsetOf(place))));
    expect(Math.abs(shortest - length_mm)).toBeLessThanOrEqual(0.3 + 0.1);
  });

  it("2: warns of toe before camber: at 160 mm toe is −1.58° at −60", () => {
    const map = room({ ...bare, travel: { bump_mm: 60, droop_mm: 60, step_mm: 5 } }, line(arm, -80.1, 0, 80.05), {
      limits: { toeChange_deg: 1.5, camber_deg: [-4, 4] },
    });
    const place = 0;
    expect(map.reasons[map.reason[place]!]).toMatchObject({ kind: "limit", what: "toe-change" });
    expect(map.states[map.state[place]!]!.travel_mm).toBe(-60);
    expect(Math.abs(map.value[place]! + 0.15 - (0.15 - 1.58))).toBeLessThanOrEqual(0.15 + 0.02);
  });

  it("9: a toe link's inner end 6 mm up, cut to suit, keeps toe within 0.04° over ±30; where it is it does not", () => {
    const wishbones: SceneDocument = {
      ...bare,
      points: { "toe.in": [-150, 330, 225] },
      travel: { bump_mm: 30, droop_mm: 30, step_mm: 5 },
      members: [
        {
          id: "upper",
          kind: "wishbone",
          front: [90, 420, 425],
          rear: [-90, 420, 425],
          outboard: [-5, 660, 440],
          body: null,
        },
        {
          id: "lower",
          kind: "wishbone",
          front: [150, 300, 200],
          rear: [-130, 300, 200],
          outboard: [5, 690, 195],
          body: null,
        },
        { id: "toe", kind: "link", inboard: "toe.in", outboard: [-150, 670, 230], body: null },
      ],
    };
    const { driveshaft: _shaft, ...document } = wishbones;
    const map = room(document, line(UP, 0, 12, 1), { points: ["toe.in"], limits: { toeChange_deg: 0.04 } });
    expect(map.reason[6]).toBe(FREE);
    expect(map.reason[0]).not.toBe(FREE);
  });
});

/** Without the damper, which stands in the lower link's way, and with the rail higher, so that some places are free. */
const { damper: _damper, ...undamped } = bracketCorner();
const roomy: SceneDocument = {
  ...undamped,
  bodies: undamped.bodies.map((body) =>
    body.id === "sump-rail" ? { ...body, shape: { kind: "box", size_mm: [200, 60, 14], at: [20, 425, 486] } } : body,
  ),
  clearances: { ...undamped.clearances, accept: undamped.clearances.accept!.slice(0, 1) },
};

describe("room map: properties", () => {
  const small = room(roomy, box(10, 5));

  it("is not empty and not full, and tells of each place why or how much", () => {
    expect(small.reason).toContain(FREE);
    expect([...small.reason].some((reason) => reason >= 0)).toBe(true);
    for (const [place, reason] of small.reason.entries()) {
      if (reason === FREE) expect(small.margin_mm[place]).toBeGreaterThanOrEqual(0);
      else expect(small.reasons[reason]).toBeDefined();
    }
  });

  it("is what the whole check says of some of its places", () => {
    const grid = new PlaceGrid(small.region);
    const places = [0, 62, 124];
    for (const place of places) {
      const [x, y, z] = grid.offsetOf(place);
      const base = roomy;
      const moved = { ...base, points: { ...base.points, "upper.in": [-20 + x, 410 + y, 425 + z] as const } };
      const { pairs } = fullCheck(moved, new Map(), "moved");
      const worst = Math.min(
        ...pairs.filter(({ verdict }) => verdict !== "accepted").map((pair) => pair.clearance_mm - pair.required_mm),
      );
      // the whole check knows of everything between the states, and of pairs that do not hang on the point
      if (small.reason[place] === FREE) expect(worst).toBeLessThanOrEqual(small.margin_mm[place]! + 0.6);
      else expect(worst).toBeLessThan(0);
    }
  });

  it("has in a larger box every free place of a smaller one", () => {
    const larger = new Set(freeOf(room(roomy, box(15, 5))));
    expect(freeOf(small).filter((place) => !larger.has(place))).toEqual([]);
  });

  it("keeps every free place under looser limits", () => {
    const tight = { toeChange_deg: 1.55, camber_deg: [-2.7, 3] as const, halfTrackChange_mm: 7 };
    const loose = { toeChange_deg: 1.8, camber_deg: [-2.8, 3] as const, halfTrackChange_mm: 7.6 };
    const few = freeOf(room(roomy, box(10, 5), { limits: tight }));
    const more = new Set(freeOf(room(roomy, box(10, 5), { limits: loose })));
    expect(few.length).toBeGreaterThan(0);
    expect(few.filter((place) => !more.has(place))).toEqual([]);
    expect(more.size).toBeGreaterThanOrEqual(few.length);
  });

  it("is the same to the last bit in one run and merged from shares, through JSON too", () => {
    const request = { ...question(roomy), region: box(15, 5) };
    const whole = mapRoom(request);
    const shares = [0, 1, 2].map((index) => mapRoom(request, undefined, undefined, { index, of: 3 }));
    expect(shares.every(({ reason }) => reason.includes(UNASKED))).toBe(true);
    const read = shares.map((share) => readRoom(JSON.stringify(toldRoom(share, "x")), "x").map);
    expect(mergeRooms(read.reverse())).toEqual(whole);
    expect(() => mergeRooms([shares[0]!, shares[0]!])).toThrow(/places of another/);
    expect(() => mergeRooms([shares[0]!, small])).toThrow(/another question/);
  });

  it("tells a coarse picture first, and stops when it is not wanted", () => {
    const levels: number[] = [];
    const request = { ...question(bare), region: box(20, 2) };
    expect(() =>
      mapRoom(
        request,
        ({ level }) => levels.push(level),
        () => levels.length >= 3,
      ),
    ).toThrow(StudyStopped);
    expect(levels[0]).toBe(2);
  });
});

describe("places of a region", () => {
  it("come each once, coarse ones first, and the place where the point is among the first", () => {
    const grid = new PlaceGrid(box(11, 0.9));
    const blocks = blocksOf(grid);
    const places = blocks.flatMap((block) => [...block.places]);
    expect(new Set(places).size).toBe(grid.count);
    expect(places).toHaveLength(grid.count);
    const levels = blocks.map(({ level }) => level);
    expect(levels).toEqual([...levels].sort((a, b) => b - a));
    expect([...blocks[0]!.places]).toContain(grid.numberOf([0, 0, 0]));
  });

  it.each<[Region, RegExp]>([
    [{ spans: [], step_mm: 1 }, /0 directions/],
    [line([0, 0, 0], 0, 1, 1), /no length/],
    [line(OUT, 0.2, 0.8, 1), /no step/],
    [line(OUT, 0, 1, 0), /step/],
    [
      {
        spans: [
          { along: OUT, from_mm: 0, to_mm: 1 },
          { along: [0, -2, 0], from_mm: 0, to_mm: 1 },
        ],
        step_mm: 1,
      },
      /one line/,
    ],
    [box(1000, 0.1), /places/],
  ])("refuses %j", (region, message) => {
    expect(() => new PlaceGrid(region)).toThrow(message);
  });

  it("refuses points that are not there, the wheel's centre, and bolting up what sits on no chassis", () => {
    expect(() => room(bare, line(OUT, 0, 5, 5), { points: ["uper.in"] })).toThrow(/uper\.in/);
    expect(() => room(bare, line(OUT, 0, 5, 5), { points: ["upper.out"], fit: "bolted" })).toThrow(
      /held to the chassis/,
    );
    const named = {
      ...bare,
      points: { ...bare.points, hub: [0, 740, 300] as const },
      wheel: { ...bare.wheel, centre: "hub" },
    };
    expect(() => room(named, line(OUT, 0, 5, 5), { points: ["hub"] })).toThrow(/wheel's centre/);
    expect(() => room(bare, line(OUT, 0, 5, 5), { limits: { memberLength_mm: { uper: [1, 2] } } })).toThrow(/uper/);
  });
});
