import { describe, expect, it } from "vitest";
import { buildTree } from "../../src/clearance/kernel.ts";
import { clippingOf, type MadeTree, TreeShelf } from "../../src/clearance/sweepShelf.ts";
import { CheckBoard } from "../../src/work/checkBoard.ts";
import type { IndexedSweep } from "../../src/work/machine.ts";
import { inSharedMemory } from "../../src/work/sharedMemory.ts";
import { Signals } from "../../src/work/signals.ts";
import { SweepDesks, type SweepNews } from "../../src/work/sweepDesk.ts";
import { TreeExchange } from "../../src/work/treeExchange.ts";
import { boxMesh, solidOf } from "../bench/meshes.ts";

describe("a record in shared memory", () => {
  const tree = buildTree(solidOf([boxMesh([1, 2, 3], [40, 50, 60], [3, 4, 5])], true));

  it("is the same record, in one piece of memory that a message does not copy", () => {
    const shared = inSharedMemory({ tree, farthest: null });
    expect(shared).toEqual({ tree, farthest: null });
    const { boxes, corners, solid } = shared.tree;
    for (const array of [corners, solid.positions, solid.convexPieces![0]!]) expect(array.buffer).toBe(boxes.buffer);
    const sent = structuredClone(shared);
    sent.tree.boxes[0] = -7;
    expect(boxes[0]).toBe(-7);
  });

  it("leaves alone what is shared already", () => {
    const { solid } = inSharedMemory({ solid: tree.solid });
    const again = inSharedMemory({ ...tree, solid });
    expect(again.solid.positions.buffer).toBe(solid.positions.buffer);
  });

  it("keeps twice what occurs twice as one", () => {
    const list = Float64Array.of(1, 2, 3);
    const { a, b } = inSharedMemory({ a: list, b: list });
    expect(a).toBe(b);
  });
});

describe("signals", () => {
  it("tell a stopped job from those before and after it, on both sides of the memory", () => {
    const page = Signals.shared();
    const worker = new Signals(page.memory);
    page.stop(7);
    expect([6, 7, 8].map((job) => worker.isStopped(job))).toEqual([false, true, false]);
    // a job whose number falls into the same slot
    expect([7 + 1024, 7 + 2048].map((job) => worker.isStopped(job))).toEqual([false, false]);
    page.stop(8);
    expect([7, 8, 9].map((job) => worker.isStopped(job))).toEqual([true, true, false]);
  });

  it("tell who is making what is kept, and forget it with the worker", () => {
    const page = Signals.shared();
    const worker = new Signals(page.memory);
    worker.beginKeeping(2);
    worker.beginKeeping(2);
    worker.endKeeping(2);
    expect([1, 2].map((place) => page.isKeeping(place))).toEqual([false, true]);
    page.clear(2);
    expect(page.isKeeping(2)).toBe(false);
  });
});

describe("a check's board", () => {
  it("gives each pair and each tree to the first who asks", () => {
    const one = CheckBoard.shared();
    const other = new CheckBoard(one.memory);
    expect([one.takePair(5), other.takePair(5), other.takePair(6)]).toEqual([true, false, true]);
    expect([one.isPairTaken(6), one.isPairTaken(7)]).toEqual([true, false]);
    expect([other.takeTree(5), one.takeTree(5)]).toEqual([true, false]);
    expect(one.isTreeMade(5)).toBe(false);
    other.treeIsMade(5);
    expect([one.isTreeMade(5), one.takeTree(5)]).toEqual([true, false]);
  });

  it("says when a check is too large for it", () => {
    const board = CheckBoard.shared();
    expect([board.holds(3000, 700), board.holds(3000, 70_000), board.holds(70_000, 700)]).toEqual([true, false, false]);
  });
});

