import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { ViewNotes } from "../../../src/app/corner/ViewNotes.tsx";
import { PointsSheet } from "../../../src/app/points/PointsSheet.tsx";
import { usePointsLook } from "../../../src/app/points/pointsStore.ts";
import { liveCurve } from "../../../src/app/store/corners.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { refusalText } from "../../../src/app/words/refusal.ts";
import { InputError } from "../../../src/scene/error.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import type { Scene } from "../../../src/scene/scene.ts";
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

  it("takes sums that name other points, read in the field's own direction", () => {
    hold("upper.in");
    const { points } = app.getState().document!;
    const out = points["upper.out"] as readonly number[];
    type("Up", "=upper.out+12");
    expect(app.getState().tried!.to[2]).toBeCloseTo(out[2]! + 12, 9);
    type("Forward", "=upper.out - 1/2in");
    expect(app.getState().tried!.to[0]).toBeCloseTo(out[0]! - 12.7, 9);
    type("Up", "=uper.out");
    expect(screen.getByRole("alert").textContent).toBe('There is no point named "uper.out". upper.out?');
  });

  it("means the same by a sum that names the point itself, however often it is read", () => {
    hold("upper.in");
    for (const text of ["=upper.in+1", "=upper.in+12", "=upper.in+12"]) type("Up", text);
    expect(app.getState().tried!.to[2]).toBeCloseTo(452, 9);
  });

  it("takes steps from where the point is kept, either way, and sums that end at another point", () => {
    hold("upper.in");
    fireEvent.click(screen.getByRole("button", { name: "a step" }));
    expect(field("Up").value).toBe("0.0");
    type("Up", "-3");
    expect(app.getState().tried!.to).toEqual([150, 392, 437]);
    type("Up", "+5");
    expect(app.getState().tried!.to).toEqual([150, 392, 445]);
    fireEvent.blur(field("Up"));
    expect(field("Up").value).toBe("+5.0");
    const out = app.getState().document!.points["upper.out"] as readonly number[];
    type("Up", "=upper.out+2");
    expect(app.getState().tried!.to[2]).toBeCloseTo(out[2]! + 2, 9);
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
    expect(app.getState().stepName).toBe("arm, pivot 2 outboard, measured again");
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
    const toe = (scene: Scene) => liveCurve(scene, "left").map(({ toe_deg }) => toe_deg);
    for (const scene of [resolveScene(corner()), app.getState().scene!]) {
      const change = Math.max(...toe(scene)) - Math.min(...toe(scene));
      expect(row(/^Toe [^a]/).textContent).toContain(`${change.toFixed(2)}°`);
    }
  });

  it("tells the lengths to cut", () => {
    // eye to eye by Pythagoras: (150, 392, 440) and (150, 392, 444) to (62, 646, 456)
    expect(row(/Upper link 269/).textContent).toContain(Math.hypot(88, 254, 16).toFixed(1));
    expect(row(/Upper link 269/).textContent).toContain(Math.hypot(88, 254, 12).toFixed(1));
  });

  it("shows no gap of an older move while this one is being checked; wheel and lengths are this move's", () => {
    act(() => app.setState({ stale: true, checking: { pairsDone: 34, pairsTotal: 120 } }));
    expect(screen.getByText("checking this move: 34 of 120 pairs")).toBeTruthy();
    expect(row(/Ear, upper link/).textContent).toContain("clash −6.2→checking…");
    expect(screen.queryByText(/leaves/i)).toBeNull();
    expect(screen.getByText("This move is not checked yet.")).toBeTruthy();
    expect(button("Keep this move").disabled).toBe(false);
    expect(row(/Upper link 269/).textContent).toContain(Math.hypot(88, 254, 12).toFixed(1));
    act(() => app.setState({ stale: false, partial: true }));
    expect(row(/Ear, upper link/).textContent).toContain("checking…");
    act(() => app.setState({ partial: false }));
    expect(row(/Ear, upper link/).textContent).toContain("tight +0.5");
    expect(screen.queryByText("This move is not checked yet.")).toBeNull();
  });

  it("puts what touches anew on top, then the least clearance first, and counts what is left", () => {
    const clash = (a: string, clearance_mm: number) => pair({ a, clearance_mm });
    const tight = (a: string, clearance_mm: number) => pair({ a, clearance_mm, verdict: "tight" });
    const names = ["anchor", "boss", "clip", "dome", "eye"];
    act(() =>
      app.setState({
        resultBefore: result({
          pairs: [tight("fresh", 2), ...names.map((name, i) => clash(name, -9 + i))],
          limits: [],
        }),
        result: result({
          pairs: [clash("fresh", -0.5), ...names.map((name, i) => (i < 3 ? clash(name, -9 + i) : tight(name, i)))],
          limits: [],
        }),
      }),
    );
    expect(screen.getByText("Leaves 4 clash, 2 tight.")).toBeTruthy();
    const rows = screen.getAllByRole("row").map((found) => found.querySelector("th")!.textContent);
    expect(rows.slice(1, 6)).toEqual([
      "Fresh, upper link · new",
      "Anchor, upper link",
      "Boss, upper link",
      "Clip, upper link",
      "Dome, upper link",
    ]);
    expect(screen.getByText("and 1 more")).toBeTruthy();
  });

  it("says in inches what the rule reads too", () => {
    act(() => app.setState({ unit: "in" }));
    // 4 / 25.4 = 0.157, nearest thirty-second 5/32 = 0.156
    expect(screen.getByText("(0.157 in, about 5/32 in)")).toBeTruthy();
    // 269.3 / 25.4 = 10.602, nearest thirty-second 10 19/32 = 10.594
    expect(row(/Upper link 10/).textContent).toContain("10.602about 10 19/32 in");
  });
});

