import { describe, expect, it } from "vitest";
import { CheckShelf } from "../../src/check/shelf.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import type { Region } from "../../src/studies/room/region.ts";
import { mapRoom, type RoomMap, RoomRun } from "../../src/studies/room/room.ts";
import { Machine } from "../../src/work/machine.ts";
import { StoppedError } from "../../src/work/outcome.ts";
import { askRoomShare, putNews, type RoomNews } from "../../src/work/roomShare.ts";
import { bracketCorner, question } from "../studies/studyCorner.ts";

const axes: Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const region: Region = { spans: axes.map((along) => ({ along, from_mm: -12, to_mm: 12 })), step_mm: 3 };
const request = { ...question(bracketCorner()), region };
const alone = mapRoom(request);

function blank(map: RoomMap): RoomMap {
  return {
    ...map,
    reason: map.reason.map(() => -2),
    margin_mm: map.margin_mm.map(() => Number.NaN),
    pair: map.pair.map(() => -1),
    state: map.state.map(() => -1),
    value: map.value.map(() => Number.NaN),
  };
}

const quiet = { isStopped: () => false, breathe: () => Promise.resolve(), isNeeded: () => false };

describe("a room map from several workers", () => {
  it.each([1, 2, 3])("is told by %i to the last bit as by one thread, in whatever order the news come", async (of) => {
    const news: RoomNews[] = [];
    for (let index = of - 1; index >= 0; index--) {
      const run = new RoomRun(request, { index, of });
      await askRoomShare(run, { ...quiet, onNews: (each) => news.push(each) });
      expect(run.done).toBe(run.total);
    }
    const map = blank(alone);
    for (const each of news.reverse()) putNews(map, each);
    expect(map).toEqual(alone);
  });

  it("is the same to the last bit on a thread that has checked the scene and others before", async () => {
    const machine = new Machine();
    for (const by of [3]) {
      const points = { ...request.document.points, "upper.in": [-20, 410 + by, 425] as const };
      const prepared = machine.prepare({ ...request.document, points }, new Map());
      await machine.check(prepared, "corner", { ...quiet, onProgress() {} });
    }
    const run = new RoomRun(request, { index: 0, of: 1 }, machine.kept);
    await askRoomShare(run, { ...quiet, onNews() {} });
    expect(run.map).toEqual(alone);
    const kept = { shelf: new CheckShelf(), trees: new TreeShelf() };
    for (let again = 0; again < 2; again++) {
      const next = new RoomRun(request, { index: 0, of: 1 }, kept);
      await askRoomShare(next, { ...quiet, onNews() {} });
      expect(next.map).toEqual(alone);
    }
  });

  it("begins with the coarsest places, and ends between two places when it is stopped", async () => {
    const run = new RoomRun(request);
    const levels: number[] = [];
    for (let asked = run.next(); asked && levels.length < 300; asked = run.next()) levels.push(asked.level);
    expect(levels).toEqual([...levels].sort((a, b) => b - a));
    const stopped = new RoomRun(request);
    const isStopped = () => stopped.done === 5;
    await expect(askRoomShare(stopped, { ...quiet, isStopped, onNews() {} })).rejects.toThrow(StoppedError);
    expect(stopped.done).toBe(5);
  });

  it("waits while something more urgent is done on its thread", async () => {
    let turns = 0;
    const run = new RoomRun(request, { index: 0, of: 40 });
    const breathe = () => Promise.resolve();
    const waited: number[] = [];
    await askRoomShare(run, {
      isStopped: () => false,
      breathe,
      isNeeded: () => {
        waited.push(run.done);
        return turns++ < 3;
      },
      onNews() {},
    });
    expect(run.done).toBe(run.total);
    // asked again and again at the same place before it went on
    expect(waited.slice(0, 4).every((done) => done === waited[0])).toBe(true);
  });
});
