import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { PointsSheet } from "../../../src/app/points/PointsSheet.tsx";
import { usePointsLook } from "../../../src/app/points/pointsStore.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { InputError } from "../../../src/scene/error.ts";
import { curvePoint, pair, result } from "../../buildlog/fixture.ts";
import { corner, openCorner, resolveShown } from "./scene.ts";

beforeEach(() => openCorner());
afterEach(cleanup);

function hold(point: string) {
  render(<PointsSheet />);
  act(() => app.getState().holdPoint(point));
}

const field = (label: string) => screen.getByRole("textbox", { name: new RegExp(`^${label}`) }) as HTMLInputElement;
const type = (label: string, text: string) => fireEvent.change(field(label), { target: { value: text } });
const button = (name: string | RegExp) => screen.getByRole("button", { name }) as HTMLButtonElement;

describe("the list of hard points", () => {
  it("says which lie on the chassis and which on the wheel side", () => {
    render(<PointsSheet />);
    const group = (name: RegExp) => screen.getByRole("heading", { name }).parentElement!;
    expect(within(group(/On the chassis/)).getAllByRole("button")).toHaveLength(3);
    expect(within(group(/On the wheel side/)).getByText("Upper link, outboard end")).toBeTruthy();
  });

  it("opens the point that is pressed", () => {
    render(<PointsSheet />);
    fireEvent.click(screen.getByText("Upper link, inboard end"));
    expect(app.getState().heldPoint).toBe("upper.in");
  });
});

describe("the held point", () => {
  it("says what hangs on it", () => {
    hold("upper.in");
    expect(screen.getByText(/upper bracket follows it; the right side mirrors it/)).toBeTruthy();
  });

  it("tries what is typed at once, and keeps nothing", () => {
    hold("upper.in");
    const before = app.getState().document;
    type("Up", "440+4");
    type("Forward", "138");
    expect(app.getState().tried).toEqual({ point: "upper.in", to: [138, 392, 444], meaning: "cut" });
    expect(app.getState().document).toBe(before);
    expect(screen.getByText("12 back, 4 up")).toBeTruthy();
    // Pythagoras: √(12² + 4²) = 12.65
    expect(screen.getByText("(12.6 mm)")).toBeTruthy();
    expect(screen.getByText("not kept yet")).toBeTruthy();
  });

  it("keeps a move cut to suit as a named step", () => {
    hold("upper.in");
    type("Up", "444");
    fireEvent.click(button("Keep this move"));
    expect(app.getState().document!.points["upper.in"]).toEqual([150, 392, 444]);
    expect(app.getState().stepName).toBe("upper link, inboard end 4 up");
    expect(app.getState().tried).toBeNull();
  });

  it("keeps a move bolted up with every part as it was drawn", () => {
    hold("upper.in");
    type("Up", "444");
    fireEvent.click(button("Bolt up"));
    expect(app.getState().tried?.meaning).toBe("bolt");
    fireEvent.keyDown(field("Up"), { key: "Enter" });
    expect(app.getState().document!.points["upper.in"]).toEqual([150, 392, 440]);
    expect(app.getState().document!.boltedUp).toEqual({ "upper.in": [150, 392, 444] });
  });

  it("keeps by Enter from anywhere that has no use for it", () => {
    hold("upper.in");
    type("Up", "444");
    fireEvent.keyDown(document.body, { key: "Enter" });
    expect(app.getState().document!.points["upper.in"]).toEqual([150, 392, 444]);
  });

  it("says what it hangs on", () => {
    openCorner(corner({ points: { ...corner().points, "damper.eye": { at: { from: "upper.in", by: [0, 10, 0] } } } }));
    hold("damper.eye");
    expect(screen.getByText(/hangs on upper.in until it is moved itself/)).toBeTruthy();
  });

  it("puts the move back", () => {
    hold("upper.in");
    type("Out", "400");
    fireEvent.click(button(/Put it back/));
    expect(app.getState().tried).toBeNull();
    expect(field("Out").value).toBe("392.0");
  });

  it("tries nothing when the point comes back to where it is kept", () => {
    hold("upper.in");
    fireEvent.click(button("Up 5 mm"));
    expect(app.getState().tried).not.toBeNull();
    fireEvent.click(button("Up -5 mm"));
    expect(app.getState().tried).toBeNull();
  });

  it("reads from the chosen datum and moves in its directions", () => {
    hold("upper.in");
    act(() => usePointsLook.setState({ datumId: "left-rail" }));
    // from (100, 300, 200): 150 − 100, 392 − 300, 440 − 200
    expect(["Forward", "Out", "Up"].map((label) => field(label).value)).toEqual(["50.0", "92.0", "240.0"]);
    type("Up", "250");
    expect(app.getState().tried?.to).toEqual([150, 392, 450]);
  });

  it("refuses to cut a donor part, and says why", () => {
    hold("arm.front");
    expect(button("Cut to suit").disabled).toBe(true);
    expect(screen.getByText("Arm came from the donor and keeps its shape: it cannot be cut to suit.")).toBeTruthy();
    type("Out", "642");
    expect(app.getState().tried?.meaning).toBe("bolt");
  });

  it("lets a donor part's drawing be corrected", () => {
    hold("arm.front");
    fireEvent.click(button("Measured again"));
    type("Out", "642");
    fireEvent.click(button("Keep this move"));
    expect(app.getState().document!.points["arm.front"]).toEqual([430, 642, 330]);
    expect(app.getState().stepName).toBe("arm, pivot 2 out, measured again");
  });

  it("bolts up only what is a mount on the chassis", () => {
    hold("upper.out");
    expect(button("Bolt up").disabled).toBe(true);
    expect(screen.getByText(/Only a mount on the chassis can be bolted up/)).toBeTruthy();
  });

  it("waits while another point's move is not kept yet", () => {
    hold("upper.in");
    act(() => app.getState().tryMove({ point: "lower.in", to: [-70, 260, 205], meaning: "cut" }));
    expect(field("Up").disabled).toBe(true);
    fireEvent.click(button("Keep it"));
    expect(app.getState().document!.points["lower.in"]).toEqual([-70, 260, 205]);
    expect(field("Up").disabled).toBe(false);
  });
});

