import { act, cleanup, fireEvent, render, screen } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { PointsSheet } from "../../../src/app/points/PointsSheet.tsx";
import { usePointsLook } from "../../../src/app/points/pointsStore.ts";
import { sidesMeaning } from "../../../src/app/points/sides/sidesMeaning.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { measuredPoint, withMeasured } from "../../../src/scene/measured.ts";
import { corner, openCorner } from "./scene.ts";

beforeEach(() => {
  openCorner();
  usePointsLook.setState({ list: "sides" });
  render(<PointsSheet />);
});
afterEach(cleanup);

const field = (direction: string) =>
  screen.getByLabelText(`Right Upper link, inboard end, ${direction}`) as HTMLInputElement;
const type = (direction: string, text: string) => {
  fireEvent.change(field(direction), { target: { value: text } });
  fireEvent.blur(field(direction));
};

describe("left against right", () => {
  it("keeps what was measured on the right once all three numbers are there, as one named step", () => {
    expect(screen.getByText("Nothing is measured on the right yet.")).toBeTruthy();
    type("forward", "150");
    type("out", "390");
    const before = app.getState().document!;
    expect(measuredPoint(before, "right", "upper.in")).toBeNull();
    type("up", "440-3");
    const { document, stepName } = app.getState();
    expect(stepName).toBe("right upper link, inboard end measured");
    expect(measuredPoint(document!, "right", "upper.in")!.at).toEqual([150, -390, 437]);
    expect(document!.points).toBe(before.points);
    act(() => app.getState().undo());
    expect(field("up").value).toBe("");
  });

  it("tells the difference in each direction and how far apart the worst point is", () => {
    type("forward", "150");
    type("out", "390");
    type("up", "437");
    expect(screen.getByText("alike")).toBeTruthy();
    expect(screen.getByText("2.0 inboard")).toBeTruthy();
    expect(screen.getByText("3.0 down")).toBeTruthy();
    // Pythagoras: √(2² + 3²) = 3.61
    expect(screen.getByText(/points measured/).textContent).toMatch(/Upper link, inboard end, 3\.6 mm\./);
    expect(screen.getByText(/Thrust line/)).toBeTruthy();
  });

  it("keeps nonsense in its field and the step for later", () => {
    type("forward", "150");
    type("out", "nine");
    type("up", "437");
    expect(field("out").getAttribute("aria-invalid")).toBe("true");
    expect(measuredPoint(app.getState().document!, "right", "upper.in")).toBeNull();
  });
});

describe("what a difference between the sides means", () => {
  it("is nothing for a right side that is the left one's image", () => {
    const meaning = sidesMeaning(withMeasured(corner(), "right", "upper.in", { at: [150, -392, 440] }))!;
    expect(meaning.right.toe_deg).toBeCloseTo(meaning.left.toe_deg, 9);
    expect(meaning.thrust_deg).toBeCloseTo(0, 9);
  });

  it("is the change that bolting the left mount up there would make to the left wheel", () => {
    const meaning = sidesMeaning(withMeasured(corner(), "right", "upper.in", { at: [150, -390, 437] }))!;
    const bolted = sidesMeaning(
      withMeasured({ ...corner(), boltedUp: { "upper.in": [150, 390, 437] } }, "right", "upper.in", {
        at: [150, -392, 440],
      }),
    )!;
    expect(meaning.right.toe_deg).toBeCloseTo(bolted.left.toe_deg, 6);
    expect(meaning.right.camber_deg).toBeCloseTo(bolted.left.camber_deg, 6);
    expect(meaning.thrust_deg).toBeCloseTo(-bolted.thrust_deg, 6);
    expect(Math.abs(meaning.right.camber_deg - meaning.left.camber_deg)).toBeGreaterThan(0.01);
  });
});
