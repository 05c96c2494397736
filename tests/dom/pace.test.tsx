import { act, cleanup, render, screen } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { followHand, noteSeenTravel, shownMounts, shownPoses } from "../../src/app/corner/shownPoses.ts";
import { viewHandle } from "../../src/app/shell/viewHandle.ts";
import { pace } from "../../src/app/store/pace.ts";
import { app, useApp } from "../../src/app/store/useApp.ts";
import type { ViewportHandle } from "../../src/app/viewport/Viewport.tsx";
import { resolveScene } from "../../src/scene/resolve.ts";
import { smallScene } from "../app/smallScene.ts";

function PoseName() {
  return <output>{useApp(({ pose }) => pose)}</output>;
}

const shown = () => screen.getByRole("status").textContent;
const aTask = () => act(() => new Promise((resolve) => setTimeout(resolve, 20)));

beforeEach(() => {
  app.setState({ pose: "rest" });
  render(<PoseName />);
});
const letGo = () => act(() => window.dispatchEvent(new Event("pointerup")));

afterEach(() => {
  letGo();
  cleanup();
});

describe("while the hand pulls", () => {
  it("components hear of a change in a task of their own, and of the last of several only", async () => {
    pace.beginPull();
    act(() => app.setState({ pose: "pulling" }));
    act(() => app.setState({ pose: "braking" }));
    expect(shown()).toBe("rest");
    await aTask();
    expect(shown()).toBe("braking");
  });

  it("they have heard all as soon as it lets go, and hear at once from then on", () => {
    pace.beginPull();
    act(() => app.setState({ pose: "pulling" }));
    letGo();
    expect(shown()).toBe("pulling");
    act(() => app.setState({ pose: "rest" }));
    expect(shown()).toBe("rest");
  });

  it("work is done once in the next task, however often it is asked for, and at once when the hand lets go", async () => {
    let done = 0;
    const work = () => done++;
    pace.beginPull();
    pace.soon(work);
    pace.soon(work);
    expect(done).toBe(0);
    await aTask();
    expect(done).toBe(1);
    pace.soon(work);
    letGo();
    expect(done).toBe(2);
    await aTask();
    expect(done).toBe(2);
  });

  it("the picture has the bodies of every new scene at once, from the very map that components come to later", () => {
    const scene = resolveScene(smallScene(), "small.json");
    const travel_mm = { left: 10, right: 10 };
    const set: unknown[] = [];
    viewHandle.current = { setPoses: (poses) => set.push(poses) } as Partial<ViewportHandle> as ViewportHandle;
    const end = followHand(app);
    try {
      noteSeenTravel(travel_mm);
      act(() => app.setState({ scene: resolveScene(smallScene(), "small.json"), pose: "rest", share: 1 }));
      expect(set).toHaveLength(0);
      pace.beginPull();
      act(() => app.setState({ scene }));
      expect(set).toEqual([shownPoses(scene, app.getState().bodies, shownMounts(scene, travel_mm, "rest", 1))]);
      expect(set[0]).toBe(shownPoses(scene, app.getState().bodies, shownMounts(scene, travel_mm, "rest", 1)));
    } finally {
      end();
      viewHandle.current = null;
    }
  });
});