describe("what a move would do", () => {
  const sides = (toe_deg: number) => ({
    left: { curve: [curvePoint(-70), curvePoint(0, { toe_deg: 0.1 }), curvePoint(80, { toe_deg })], bindsAt_mm: null },
  });

  const clear = (a: string, clearance_mm: number) => pair({ a, clearance_mm, verdict: "clear" });

  beforeEach(() => {
    hold("upper.in");
    type("Up", "444");
    act(() => {
      resolveShown();
      app.setState({
        resultBefore: result({
          pairs: [pair(), clear("near", 14), clear("far", 60), clear("tank", 20)],
          sides: sides(0.33),
        }),
        result: result({
          pairs: [
            pair({ clearance_mm: 0.5, verdict: "tight" }),
            clear("near", 14),
            clear("far", 90),
            clear("tank", 12),
          ],
          sides: sides(0.34),
        }),
        stale: false,
      });
    });
  });

  const row = (name: RegExp) => screen.getByRole("row", { name });

  it("stands beside what is now: gaps with their verdict", () => {
    expect(row(/Ear, upper link/).textContent).toContain("clash −6.2");
    expect(row(/Ear, upper link/).textContent).toContain("tight +0.5");
  });

  it("leaves out clear pairs that do not change or are far off", () => {
    expect(screen.queryByRole("row", { name: /Near/ })).toBeNull();
    expect(screen.queryByRole("row", { name: /Far/ })).toBeNull();
    expect(row(/Tank, upper link/).textContent).toContain("clear +12.0");
  });

  it("tells the wheel's change through travel", () => {
    // largest less smallest toe: 0.33 − 0.1 and 0.34 − 0.1
    expect(row(/^Toe/).textContent).toContain("0.23°");
    expect(row(/^Toe/).textContent).toContain("0.24°");
  });

  it("tells the lengths to cut", () => {
    // eye to eye by Pythagoras: (150, 392, 440) and (150, 392, 444) to (62, 646, 456)
    expect(row(/Upper link 269/).textContent).toContain(Math.hypot(88, 254, 16).toFixed(1));
    expect(row(/Upper link 269/).textContent).toContain(Math.hypot(88, 254, 12).toFixed(1));
  });

  it("says when what stands there is from before the change", () => {
    act(() => app.setState({ stale: true, checking: { pairsDone: 34, pairsTotal: 120 } }));
    expect(screen.getByText(/34 of 120 pairs checked; what stands below is from before your change/)).toBeTruthy();
  });
});

describe("a scene whose points do not resolve", () => {
  it("says why instead of a list", () => {
    const broken = corner({ points: { "upper.in": { at: "upper.in" } } });
    act(() => app.setState({ document: broken, error: new InputError("circular-point", {}, "is a circle", "an end") }));
    render(<PointsSheet />);
    expect(screen.getByRole("alert").textContent).toContain("is a circle");
  });
});