describe("the lead's desk", () => {
  const sweepOf = (pair: number): IndexedSweep => [pair, {} as IndexedSweep[1]];
  const news = (pairs: readonly number[], rest: Partial<SweepNews> = {}): SweepNews => ({
    sweeps: pairs.map(sweepOf),
    carried: [],
    isLast: false,
    ...rest,
  });
  const pairsOf = (sweeps: readonly IndexedSweep[]): number[] => sweeps.map(([pair]) => pair);
  const nothingStopped = () => false;

  it("has the sweeps of a job once all machines have told their last", async () => {
    const desks = new SweepDesks(nothingStopped);
    desks.put(1, news([4]));
    desks.put(2, news([9], { isLast: true }));
    const all = desks.all(1, 2);
    desks.put(1, news([2], { isLast: true }));
    expect(pairsOf(desks.soFar(1))).toEqual([4, 2]);
    desks.put(1, news([], { isLast: true }));
    expect(pairsOf(await all)).toEqual([4, 2]);
    expect(desks.soFar(1)).toEqual([]);
  });

  it("calls once when what is swept and what is carried make up all pairs, whoever told first", () => {
    const desks = new SweepDesks(nothingStopped);
    const told: [number[], unknown][] = [];
    desks.put(1, news([0], { carried: [[1, 20]] }));
    desks.whenCovered(1, 5, (carried) => told.push([pairsOf(desks.soFar(1)), carried]));
    // the second machine tells while a third still sweeps a pair that it took from it
    desks.put(1, news([2], { carried: [[3, 30]] }));
    expect(told).toEqual([]);
    // a carried pair that is swept meanwhile is not carried any more
    desks.put(1, news([3]));
    desks.put(1, news([4]));
    expect(told).toEqual([[[0, 2, 3, 4], [[1, 20]]]]);
    desks.put(1, news([1], { isLast: true }));
    expect(told).toHaveLength(1);
  });

  it("leaves it to the whole check where nothing is carried", () => {
    const desks = new SweepDesks(nothingStopped);
    const told: unknown[] = [];
    desks.whenCovered(1, 2, (carried) => told.push(carried));
    desks.put(1, news([0]));
    desks.put(1, news([1], { isLast: true }));
    expect(told).toEqual([]);
  });

  it("keeps nothing of stopped jobs", () => {
    const stopped = new Set<number>();
    const desks = new SweepDesks((job) => stopped.has(job));
    desks.put(1, news([4]));
    stopped.add(1);
    desks.put(2, news([5]));
    desks.put(1, news([6]));
    expect(desks.soFar(1)).toEqual([]);
    expect(desks.soFar(2)).toHaveLength(1);
  });
});

describe("a shelf", () => {
  const body = (key: string) => ({ key, content: key, solid: solidOf([boxMesh([0, 0, 0], [40, 40, 40], [6, 6, 6])]) });
  const ball = { centre: [40, 0, 0] as const, radius_mm: 15 };

  it("takes what is cut from a body only beside the tree it was cut from, if it stands in for leaves of that", () => {
    const made: MadeTree[] = [];
    const one = new TreeShelf((each) => {
      made.push(each);
      return each;
    });
    one.clip(body("lump"), [ball]);
    const [whole, cut] = made as [MadeTree, MadeTree];
    const clipping = clippingOf([ball]);
    const inLeaves = { ...cut, replaced: Uint32Array.of(whole.tree!.nodeCount - 1) };
    const ownTree = new TreeShelf();
    ownTree.prepare(body("lump"));
    ownTree.take(inLeaves);
    expect(ownTree.has("lump", clipping)).toBe(false);
    ownTree.take(cut);
    expect(ownTree.has("lump", clipping)).toBe(true);
    const sameTree = new TreeShelf();
    sameTree.take(inLeaves);
    expect(sameTree.has("lump", clipping)).toBe(false);
    sameTree.take(whole);
    sameTree.take(inLeaves);
    expect(sameTree.has("lump", clipping)).toBe(true);
  });

  it("gets a clipping from an exchange that came before the whole body", () => {
    const sent: MadeTree[] = [];
    new TreeExchange((each) => sent.push(each)).shelf.clip(body("lump"), [ball]);
    const other = new TreeExchange(() => {
      throw new Error("there is nothing to make");
    });
    for (const each of [...sent].reverse()) other.receive(structuredClone(each));
    expect(other.shelf.clip(body("lump"), [ball]).farthest).not.toBeNull();
  });
});
