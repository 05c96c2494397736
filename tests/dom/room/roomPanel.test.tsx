import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { startRoom } from "../../../src/app/room/roomEngine.ts";
import { useRoom } from "../../../src/app/room/roomStore.ts";
import { blankState } from "../../../src/app/store/blank.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { StudiesPanel } from "../../../src/app/studies/StudiesPanel.tsx";
import { useStudies } from "../../../src/app/studies/studiesStore.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { RoomRun } from "../../../src/studies/room/room.ts";
import type { StudyRoom } from "../../../src/work/protocol.ts";
import { askRoomShare, frameOfRoom } from "../../../src/work/roomShare.ts";
import { studyCorner } from "../../studies/studyCorner.ts";

const corner = studyCorner();
let question: Parameters<StudyRoom["room"]>[0] | null = null;
let tell: () => Promise<void> = () => Promise.resolve();
let end: () => void = () => {};

/** A workshop that works when it is told to. */
const workshop: Pick<StudyRoom, "room"> = {
  room(asked, _, listener) {
    question = asked;
    let resolve: () => void = () => {};
    const done = new Promise<void>((resolves) => {
      resolve = resolves;
    });
    tell = async () => {
      const run = new RoomRun({ ...asked, meshFiles: new Map() });
      listener.onFrame(frameOfRoom(run.map));
      await askRoomShare(run, {
        onNews: (news) => listener.onNews(news),
        isStopped: () => false,
        breathe: () => Promise.resolve(),
        isNeeded: () => false,
      });
      resolve();
    };
    return { done, stop() {} };
  },
};

const press = (name: string | RegExp) => fireEvent.click(screen.getByRole("button", { name }));
const field = (name: string) => screen.getByRole("textbox", { name });
const type = (name: string, text: string) => fireEvent.change(field(name), { target: { value: text } });
const places = () => screen.getByRole("application");
const verdict = () => document.getElementById(places().getAttribute("aria-describedby")!)!.textContent;

async function told(): Promise<void> {
  await act(async () => {
    await tell();
  });
  await screen.findByRole("application");
}

beforeEach(() => {
  app.setState({ ...blankState(), document: corner, scene: resolveScene(corner), heldPoint: "upper.in" });
  useStudies.setState({ study: "room" });
  useRoom.setState({ form: null, run: null, map: null, isRunning: false, isFormOpen: true, error: null, place: null });
  end = startRoom(app, workshop);
  render(<StudiesPanel />);
});
afterEach(() => {
  cleanup();
  end();
});

/** The pivot 15 outboard and 10 down, and what lies between there and where it is (the stories' first). */
function askStory(): void {
  press("Plane");
  press("across the car");
  for (const [name, text] of [
    ["In", "0"],
    ["Out", "15"],
    ["Down", "10"],
    ["Up", "0"],
    ["Steps", "5"],
  ] as const) {
    type(name, text);
  }
  fireEvent.click(screen.getByRole("checkbox", { name: "Camber, from and to" }));
  fireEvent.click(screen.getByRole("checkbox", { name: "Toe change, at most" }));
  fireEvent.click(screen.getByRole("checkbox", { name: "Half track change, at most" }));
}

describe("the room for a point", () => {
  it("begins with the held point and says how many places that makes", () => {
    expect(screen.getByRole("combobox", { name: "Point" }).textContent).toContain("Upper link, inboard end");
    expect(screen.getByText("1,331 places")).toBeTruthy();
    type("Steps", "0.1");
    expect(screen.getByText(/More than 100,000 places/)).toBeTruthy();
    expect(screen.getByRole("button", { name: "Look for room" })).toHaveProperty("disabled", true);
  });

  it("asks what the form says, and tells what has room and what refuses the rest", async () => {
    askStory();
    type("Steps", "5");
    press("Look for room");
    expect(question!.limits).toEqual({});
    expect(question!.region.spans.map(({ along }) => along)).toEqual([
      [0, 1, 0],
      [0, 0, 1],
    ]);
    expect(screen.getByText("Getting the parts ready…")).toBeTruthy();
    await told();
    expect(await screen.findByRole("button", { name: /^Nearest: 15 outboard, 10 down/ })).toBeTruthy();
    const reasons = screen.getByRole("region", { name: "What refuses the others" });
    expect(reasons.textContent).toContain("Sump rail and upper link, left");
  });

  it("walks from place to place by keys, sliders and taps, and tells of each why or how much", async () => {
    askStory();
    press("Look for room");
    await told();
    places().focus();
    fireEvent.keyDown(places(), { key: "Home" });
    expect(verdict()).toMatch(/Sump rail and upper link, left: closer than the 10 mm wanted/);
    // outward is to the left
    for (let steps = 0; steps < 3; steps++) fireEvent.keyDown(places(), { key: "ArrowLeft" });
    expect(screen.getByRole("slider", { name: "Outward of the point" }).getAttribute("aria-valuetext")).toBe(
      "15 mm out",
    );
    expect(verdict()).toMatch(/Sump rail/);
    fireEvent.change(screen.getByRole("slider", { name: "Upward of the point" }), { target: { value: "-2" } });
    expect(verdict()).toMatch(/^Room: 1\.\d mm more than is wanted, least between sump rail and upper link/);
    const place = screen.getByRole("region", { name: "The place looked at" });
    expect(place.textContent).toContain("15 outboard, 10 down (18.0 mm)");
    expect(await within(place).findByRole("img", { name: /^Camber over travel/ })).toBeTruthy();
  });

  it("tries and takes a place as one step, which undo takes back, and marks the map as from before", async () => {
    askStory();
    press("Look for room");
    await told();
    press(/^Nearest: 15 outboard, 10 down/);
    press("Try it there");
    expect(app.getState().tried).toMatchObject({ point: "upper.in", to: [-20, 425, 415], meaning: "cut" });
    press("Put it back");
    expect(app.getState().tried).toBeNull();
    press("Take it");
    expect(app.getState().stepName).toBe("upper link, inboard end 15 outboard, 10 down");
    expect(screen.getByText("From before your change.")).toBeTruthy();
    expect(screen.getByRole("button", { name: "Look again" })).toBeTruthy();
    act(() => app.getState().undo());
    expect(screen.queryByText("From before your change.")).toBeNull();
  });

  it("takes no place of what is not asked any more, and says so", async () => {
    askStory();
    press("Look for room");
    await told();
    press(/^Nearest: 15 outboard, 10 down/);
    expect(screen.getByRole("button", { name: "Take it" })).toBeTruthy();
    type("Out", "20");
    expect(screen.getByText("What is asked above was changed since.")).toBeTruthy();
    expect(screen.queryByRole("button", { name: "Take it" })).toBeNull();
    press("Look again");
    expect(question!.region.spans[0]!.to_mm).toBe(20);
    await told();
    expect(screen.queryByText("What is asked above was changed since.")).toBeNull();
  });

  it("leaves out what the builder says does not count, and counts it again", async () => {
    askStory();
    press("Look for room");
    await told();
    press("Sump rail and upper link, left: leave it out and look again");
    expect(question!.leaveOut).toEqual(["sump-rail/upper"]);
    await told();
    expect(screen.getByText(/places of 12 have room/).textContent).toBe("12 places of 12 have room.");
    fireEvent.click(screen.getByText("Where may it live?"));
    press("Sump rail and upper link: count it again");
    expect(useRoom.getState().form!.leaveOut).toEqual([]);
  });
});