describe("nonsense in a field", () => {
  const keep = () => button("Keep this move");
  beforeEach(() => hold("upper.in"));

  it.each(["nine", "", "1e9", "99999999", "5/0"])(
    "%j keeps the move from being kept, by button and by Enter",
    (text) => {
      type("Forward", "138");
      type("Up", text);
      expect(screen.getByRole("alert").textContent).toMatch(/^Not a length|^Farther than/);
      expect(keep().disabled).toBe(true);
      fireEvent.keyDown(field("Up"), { key: "Enter" });
      fireEvent.keyDown(field("Forward"), { key: "Enter" });
      fireEvent.keyDown(document.body, { key: "Enter" });
      expect(app.getState().document!.points["upper.in"]).toEqual([150, 392, 440]);
      type("Up", "441");
      expect(keep().disabled).toBe(false);
    },
  );

  it("makes way for the kept value by Put it back, also when nothing else is tried", () => {
    type("Up", "nine");
    fireEvent.click(button(/Put it back/));
    expect(field("Up").value).toBe("440.0");
    type("Forward", "138");
    type("Up", "nine");
    fireEvent.click(button(/Put it back/));
    expect(["Forward", "Up"].map((label) => field(label).value)).toEqual(["150.0", "440.0"]);
  });

  it("makes way when a step is undone or redone", () => {
    type("Up", "444");
    fireEvent.click(keep());
    type("Up", "nine");
    act(() => app.getState().undo());
    expect(field("Up").value).toBe("440.0");
    type("Up", "nine");
    act(() => app.getState().redo());
    expect(field("Up").value).toBe("444.0");
  });

  it("makes way when another point is chosen", () => {
    type("Up", "nine");
    act(() => app.getState().holdPoint("upper.out"));
    expect(field("Up").value).toBe("456.0");
    act(() => app.getState().holdPoint("upper.in"));
    expect(field("Up").value).toBe("440.0");
  });

  it("a sum that was kept stands there as what it came to", () => {
    type("Up", "440+4");
    fireEvent.keyDown(field("Up"), { key: "Enter" });
    expect(field("Up").value).toBe("444.0");
  });
});

describe("parts that cannot be bolted up there", () => {
  it("says how far they go, in the words that stand over the picture too", () => {
    hold("upper.in");
    type("Out", "900");
    const jam = new InputError(
      "out-of-reach",
      {},
      "the parts keep their lengths and lock after 55 % of the way",
      "less",
    );
    act(() => app.setState({ error: jam }));
    const said = "The parts keep their lengths and jam after 55 % of this move. Move it less, or cut to suit.";
    expect(screen.getByRole("alert").textContent).toBe(`${said} The car is shown as it is kept.`);
    expect(refusalText(app.getState())).toBe(said);
    expect(screen.queryByText(/would be/)).toBeNull();
    expect(button("Keep this move").disabled).toBe(true);
    render(<ViewNotes />);
    expect(screen.getByText(`${said} Shown as it is kept.`)).toBeTruthy();
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
