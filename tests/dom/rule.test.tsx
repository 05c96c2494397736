import { cleanup, fireEvent, render, screen } from "@testing-library/react";
import { afterEach, describe, expect, it, vi } from "vitest";
import { bandsOfSide } from "../../src/app/rule/bands.ts";
import type { TravelRuleProps } from "../../src/app/rule/ruleProps.ts";
import { ruleShape } from "../../src/app/rule/ruleShape.ts";
import { TravelRule } from "../../src/app/rule/TravelRule.tsx";
import { pairVerdict } from "../app/smallScene.ts";

afterEach(cleanup);

function shown(change: Partial<TravelRuleProps> = {}) {
  const props: TravelRuleProps = {
    side: "left",
    unit: "mm",
    height: 430,
    large: false,
    range_mm: [-70, 80],
    reach_mm: [-70, 80],
    travel_mm: 38,
    bands: bandsOfSide([pairVerdict()], "left"),
    held_mm: null,
    still: null,
    anyPose: false,
    unchecked: false,
    stale: false,
    onTravel: vi.fn(),
    onBand: vi.fn(),
    onStill: vi.fn(),
    ...change,
  };
  render(<TravelRule {...props} />);
  return props;
}

const shape = ruleShape({ side: "left", height: 430, large: false, range_mm: [-70, 80] });
const slider = () => screen.getByRole("slider");

describe("the travel rule to the ear and the hand", () => {
  it("is an upright slider that speaks the travel and what happens there", () => {
    shown();
    expect(slider().getAttribute("aria-orientation")).toBe("vertical");
    expect(slider().getAttribute("aria-valuetext")).toBe("38 bump, clash");
    expect(slider().getAttribute("aria-label")).toBe("Left wheel travel");
  });

  it("speaks clear where nothing is painted", () => {
    shown({ travel_mm: -60 });
    expect(slider().getAttribute("aria-valuetext")).toBe("60 droop, clear");
  });

  it("engine and frame that clash in the shown pose are never clear, at any travel", () => {
    const still = { kind: "clash", worst: "both/head/hoop" } as const;
    const { onStill } = shown({ travel_mm: -60, still });
    expect(slider().getAttribute("aria-valuetext")).toBe("60 droop, engine and frame clash");
    const lane = slider().querySelector(".lane .still.clash")!;
    expect(Number(lane.getAttribute("height"))).toBeCloseTo(shape.y(-70) - shape.y(80), 6);
    fireEvent.click(screen.getByRole("button", { name: "engine and frame: clash" }));
    expect(onStill).toHaveBeenCalledWith(still);
  });

  it("for a finger the word on engine and frame is no button: it would be too small to hit", () => {
    shown({ large: true, still: { kind: "clash", worst: "both/head/hoop" } });
    expect(screen.getByText("engine and frame: clash").closest("button")).toBeNull();
  });

  it("says that its bands are over all engine poses", () => {
    shown({ anyPose: true });
    expect(screen.getByText("any engine pose").title).toContain("at least one engine pose");
    expect(slider().getAttribute("aria-valuetext")).toBe("38 bump, clash in at least one engine pose");
  });

  it("what is not checked is not called clear", () => {
    shown({ travel_mm: -60, bands: [], unchecked: true });
    expect(slider().getAttribute("aria-valuetext")).toBe("60 droop, not all checked yet");
    expect(slider().querySelector(".lane-back.unchecked")).toBeTruthy();
  });

  it("Page Up and End are full bump, Page Down full droop", () => {
    const { onTravel } = shown();
    for (const [key, travel_mm] of [
      ["PageUp", 80],
      ["End", 80],
      ["PageDown", -70],
    ] as const) {
      fireEvent.keyDown(slider(), { key });
      expect(onTravel).toHaveBeenLastCalledWith(travel_mm);
    }
  });

  it("moves by 1 mm, by 10 with Shift, and Home is ride height; up is bump", () => {
    const { onTravel } = shown();
    fireEvent.keyDown(slider(), { key: "ArrowUp" });
    expect(onTravel).toHaveBeenLastCalledWith(39);
    fireEvent.keyDown(slider(), { key: "ArrowDown", shiftKey: true });
    expect(onTravel).toHaveBeenLastCalledWith(28);
    fireEvent.keyDown(slider(), { key: "Home" });
    expect(onTravel).toHaveBeenLastCalledWith(0);
  });

  it("in inches a press is a sixteenth", () => {
    const { onTravel } = shown({ unit: "in", travel_mm: 0 });
    fireEvent.keyDown(slider(), { key: "ArrowUp" });
    expect(onTravel).toHaveBeenLastCalledWith(25.4 / 16);
  });

  it("a tap on a painted band leads to its worst", () => {
    const { onBand, bands } = shown({ travel_mm: -60 });
    const at = { clientX: shape.edge + 8, clientY: shape.y(20), pointerId: 1, button: 0 };
    fireEvent.pointerDown(slider(), at);
    fireEvent.pointerUp(slider(), at);
    expect(onBand).toHaveBeenCalledWith(bands.find(({ kind }) => kind === "clash"));
  });

  it("a drag anywhere on the steel takes the wheel along", () => {
    const { onTravel } = shown();
    const from = { clientX: 20, clientY: shape.y(38), pointerId: 1, button: 0 };
    fireEvent.pointerDown(slider(), from);
    fireEvent.pointerMove(slider(), { ...from, clientY: shape.y(-20) });
    expect(vi.mocked(onTravel).mock.lastCall![0]).toBeCloseTo(-20, 6);
  });

  it("a grabbed flag does not jump under the finger", () => {
    const { onTravel } = shown();
    const from = { clientX: shape.edge + 60, clientY: shape.y(38) + 15, pointerId: 1, button: 0 };
    fireEvent.pointerDown(slider(), from);
    fireEvent.pointerMove(slider(), { ...from, clientY: shape.y(30) + 15 });
    expect(vi.mocked(onTravel).mock.lastCall![0]).toBeCloseTo(30, 6);
  });
});
