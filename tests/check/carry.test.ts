import { describe, expect, it } from "vitest";
import { carryOver, leastOfSweep, UNKNOWN } from "../../src/check/carry.ts";
import { type PreparedCheck, prepareCheck } from "../../src/check/check.ts";
import { fingerprint } from "../../src/check/fingerprint.ts";
import { CheckShelf } from "../../src/check/shelf.ts";
import { sweepPair } from "../../src/clearance/sweep.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import type { PairSweep } from "../../src/clearance/types.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { randomOf } from "../kinematics/random.ts";
import { storyCorner } from "./storyCorner.ts";

const SEED = 1618;
type Random = () => number;
type Body = SceneDocument["bodies"][number];

/** Sweeps every pair, and keeps what is the same from edit to edit. */
class Sweeper {
  readonly #shelf = new CheckShelf();
  readonly #trees = new TreeShelf();
  readonly #kept = new Map<string, PairSweep>();

  prepare(document: SceneDocument): PreparedCheck {
    return prepareCheck(resolveScene(document), new Map(), this.#shelf);
  }

  sweep({ pairs }: PreparedCheck): PairSweep[] {
    return pairs.map((pair) => {
      const name = fingerprint(pair);
      const swept = this.#kept.get(name) ?? sweepPair(this.#trees, pair.first, pair.second, pair.sweep);
      this.#kept.set(name, swept);
      return swept;
    });
  }

  least(check: PreparedCheck): Float64Array {
    const swept = this.sweep(check);
    return Float64Array.from(check.pairs, (pair, i) => leastOfSweep(pair, swept[i]!));
  }
}

const indexOf = ({ pairs }: PreparedCheck, a: string, b: string) =>
  pairs.findIndex(({ sweep }) => sweep.a === a && sweep.b === b);

const box = (id: string, on: string, at: [number, number, number]): Body => ({
  id,
  on,
  shape: { kind: "box", size_mm: [40, 30, 20], at },
});

/** The story corner with an engine that rocks, a boot on its shaft, and brackets near joints and far from them. */
function richCorner(change: Partial<SceneDocument> = {}): SceneDocument {
  const corner = storyCorner();
  return storyCorner({
    tessellation_mm: 1,
    bodies: [
      ...corner.bodies,
      box("hanger", "chassis", [-20, 385, 470]),
      box("tank", "chassis", [-200, 300, 300]),
      box("caliper", "carrier", [-110, 640, 320]),
      { id: "boot", on: "driveshaft", shape: { kind: "sphere", at: [20, 330, 340], diameter_mm: 80 } },
      { id: "ear", on: "powertrain", shape: { kind: "group", parts: [box("", "", [60, 300, 420]).shape] } },
      { id: "tab", on: "chassis", mirror: true, shape: { kind: "box", size_mm: [40, 60, 4], at: [130, 340, 300] } },
    ],
    ...change,
  });
}

/** Something that a builder may change, by about `size` mm. */
function edited(document: SceneDocument, random: Random, size: number): SceneDocument {
  const by = (value: number) => value + size * (2 * random() - 1);
  const moved = (at: readonly number[]) => at.map(by) as [number, number, number];
  const points = document.points as Record<string, [number, number, number]>;
  const kind = Math.floor(6 * random());
  if (kind < 3) {
    const names = Object.keys(points);
    const name = names[Math.floor(random() * names.length)]!;
    return { ...document, points: { ...points, [name]: moved(points[name]!) } };
  }
  if (kind === 3) {
    const poses = document.powertrain!.poses!.map((pose) => ({
      ...pose,
      about: moved(pose.about as never),
      angle_deg: pose.angle_deg! + (size / 10) * (2 * random() - 1),
    }));
    return { ...document, powertrain: { ...document.powertrain, poses } };
  }
  if (kind === 4) {
    const damper = { ...document.damper!, bottom: moved(document.damper!.bottom as never) };
    return { ...document, damper, clearances: { ...document.clearances, jointRadius_mm: 25 + 20 * random() } };
  }
  const bodies = document.bodies.map((body) =>
    body.shape.kind === "box" ? { ...body, shape: { ...body.shape, at: moved(body.shape.at as never) } } : body,
  );
  return { ...document, bodies };
}

describe("a clearance carried over edits", () => {
  it.each([
    ["left", {}],
    ["right", {}],
    // ranges that end between knots, and knots half a millimetre apart
    ["left", { travel: { bump_mm: 31.3, droop_mm: 22.7, step_mm: 5 } }],
    ["left", { travel: { bump_mm: 20, droop_mm: 20, step_mm: 0.5 }, tessellation_mm: 0.5 }],
  ] as const)("is never above the true one, edit upon edit (%s, %o)", (sides, change) => {
    const random = randomOf(SEED);
    let [carriedPairs, lost] = [0, 0];
    for (let chain = 0; chain < 2; chain++) {
      const sweeper = new Sweeper();
      let document = richCorner({ sides, ...change });
      let check = sweeper.prepare(document);
      let least = sweeper.least(check);
      for (let edit = 0; edit < 3; edit++) {
        document = edited(document, random, 10 ** (1.5 * random() - 1));
        const after = sweeper.prepare(document);
        least = carryOver(check, least, after);
        check = after;
        sweeper.sweep(check).forEach(({ clearance_mm }, i) => {
          if (least[i] === UNKNOWN) lost++;
          else carriedPairs++;
          const { sweep } = check.pairs[i]!;
          const told = `seed ${SEED}, chain ${chain}, edit ${edit}: ${sweep.a}, ${sweep.b}`;
          expect(clearance_mm, told).toBeGreaterThanOrEqual(least[i]!);
        });
      }
    }
    expect(carriedPairs).toBeGreaterThan(3 * lost);
  });

  it("is what it was for pairs that the edit does not touch, and close to the true one for the others", () => {
    const sweeper = new Sweeper();
    const before = sweeper.prepare(richCorner());
    const least = sweeper.least(before);
    const corner = richCorner();
    // the tank goes away from the wheel by 3 mm
    const bodies = corner.bodies.map((body) => (body.id === "tank" ? box("tank", "chassis", [-203, 300, 300]) : body));
    const after = sweeper.prepare({ ...corner, bodies });
    const carried = carryOver(before, least, after);
    const swept = sweeper.sweep(after);
    after.pairs.forEach(({ sweep }, i) => {
      if (sweep.a !== "tank" && sweep.b !== "tank") expect(carried[i], `${sweep.a}, ${sweep.b}`).toBe(least[i]);
      // it moved by 3 mm, which is lost even where it went away; 0.1 mm is the sweep's own; knots bend the way little
      else if (carried[i] !== UNKNOWN && sweep.excuses.length === 0)
        expect(swept[i]!.clearance_mm - carried[i]!).toBeLessThan(6.2);
    });
  });

  it("loses just what a body came nearer by", () => {
    // two cubes 40 mm apart on engine and frame, the engine without poses but with a place to move to
    const corner = (shift_mm: number) =>
      richCorner({
        powertrain: { place: { shift_mm: [shift_mm, 0, 0], turn_deg: [0, 0, 0], about: [0, 0, 0] } },
        bodies: [box("engine", "powertrain", [0, 0, 800]), box("frame", "chassis", [80, 0, 800])],
      } as Partial<SceneDocument>);
    const sweeper = new Sweeper();
    const [before, after] = [sweeper.prepare(corner(0)), sweeper.prepare(corner(7))];
    const carried = carryOver(before, sweeper.least(before), after);
    const i = indexOf(after, "engine", "frame");
    expect(carried[i]).toBeGreaterThan(33 - 0.11);
    expect(carried[i]).toBeLessThanOrEqual(33);
  });

  it("loses just what a part came nearer by when it is drawn elsewhere", () => {
    // the lower link as a whole 4 mm up, under a block that lies some 60 mm above the middle of it
    const block = box("block", "chassis", [-70, 460, 290]);
    const corner = richCorner({ bodies: [block], travel: { bump_mm: 2, droop_mm: 2, step_mm: 1 } });
    const { "lower.in": inner, "lower.out": outer } = corner.points as Record<string, [number, number, number]>;
    const up = ([x, y, z]: [number, number, number]): [number, number, number] => [x, y, z + 4];
    const points = { ...corner.points, "lower.in": up(inner!), "lower.out": up(outer!) };
    const sweeper = new Sweeper();
    const [before, after] = [sweeper.prepare(corner), sweeper.prepare({ ...corner, points })];
    const i = indexOf(after, "block", "lower@left");
    const carried = carryOver(before, sweeper.least(before), after)[i]!;
    const { clearance_mm } = sweeper.sweep(after)[i]!;
    expect(carried).toBeLessThanOrEqual(clearance_mm);
    // 0.1 mm is the sweep's own, the rest what the link swings otherwise and its knots
    expect(carried).toBeGreaterThan(clearance_mm - 0.4);
  });

  it("does not pass over another way between the same two places", () => {
    const engine = [box("engine", "powertrain", [0, 0, 800]), box("frame", "chassis", [0, 80, 800])];
    const corner = (angle_deg: number) =>
      richCorner({
        bodies: engine,
        powertrain: { poses: [{ id: "drive", about: [0, 40, 800], axis: [0, 0, 1], angle_deg }] },
      });
    const sweeper = new Sweeper();
    // 5° on a straight way, then by a full turn more, on which the engine sweeps through the frame
    const [before, after] = [sweeper.prepare(corner(5)), sweeper.prepare(corner(365))];
    const least = sweeper.least(before);
    const i = indexOf(after, "engine", "frame");
    expect(least[i]).toBeGreaterThan(40);
    expect(sweeper.sweep(after)[i]!.clearance_mm).toBeLessThan(0);
    expect(carryOver(before, least, after)[i]).toBe(UNKNOWN);
  });

  it("is not known for a part of other triangles, nor for one that was not there", () => {
    const corner = richCorner();
    const sweeper = new Sweeper();
    const before = sweeper.prepare(corner);
    const ball: Body = { id: "tank", on: "chassis", shape: { kind: "sphere", at: [-200, 300, 300], diameter_mm: 20 } };
    const bodies = [...corner.bodies.filter(({ id }) => id !== "tank"), ball, { ...ball, id: "horn" }];
    const after = sweeper.prepare({ ...corner, bodies });
    const carried = carryOver(before, sweeper.least(before), after);
    let [other, kept] = [0, 0];
    after.pairs.forEach(({ sweep }, i) => {
      const isNew = [sweep.a, sweep.b].some((key) => key === "tank" || key === "horn");
      if (isNew) other++;
      else kept += carried[i] === UNKNOWN ? 0 : 1;
      if (isNew) expect(carried[i], `${sweep.a}, ${sweep.b}`).toBe(UNKNOWN);
    });
    expect(Math.min(other, kept)).toBeGreaterThan(10);
  });

  it("is not known for other travel, nor where a joint's ball may hide the one in the other", () => {
    const sweeper = new Sweeper();
    // a pin inside the upper link's inner joint: only a sweep can tell whether it stays there
    const pin: Body = { id: "pin", on: "chassis", shape: { kind: "sphere", at: [-20, 420, 425], diameter_mm: 70 } };
    const corner = richCorner({ bodies: [pin] });
    const before = sweeper.prepare(corner);
    const least = sweeper.least(before);
    const points = { ...corner.points, "upper.out": [-20, 650, 431] as [number, number, number] };
    const after = sweeper.prepare({ ...corner, points });
    const i = indexOf(after, "pin", "upper@left");
    expect(after.pairs[i]!.sweep.excuses.length).toBe(1);
    expect(carryOver(before, least.fill(5), after)[i]).toBe(UNKNOWN);
    const longer = sweeper.prepare({ ...corner, travel: { bump_mm: 61, droop_mm: 70, step_mm: 5 } });
    const carried = carryOver(before, least, longer);
    longer.pairs.forEach(({ sweep }, k) => {
      if (sweep.a.includes("@") || sweep.b.includes("@")) expect(carried[k]).toBe(UNKNOWN);
    });
  });
});

describe("the least that a sweep leaves open", () => {
  const planned = { sweep: { required_mm: 10 } } as never;
  const of = (clearance_mm: number) => leastOfSweep(planned, { clearance_mm } as PairSweep);

  it("is what the sweep promises below what it measured, and nothing where the two may touch", () => {
    expect(of(40)).toBeCloseTo(39.9, 12);
    expect(of(14)).toBeCloseTo(13.99, 12);
    expect(of(0.005)).toBe(UNKNOWN);
    expect(of(-3)).toBe(UNKNOWN);
    expect(of(Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
  });
});
