import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { lookForRoom, takePlace, tryPlaceThere } from "../../../src/app/room/roomActions.ts";
import { isOf, startRoom } from "../../../src/app/room/roomEngine.ts";
import { usualForm } from "../../../src/app/room/roomForm.ts";
import { useRoom } from "../../../src/app/room/roomStore.ts";
import { gridOf } from "../../../src/app/room/roomTold.ts";
import { isTriedThere } from "../../../src/app/room/roomTried.ts";
import { blankState } from "../../../src/app/store/blank.ts";
import { shownDocument } from "../../../src/app/store/tried.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { withAside } from "../../../src/scene/aside.ts";
import { InputError } from "../../../src/scene/error.ts";
import { listPoints } from "../../../src/scene/points.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { RoomRun } from "../../../src/studies/room/room.ts";
import type { RoomListener, StudyRoom } from "../../../src/work/protocol.ts";
import { askRoomShare, frameOfRoom } from "../../../src/work/roomShare.ts";
import { studyCorner } from "../../studies/studyCorner.ts";

const corner = studyCorner({ bodies: [], clearances: { default_mm: 0 } });

interface Asked {
  readonly question: Parameters<StudyRoom["room"]>[0];
  readonly listener: RoomListener;
  readonly isStopped: () => boolean;
  resolve(): void;
  reject(error: Error): void;
}
let asked: Asked[] = [];
let end: () => void = () => {};

const workshop: Pick<StudyRoom, "room"> = {
  room(question, _, listener) {
    let stopped = false;
    let settle: Pick<Asked, "resolve" | "reject"> = { resolve() {}, reject() {} };
    const done = new Promise<void>((resolve, reject) => {
      settle = { resolve, reject };
    });
    asked.push({ question, listener, isStopped: () => stopped, ...settle });
    return {
      done,
      stop() {
        stopped = true;
        settle.reject(Object.assign(new Error("stopped"), { name: "AbortError" }));
      },
    };
  },
};

/** As a worker does it; `until`: how many places it tells. */
async function answer({ question, listener }: Asked, until = Number.POSITIVE_INFINITY): Promise<void> {
  const run = new RoomRun({ ...question, meshFiles: new Map() });
  listener.onFrame(frameOfRoom(run.map));
  await askRoomShare(run, {
    onNews: (news) => listener.onNews(news),
    isStopped: () => run.done >= until,
    breathe: () => Promise.resolve(),
    isNeeded: () => false,
  }).catch(() => {});
}

beforeEach(() => {
  asked = [];
  app.setState({ ...blankState(), document: corner, scene: resolveScene(corner), standing: "mine" });
  useRoom.setState({ form: null, run: null, map: null, isRunning: false, error: null, place: null, done: 0 });
  end = startRoom(app, workshop);
});
afterEach(() => end());

function look(change: Partial<NonNullable<ReturnType<typeof usualForm>>> = {}): void {
  const { document, scene } = app.getState();
  lookForRoom({ ...usualForm(document!, scene!, "upper.in")!, shape: "line", along: "up", ...change });
}

