import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { PointsSheet } from "../../../src/app/points/PointsSheet.tsx";
import { useTape } from "../../../src/app/points/tape/tapeStore.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { measuredPoint } from "../../../src/scene/measured.ts";
import { openCorner } from "./scene.ts";

beforeEach(() => {
  openCorner();
  useTape.setState({ placing: null });
  render(<PointsSheet />);
  act(() => app.getState().holdPoint("arm.front"));
  fireEvent.click(screen.getByRole("button", { name: "Place it by tape…" }));
});
afterEach(cleanup);

const dialog = () => within(screen.getByRole("dialog"));
const type = (label: string, text: string) =>
  fireEvent.change(dialog().getByLabelText(label), { target: { value: text } });
const press = (name: string | RegExp) => fireEvent.click(dialog().getByRole("button", { name }));
const use = () => dialog().getByRole("button", { name: "Use this place" }) as HTMLButtonElement;

function stud(number: number, place: readonly number[], tape: string) {
  for (const [k, direction] of ["forward", "out", "up"].entries())
    type(`Stud ${number}, ${direction}`, String(place[k]));
  type(`Tape ${number}`, tape);
}

const FEET = [
  [0, 0, 0],
  [600, 0, 0],
  [0, 700, 0],
] as const;
/** Three tapes that meet at a place. */
function tapesTo(at: readonly number[]) {
  for (const [i, foot] of FEET.entries())
    stud(i + 1, foot, Math.hypot(...at.map((value, k) => value - foot[k]!)).toFixed(4));
}

/** The builder's example: the front mount from three studs. */
function threeStuds() {
  for (const [i, tape] of ["838.7", "739.9", "545.3"].entries()) stud(i + 1, FEET[i]!, tape);
}

describe("placing a point by tape", () => {
  it("shows both places, how far each is to be trusted, and that three tapes cannot be doubted", () => {
    expect(use().disabled).toBe(true);
    threeStuds();
    expect(dialog().getByRole("button", { name: /^above the studs/ }).textContent).toContain("430.0, 640.0, 330.0");
    expect(dialog().getByRole("button", { name: /^below the studs/ }).textContent).toContain("430.0, 640.0, −330.0");
    expect(dialog().getByText("± 1.9, 1.4, 2.7")).toBeTruthy();
    expect(dialog().getByText(/A fourth stud finds a slip/)).toBeTruthy();
    expect(
      dialog().getByRole("img", { name: "Sketch: chosen: above the studs, the other: below the studs" }),
    ).toBeTruthy();
  });

  it("names the mistyped tape, says what the others say, and mends it at a press", () => {
    threeStuds();
    press("One more stud");
    stud(4, [600, 700, 0], "386.0");
    const alert = dialog().getByRole("alert").textContent;
    expect(alert).toContain("Tape 4 is most likely mistyped: 386.0 mm is typed, the others say 376.0 ± 3.");
    expect(alert).toContain("It moves the point 9.3 mm");
    press("Take 376.0 mm");
    expect(dialog().queryByRole("alert")).toBeNull();
    expect(dialog().getByText("± 0.9, 0.9, 0.9")).toBeTruthy();
  });

  it("keeps the place as one named step, with its tolerance, how it came about and the tapes", () => {
    threeStuds();
    fireEvent.click(use());
    const { document, stepName } = app.getState();
    expect(stepName).toBe("arm, pivot by tape");
    const entry = document!.points["arm.front"] as unknown as { at: number[] };
    expect(entry.at[0]).toBeCloseTo(429.97, 2);
    // the largest of 1.9, 1.4 and 2.7, rounded up to a tenth
    expect(entry).toMatchObject({ tolerance_mm: 2.8, how: "tape from 3 studs" });
    expect(measuredPoint(document!, "left", "arm.front")?.tapes?.lines).toHaveLength(3);
    expect(useTape.getState().placing).toBeNull();
    act(() => app.getState().undo());
    expect(app.getState().document!.points["arm.front"]).toEqual([430, 640, 330]);
  });

  it("opens again with the tapes as they were typed", () => {
    threeStuds();
    fireEvent.click(use());
    fireEvent.click(screen.getByRole("button", { name: "Place it by tape…" }));
    expect((dialog().getByLabelText("Tape 2") as HTMLInputElement).value).toBe("739.9");
    expect((dialog().getByLabelText("Stud 3, out") as HTMLInputElement).value).toBe("700.0");
  });

  it("may say that the mount was bolted up there", () => {
    const at = [431, 638, 328] as const;
    tapesTo(at);
    press("Bolt up");
    fireEvent.click(use());
    const { document } = app.getState();
    document!.boltedUp!["arm.front"]!.forEach((value, k) => {
      expect(value).toBeCloseTo(at[k]!, 2);
    });
    expect(document!.points["arm.front"]).toMatchObject({ at: [430, 640, 330], tolerance_mm: expect.any(Number) });
  });

  it("is not kept where the parts cannot reach", () => {
    tapesTo([430, 1300, 330]);
    press("Bolt up");
    const before = app.getState().document;
    fireEvent.click(use());
    expect(dialog().getByRole("alert").textContent).toMatch(/^It cannot be kept there/);
    expect(app.getState().document).toBe(before);
    press("Measured again");
    fireEvent.click(use());
    expect(app.getState().document).not.toBe(before);
  });

  it("takes points of the scene for studs, and what is typed in inches", () => {
    fireEvent.change(dialog().getByLabelText("Stud 1"), { target: { value: "upper.out" } });
    expect(dialog().queryByLabelText("Stud 1, up")).toBeNull();
    type("Tape 1", "12 1/2in");
    type("Tape 2", "nine");
    expect(dialog().getByRole("alert").textContent).toBe("Not a length. Try 9.5in or 12+4");
    expect(use().disabled).toBe(true);
  });

  it("says why the tapes give no place", () => {
    stud(1, [0, 0, 0], "800");
    stud(2, [600, 0, 0], "700");
    stud(3, [300, 0, 0], "700");
    expect(dialog().getByRole("alert").textContent).toMatch(/stand on one line.*Wanted: a stud well off that line/);
    stud(3, [0, 700, 0], "10");
    expect(dialog().getByRole("alert").textContent).toMatch(/do not meet/);
    expect(use().disabled).toBe(true);
  });

  it("keeps a place taped on the right as measured there, and leaves the drawing", () => {
    press("Right side");
    threeStuds();
    fireEvent.click(use());
    const { document, stepName } = app.getState();
    expect(stepName).toBe("right arm, pivot by tape");
    expect(document!.points["arm.front"]).toEqual([430, 640, 330]);
    expect(measuredPoint(document!, "right", "arm.front")!.at[1]).toBeCloseTo(-640.05, 2);
  });
});
