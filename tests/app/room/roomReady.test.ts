import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { askablePoints, usualForm } from "../../../src/app/room/roomForm.ts";
import { readyRooms } from "../../../src/app/room/roomReady.ts";
import { useRoom } from "../../../src/app/room/roomStore.ts";
import { blankState } from "../../../src/app/store/blank.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { openStudy, useStudies } from "../../../src/app/studies/studiesStore.ts";
import { closeTools } from "../../../src/app/tools/toolsStore.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import type { StudyRoom } from "../../../src/work/protocol.ts";
import { studyCorner } from "../../studies/studyCorner.ts";

const corner = studyCorner({ bodies: [], clearances: { default_mm: 0 } });

interface Asked {
  readonly points: readonly string[];
  isStopped: boolean;
  reject(error: Error): void;
}
let asked: Asked[] = [];
let end: () => void = () => {};

const workshop: Pick<StudyRoom, "readyRoom"> = {
  readyRoom({ points }) {
    let reject: Asked["reject"] = () => {};
    const done = new Promise<void>((_, refuse) => {
      reject = refuse;
    });
    const one: Asked = { points, isStopped: false, reject };
    asked.push(one);
    return {
      done,
      stop() {
        one.isStopped = true;
        reject(Object.assign(new Error("stopped"), { name: "AbortError" }));
      },
    };
  },
};

beforeEach(() => {
  vi.useFakeTimers();
  asked = [];
  closeTools();
  app.setState({ ...blankState(), document: corner, scene: resolveScene(corner), standing: "mine" });
  useRoom.setState({ form: null, run: null, map: null, isRunning: false, error: null });
  end = readyRooms(app, workshop);
});
afterEach(() => {
  end();
  closeTools();
  vi.useRealTimers();
});

describe("what a room map begins with", () => {
  it("is made once the form stands open, for the point that is asked, and let go when it is closed", async () => {
    await vi.runAllTimersAsync();
    expect(asked).toHaveLength(0);
    openStudy("room");
    await vi.runAllTimersAsync();
    expect(asked).toHaveLength(1);
    const form = usualForm(corner, resolveScene(corner), null)!;
    expect(asked[0]!.points).toEqual([form.point]);
    const other = askablePoints(corner).find(({ name }) => name !== form.point)!.name;
    useRoom.setState({ form: { ...form, point: other } });
    await vi.runAllTimersAsync();
    expect(asked.map(({ points }) => points[0])).toEqual([form.point, other]);
    expect(asked[0]!.isStopped).toBe(true);
    closeTools();
    await vi.runAllTimersAsync();
    expect(asked).toHaveLength(2);
    expect(asked[1]!.isStopped).toBe(true);
    expect(app.getState().workTrouble).toBeNull();
  });

  it("is not made for another study, nor again for what asks nothing else of the points", async () => {
    useStudies.setState({ study: "moves" });
    openStudy("moves");
    await vi.runAllTimersAsync();
    expect(asked).toHaveLength(0);
    openStudy("room");
    await vi.runAllTimersAsync();
    const form = usualForm(corner, resolveScene(corner), null)!;
    useRoom.setState({ form: { ...form, shape: "line", along: "up" } });
    await vi.runAllTimersAsync();
    expect(asked).toHaveLength(1);
  });

  it("says what went wrong with the work, not what is wrong with the form", async () => {
    openStudy("room");
    await vi.runAllTimersAsync();
    asked[0]!.reject(new Error("no memory"));
    await vi.runAllTimersAsync();
    expect(app.getState().workTrouble).toBe("no memory");
  });
});
