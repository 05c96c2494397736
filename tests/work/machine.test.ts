import { describe, expect, it } from "vitest";
import type { CheckResult } from "../../src/check/result.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { InputError } from "../../src/scene/error.ts";
import { withBoltedUp, withPoint } from "../../src/scene/points.ts";
import { concludeSweeps, type IndexedSweep, Machine, type Watch } from "../../src/work/machine.ts";
import { outcomeOf, StoppedError, unwrap } from "../../src/work/outcome.ts";
import { boxMesh, solidOf } from "../bench/meshes.ts";
import { storyCorner } from "../check/storyCorner.ts";
import { expectAlike } from "./alike.ts";
import { longPair } from "./longPair.ts";

const PATIENT: Watch = { onProgress() {}, isStopped: () => false, breathe: () => Promise.resolve() };
const corner = storyCorner({ tessellation_mm: 0.3, sides: "both" });
const none = new Map();

function check(machine: Machine, document: SceneDocument) {
  return machine.check(machine.prepare(document, none), document.title, PATIENT);
}

describe("the machine room", () => {
  it("gives the same result however the pairs are shared out", async () => {
    const whole = await check(new Machine(), corner);
    for (const of of [2, 3, 7]) {
      const sweeps: IndexedSweep[] = [];
      for (let index = 0; index < of; index++) {
        const machine = new Machine();
        sweeps.push(...(await machine.sweepShare(machine.prepare(corner, none), { index, of }, PATIENT)));
      }
      const prepared = new Machine().prepare(corner, none);
      expect(concludeSweeps(prepared, sweeps, corner.title)).toEqual(whole);
    }
  });

  it("gives the numbers of a cold check after an edit, and the old ones after it is undone", async () => {
    const machine = new Machine();
    const before = await check(machine, corner);
    const edited = withPoint(corner, "upper.in", [-20, 425, 415]);
    expectAlike(await check(machine, edited), await check(new Machine(), edited));
    expect(await check(machine, corner)).toEqual(before);
    const bolted = withBoltedUp(corner, "arm.front", [430, 642, 327]);
    expectAlike(await check(machine, bolted), await check(new Machine(), bolted));
    expect(await check(machine, withBoltedUp(bolted, "arm.front", null))).toEqual(before);
  });

  it("gives the numbers of a cold check after a chain of edits, some of them stopped half-way", async () => {
    const machine = new Machine();
    await check(machine, corner);
    let edited = corner;
    for (const [step, z] of [415, 416, 418, 417].entries()) {
      edited = withPoint(edited, "upper.in", [-20, 425, z]);
      const prepared = machine.prepare(edited, none);
      let told = 0;
      const isStopped = () => step % 2 === 0 && told > 5;
      const onProgress = () => told++;
      const sweeping = machine.sweepShare(prepared, { index: 0, of: 1 }, { ...PATIENT, isStopped, onProgress });
      await (step % 2 === 0 ? expect(sweeping).rejects.toThrow(StoppedError) : sweeping);
    }
    expectAlike(await check(machine, edited), await check(new Machine(), edited));
  });

  it("tells every verdict of an edit before it has swept what the edit cannot have brought near", async () => {
    const machine = new Machine();
    await check(machine, corner);
    const edited = withPoint(corner, "upper.in", [-20, 411, 424]);
    const prepared = machine.prepare(edited, none);
    const told: { swept: number; result: CheckResult }[] = [];
    let swept = 0;
    const sweeps = await machine.sweepShare(
      prepared,
      { index: 0, of: 1 },
      {
        ...PATIENT,
        onProgress: () => swept++,
        onVerdicts: (done, carried) =>
          told.push({ swept, result: machine.concludeCarried(prepared, done, carried, corner.title)! }),
      },
    );
    const whole = machine.conclude(prepared, sweeps, corner.title);
    expect(told.length).toBe(1);
    const [{ swept: before, result }] = told as [(typeof told)[number]];
    expect(before).toBeLessThan(prepared.pairs.length * 0.6);
    expect(result.summary).toEqual(whole.summary);
    expect(result.limits).toEqual(whole.limits);
    const exact = new Map(whole.pairs.map((pair) => [`${pair.side} ${pair.keys}`, pair]));
    let carried = 0;
    for (const pair of result.pairs) {
      const { clearance_mm, verdict } = exact.get(`${pair.side} ${pair.keys}`)!;
      expect(pair.verdict).toBe(verdict);
      if (!pair.isAtLeast) expect(pair).toEqual(exact.get(`${pair.side} ${pair.keys}`));
      else {
        carried++;
        expect(clearance_mm).toBeGreaterThanOrEqual(pair.clearance_mm);
        expect(pair.clearance_mm).toBeGreaterThanOrEqual(pair.required_mm);
      }
    }
    expect(carried).toBeGreaterThan(prepared.pairs.length / 3);
    expect(whole.pairs.some(({ isAtLeast }) => isAtLeast)).toBe(false);
  });

  it("has no verdict before the sweep of what it never swept", async () => {
    const machine = new Machine();
    const prepared = machine.prepare(corner, none);
    const told: number[] = [];
    const watch = {
      ...PATIENT,
      onVerdicts: (done: unknown[], carried: unknown[]) => told.push(done.length, carried.length),
    };
    await machine.sweepShare(prepared, { index: 1, of: 3 }, watch as unknown as Watch);
    expect(told).toEqual([Math.ceil((prepared.pairs.length - 1) / 3), 0]);
    expect(machine.concludeCarried(prepared, [], [[0, 20]], corner.title)).toBeNull();
  });

  it("tells pairs as they are done, to the last", async () => {
    const told: [number, number][] = [];
    const machine = new Machine();
    await machine.sweepShare(
      machine.prepare(corner, none),
      { index: 0, of: 1 },
      {
        ...PATIENT,
        onProgress: ({ pairsDone, pairsTotal }) => told.push([pairsDone, pairsTotal]),
      },
    );
    expect(told.map(([done]) => done)).toEqual(told.map((_, i) => i + 1));
    expect(told.at(-1)![0]).toBe(told.at(-1)![1]);
  });

  it("stops when asked, and goes on from what it has when asked again", async () => {
    const machine = new Machine();
    const prepared = machine.prepare(corner, none);
    let pairs = 0;
    const stopping = machine.sweepShare(
      prepared,
      { index: 0, of: 1 },
      {
        ...PATIENT,
        onProgress: () => {
          pairs++;
        },
        isStopped: () => pairs >= 5,
      },
    );
    await expect(stopping).rejects.toThrow(StoppedError);
    expect(pairs).toBe(5);
    expect(await check(machine, corner)).toEqual(await check(new Machine(), corner));
  });

  it("stops in the middle of a pair", async () => {
    /** How often it asks until it has swept so many pairs, or until it is stopped. */
    const asks = async (pairs: number, most = Number.POSITIVE_INFINITY): Promise<{ asked: number; done: number }> => {
      const machine = new Machine();
      const prepared = machine.prepare(corner, none);
      const told = { asked: 0, done: 0 };
      const watch: Watch = {
        ...PATIENT,
        onProgress: () => {
          told.done++;
        },
        isStopped: () => told.done >= pairs || ++told.asked > most,
      };
      await expect(machine.sweepShare(prepared, { index: 0, of: 1 }, watch)).rejects.toThrow(StoppedError);
      return told;
    };
    const [one, two] = [await asks(1), await asks(2)];
    // before the pair, and within it
    expect(two.asked - one.asked).toBeGreaterThan(1);
    expect((await asks(2, two.asked - 1)).done).toBe(1);
  });

  it("stops while it makes a scene ready, at any place, and goes on from there", async () => {
    const machine = new Machine();
    let stops = 0;
    let most = 0;
    for (; ; most += 7) {
      let asked = 0;
      const outcome = await outcomeOf(() => machine.prepare(corner, none, { isStopped: () => ++asked > most }));
      if (outcome.kind === "done") break;
      expect(outcome.kind).toBe("stopped");
      stops++;
    }
    expect(stops).toBeGreaterThan(5);
    expect(await check(machine, corner)).toEqual(await check(new Machine(), corner));
  });

  it("prepares a scene anew when a mesh file has changed under its name", () => {
    const { document } = longPair();
    const meshes = (spindle: Solid) => new Map(["sleeve.stl", "spindle.stl"].map((file) => [file, spindle] as const));
    const [one, other] = [10, 11].map((radius) => solidOf([boxMesh([0, 650, 900], [radius, 20, 20], [1, 1, 1])]));
    const machine = new Machine();
    const contentOf = (solid: Solid) =>
      machine.prepare(document, meshes(solid)).bodies.find(({ id }) => id === "spindle")!.content;
    expect(contentOf(one!)).not.toBe(contentOf(other!));
  });

  it("carries bad input over a worker's border whole", async () => {
    const bad = { ...corner, members: corner.members.slice(1) };
    const outcome = await outcomeOf(() => new Machine().prepare(bad, none));
    const copy: typeof outcome = structuredClone(outcome);
    expect(copy.kind).toBe("bad-input");
    expect(() => unwrap(copy)).toThrow(InputError);
    try {
      unwrap(copy);
    } catch (error) {
      expect(error).toMatchObject({ code: "constraints", path: "members" });
    }
  });

  it("makes a patch of a pair at a state and over the travel", async () => {
    const machine = new Machine();
    const prepared = machine.prepare(corner, none);
    const { pairs } = await machine.check(prepared, corner.title, PATIENT);
    const tight = pairs.find(({ side, a }) => side === "left" && a === "sump-rail")!;
    const now = machine.patch(prepared, { keys: tight.keys, at: tight.at });
    const least = (values: Float32Array) => values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
    expect(least(now.a.clearance_mm)).toBeCloseTo(tight.clearance_mm, 0);
    const worst = machine.patch(prepared, { keys: tight.keys, at: { pose: tight.at.pose, travel_mm: "worst" } });
    expect(worst.a.area_mm2).toBeGreaterThanOrEqual(now.a.area_mm2 * 0.98);
  });

  it("makes a patch where the engine is part of the way to a pose", async () => {
    // a lug on the engine passes a tab on the frame between rest and the pose
    const document = storyCorner({
      powertrain: { poses: [{ id: "tail-down", about: [150, 0, 400], axis: [0, 1, 0], angle_deg: -6 }] },
      bodies: [
        { id: "lug", on: "powertrain", shape: { kind: "box", size_mm: [20, 30, 6], at: [-100, 0, 400] } },
        { id: "tab", on: "chassis", shape: { kind: "box", size_mm: [40, 60, 2], at: [-110, 0, 387] } },
      ],
      clearances: { default_mm: 1 },
    });
    const machine = new Machine();
    const prepared = machine.prepare(document, none);
    const { pairs } = await machine.check(prepared, document.title, PATIENT);
    const { keys, at } = pairs.find(({ a, b }) => a === "lug" && b === "tab")!;
    for (const asked of [at, { pose: at.pose, travel_mm: "worst" as const }]) {
      const patch = machine.patch(prepared, { keys, at: asked });
      expect(patch.a.area_mm2).toBeGreaterThan(100);
      expect(patch.crossing.length).toBeGreaterThan(0);
    }
    const extreme = machine.patch(prepared, { keys, at: { pose: at.pose, travel_mm: at.travel_mm } });
    expect(extreme.crossing).toHaveLength(0);
  });
});