describe("looking for room", () => {
  it("asks the car as it is kept, fills the map as it is told and ends", async () => {
    look();
    expect(asked).toHaveLength(1);
    expect(asked[0]!.question.points).toEqual(["upper.in"]);
    await answer(asked[0]!);
    asked[0]!.resolve();
    await vi.waitFor(() => expect(useRoom.getState().isRunning).toBe(false));
    const { map, done } = useRoom.getState();
    expect(done).toBe(map!.reason.length);
    expect(map!.reason).not.toContain(-2);
  });

  it("is stopped by the builder and by an edit of the car, not by a tried move or by loads, and keeps what was told", async () => {
    look();
    await answer(asked[0]!);
    app.getState().tryMove({ point: "upper.in", to: [-20, 412, 425], meaning: "cut" });
    app.setState({ document: withAside(corner, { loads: { g_m_per_s2: 9.81 } as never }) });
    expect(asked[0]!.isStopped()).toBe(false);
    app.getState().edit("upper link 5 up", { ...corner, points: { ...corner.points, "upper.in": [-20, 410, 430] } });
    expect(asked[0]!.isStopped()).toBe(true);
    const { map, run, isRunning } = useRoom.getState();
    expect([isRunning, isOf(app.getState().document, run!)]).toEqual([false, false]);
    expect(map!.reason).not.toContain(-2);
    app.getState().undo();
    expect(isOf(app.getState().document, run!)).toBe(true);
    look();
    useRoom.setState({ isRunning: false });
    expect(asked[1]!.isStopped()).toBe(true);
  });

  it("takes up nothing of what was asked before", async () => {
    look();
    look({ along: "out" });
    expect(asked).toHaveLength(2);
    expect(asked[0]!.isStopped()).toBe(true);
    await answer(asked[1]!);
    const before = [...useRoom.getState().map!.reason];
    await answer(asked[0]!);
    expect([...useRoom.getState().map!.reason]).toEqual(before);
    expect(useRoom.getState().map!.region).toBe(asked[1]!.question.region);
  });

  it("tells why it cannot be", async () => {
    look();
    asked[0]!.reject(new InputError("out-of-reach", { path: "travel" }, "the corner as it is binds", "another travel"));
    await vi.waitFor(() => expect(useRoom.getState().error?.wanted).toBe("another travel"));
    expect(useRoom.getState().isRunning).toBe(false);
    look({ step_mm: 0 });
    expect(useRoom.getState().error?.path).toBe("region");
    expect(asked).toHaveLength(1);
  });
});

describe("a place of the map", () => {
  const placeOf = (name: string) => {
    const found = listPoints(shownDocument(app.getState())!).find((point) => point.name === name)!;
    return found.boltedUpAt ?? found.at;
  };

  it.each(["cut", "bolted"] as const)("is tried as a move and kept as one named step, %s", async (fit) => {
    look({ fit });
    await answer(asked[0]!);
    const { map, run } = useRoom.getState();
    const place = gridOf(map!).numberOf([2, 0, 0]);
    tryPlaceThere(place);
    expect(app.getState().document).toBe(corner);
    expect(placeOf("upper.in")).toEqual([-20, 410, 425 + 8]);
    expect(isTriedThere(app.getState(), run!, place)).toBe(true);
    expect(isTriedThere(app.getState(), run!, place - 1)).toBe(false);
    takePlace(place);
    expect(app.getState().tried).toBeNull();
    expect(app.getState().stepName).toMatch(/upper link, inboard end 8 up/);
    expect(placeOf("upper.in")).toEqual([-20, 410, 425 + 8]);
    app.getState().undo();
    expect(placeOf("upper.in")).toEqual([-20, 410, 425]);
  });

  it("takes both of two points along", async () => {
    look({ second: "lower.in" });
    await answer(asked[0]!);
    const before = ["upper.in", "lower.in"].map(placeOf);
    const place = gridOf(useRoom.getState().map!).numberOf([-1, 0, 0]);
    tryPlaceThere(place);
    expect(isTriedThere(app.getState(), useRoom.getState().run!, place)).toBe(true);
    takePlace(place);
    const after = ["upper.in", "lower.in"].map(placeOf);
    for (const [i, point] of after.entries()) expect(point[2]).toBeCloseTo(before[i]![2] - 4, 9);
    expect(app.getState().stepName).toMatch(/upper link, inboard end and lower link, inboard end 4 down/);
    app.getState().undo();
    expect(["upper.in", "lower.in"].map(placeOf)).toEqual(before);
  });

  it("of a car that was changed since is neither tried nor taken", async () => {
    look();
    await answer(asked[0]!);
    const changed = { ...corner, points: { ...corner.points, "upper.in": [-20, 400, 425] as const } };
    app.getState().edit("upper link 10 inboard", changed);
    expect(tryPlaceThere(0)).toBe(false);
    takePlace(0);
    expect(app.getState().document).toBe(changed);
    expect(app.getState().tried).toBeNull();
  });
});
