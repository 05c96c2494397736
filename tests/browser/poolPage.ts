/** Runs in the page of pool.test.ts, beside the pool itself. */

import { blankMap } from "../../src/app/room/roomTold.ts";
import type { CheckResult } from "../../src/check/result.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import type { RoomMap } from "../../src/studies/room/room.ts";
import { createWorkshop } from "../../src/work/client.ts";
import type { CheckProgress } from "../../src/work/protocol.ts";
import { putNews } from "../../src/work/roomShare.ts";
import { storyCorner } from "../check/storyCorner.ts";
import { longPair } from "../work/longPair.ts";
import { roomOf } from "../work/roomOf.ts";

const workers: Worker[] = [];
/** Workers of this page, as they are counted. */
window.Worker = class extends Worker {
  constructor(url: string | URL, options?: WorkerOptions) {
    super(url, options);
    workers.push(this);
  }
};

const corner = storyCorner({ tessellation_mm: 0.3 });
const roomQuestion = roomOf(corner);

const pool = {
  isIsolated: () => crossOriginIsolated,

  /** Stops a check in the middle of a pair that takes a minute, then asks the only worker for another. */
  async stopInLongPair(): Promise<{ stopped: string; answered: number; hired: number }> {
    const workshop = createWorkshop(1);
    const before = workers.length;
    const { document, files } = longPair();
    await workshop.build(document, files).done;
    let told = performance.now();
    const job = workshop.check(document, files, () => {
      told = performance.now();
    });
    const stopped = job.done.then(
      () => "done",
      (error: Error) => error.name,
    );
    // no other pair takes so long
    while (performance.now() - told < 3000) await new Promise((resolve) => setTimeout(resolve, 100));
    job.stop();
    const { pairs } = await workshop.check(corner, new Map(), () => {}).done;
    return { stopped: await stopped, answered: pairs.length, hired: workers.length - before };
  },

  async check(workers: number): Promise<{ result: CheckResult; progress: CheckProgress[] }> {
    const progress: CheckProgress[] = [];
    const result = await createWorkshop(workers).check(corner, new Map(), (each) => progress.push(each)).done;
    return { result, progress };
  },

  /** A check by some workers, of which the one at `place` dies as soon as anything is told of the check. */
  async checkWithDeath(size: number, place: number): Promise<{ result: CheckResult; hired: number }> {
    const before = workers.length;
    let isDead = false;
    const job = createWorkshop(size).check(corner, new Map(), () => {
      if (!isDead) workers[before + place]!.dispatchEvent(new ErrorEvent("error", { message: "out of memory" }));
      isDead = true;
    });
    return { result: await job.done, hired: workers.length - before };
  },

  /** A check, then one of the same corner with a pivot moved by 1 mm. */
  async edited(workers: number): Promise<{ result: CheckResult; verdicts: CheckResult[] }> {
    const workshop = createWorkshop(workers);
    // enough pairs that the pool is still at them when the verdicts are known
    const blocks = Array.from({ length: 40 }, (_, i) => ({
      id: `block-${i}`,
      on: "chassis",
      shape: { kind: "box", size_mm: [20, 20, 20], at: [-300 + 40 * (i % 10), 200, 500 + 40 * Math.floor(i / 10)] },
    }));
    const before = { ...corner, bodies: [...corner.bodies, ...blocks] } as SceneDocument;
    await workshop.check(before, new Map(), () => {}).done;
    const verdicts: CheckResult[] = [];
    const after = { ...before, points: { ...before.points, "upper.in": [-20, 411, 425] } } as SceneDocument;
    const onProgress = (progress: CheckProgress) => progress.verdicts && verdicts.push(progress.verdicts);
    const result = await workshop.check(after, new Map(), onProgress).done;
    return { result, verdicts };
  },

  /** Bodies before and after an edit: contents of those whose solid is still the same object, and all contents. */
  async builtAgain(): Promise<{ kept: string[]; before: string[]; after: string[]; isAsAnew: boolean }> {
    const workshop = createWorkshop(1);
    const edited = { ...corner, points: { ...corner.points, "upper.in": [-20, 411, 425] } } as SceneDocument;
    const before = await workshop.build(corner, new Map()).done;
    const after = await workshop.build(edited, new Map()).done;
    const anew = await createWorkshop(1).build(edited, new Map()).done;
    const solids = new Set(before.map(({ solid }) => solid));
    const contentsOf = (bodies: typeof before) => bodies.map(({ content }) => content);
    return {
      kept: contentsOf(after.filter(({ solid }) => solids.has(solid))),
      before: contentsOf(before),
      after: contentsOf(after),
      isAsAnew: JSON.stringify(after) === JSON.stringify(anew),
    };
  },

  /** A room map told by some workers beside the one for studies, while a check goes on; whether all was told before it was done. */
  async room(
    workers: number,
  ): Promise<{ map: Pick<RoomMap, "reason" | "margin_mm" | "pair" | "state">; told: number }> {
    const workshop = createWorkshop(workers);
    let map: RoomMap | null = null;
    let told = 0;
    const job = workshop.room(roomQuestion, new Map(), {
      onFrame: (frame) => {
        map = blankMap(frame, roomQuestion);
      },
      onNews: (news) => {
        putNews(map!, news);
        told += news.places.length;
      },
    });
    const check = workshop.check(corner, new Map(), () => {}).done;
    await job.done;
    const { reason, margin_mm, pair, state } = map!;
    await check;
    return { map: { reason, margin_mm, pair, state }, told };
  },

  /** Why a file that is no mesh is refused, each time it is asked for. */
  async refusals(workers: number): Promise<string[]> {
    const workshop = createWorkshop(workers);
    const { document, files } = longPair();
    const broken = new Map([...files, ["sleeve.stl", new Uint8Array(20)]]);
    const codeOf = (error: { code?: string; file?: string }) => `${error.code} ${error.file}`;
    const codes: string[] = [];
    for (const done of [
      () => workshop.build(document, broken).done,
      () => workshop.check(document, broken, () => {}).done,
      () => workshop.build(document, broken).done,
    ]) {
      codes.push(await done().then(() => "done", codeOf));
    }
    return codes;
  },
};

export type PoolPage = typeof pool;

Object.assign(window, { pool });
