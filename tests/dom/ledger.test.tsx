import { cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { cardTrouble } from "../../src/app/card/composeCard.ts";
import { Ledger } from "../../src/app/corner/Ledger.tsx";
import { blankState } from "../../src/app/store/blank.ts";
import { pairKey } from "../../src/app/store/state.ts";
import { app } from "../../src/app/store/useApp.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { checkResult, pairVerdict, smallScene } from "../app/smallScene.ts";

const clash = pairVerdict();
const tight = pairVerdict({ a: "rail", verdict: "tight", clearance_mm: 2.8, clashTravel_mm: [] });
const clear = pairVerdict({ a: "toe", b: "tyre", verdict: "clear", clearance_mm: 30, clashTravel_mm: [] });

beforeEach(() => {
  const scene = resolveScene(smallScene());
  app.setState({ ...blankState(), document: smallScene(), scene, result: checkResult([clash, tight, clear]) });
});
afterEach(cleanup);

describe("the ledger", () => {
  it("a row reads as its sentence", () => {
    render(<Ledger />);
    const row = screen.getByRole("button", {
      name: /^Upper wishbone meets gearbox mount ear: 6\.2 mm too deep at \+38 bump/,
    });
    expect(row.textContent).toContain("engine pulling");
  });

  it("choosing a row moves wheel and engine to the worst and opens what it leaves out", () => {
    render(<Ledger />);
    fireEvent.click(screen.getByRole("button", { name: /meets gearbox mount ear/ }));
    expect(app.getState().chosenPair).toBe(pairKey(clash));
    expect(app.getState().travel_mm.left).toBe(38);
    expect(app.getState().pose).toBe("pulling");
    expect(screen.getByText("−6 to +60 in any engine pose")).toBeTruthy();
    expect(screen.getByText("5.3 deep")).toBeTruthy();
    expect(screen.getByText("at least 16.2 mm")).toBeTruthy();
  });

  it("says what was left out of the check, and makes no card without it", () => {
    const refusal = { file: "rail.stl", wrong: "it has 2258698 triangles", wanted: "at most 2000000" };
    const result = { ...checkResult([clash]), unchecked: [{ id: "rail", ...refusal }] };
    app.setState({ result });
    render(<Ledger />);
    expect(screen.getByRole("alert").textContent).toBe(
      "Left out, not checked: Rail. rail.stl: it has 2258698 triangles; wanted: at most 2000000",
    );
    expect(screen.getByRole("button", { name: /meets gearbox mount ear/ })).toBeTruthy();
    expect(cardTrouble(app.getState())).toContain("rail.stl: it has 2258698 triangles");
  });

  it("clear rows are folded until asked for, and a tally shows only its own", () => {
    render(<Ledger />);
    expect(screen.queryByText(/passes tyre/)).toBeNull();
    fireEvent.click(screen.getByRole("button", { name: /1 clear: show/ }));
    expect(screen.getByText(/passes tyre/)).toBeTruthy();
    fireEvent.click(screen.getByRole("button", { name: "1 tight" }));
    expect(screen.queryByText(/gearbox mount ear/)).toBeNull();
    expect(screen.getByText(/passes rail/)).toBeTruthy();
  });

  it("a clearance that is only proved to be kept is told as that, never rounded up, and the card waits for the exact one", () => {
    const kept = { ...clear, clearance_mm: 29.96, isAtLeast: true as const, profile: [], byPose: {} };
    app.setState({ result: checkResult([clash, kept]) });
    render(<Ledger />);
    fireEvent.click(screen.getByRole("button", { name: /1 clear: show/ }));
    const row = screen.getByRole("button", { name: /Toe link passes tyre ≥ 29\.9 mm off/ });
    expect(row.textContent).not.toContain("bump");
    expect(row.textContent).not.toContain("engine");
    fireEvent.click(row);
    expect(screen.queryByRole("img", { name: /cut through where they are closest/ })).toBeNull();
    expect((screen.getByRole("button", { name: /Make job card/ }) as HTMLButtonElement).disabled).toBe(true);
    expect(screen.queryByText(/Whole travel checked/)).toBeNull();
  });

  it("a pose without a number says that the pair is farther off in it", () => {
    app.setState({ result: checkResult([{ ...clear, byPose: { rest: 41 }, farther: ["pulling"] }]) });
    render(<Ledger />);
    fireEvent.click(screen.getByRole("button", { name: /1 clear: show/ }));
    fireEvent.click(screen.getByRole("button", { name: /Toe link passes tyre/ }));
    expect(screen.getByText("41.0 off")).toBeTruthy();
    expect(screen.getByText("farther off")).toBeTruthy();
  });

  it("verdicts from before a change say so", () => {
    app.setState({ stale: true });
    render(<Ledger />);
    expect(screen.getByText("before your change")).toBeTruthy();
    expect((screen.getByRole("button", { name: /Make job card/ }) as HTMLButtonElement).disabled).toBe(true);
  });

  it("with no clash it names the closest pair", () => {
    app.setState({ result: checkResult([clear]) });
    render(<Ledger />);
    expect(screen.getByText(/Nothing touches\./).parentElement?.textContent).toContain("Toe link and tyre, 30.0 mm");
  });

  it("a part-way result never says that nothing touches without saying so far", () => {
    app.setState({ result: checkResult([clear]), partial: true });
    render(<Ledger />);
    expect(screen.getByText(/^Only part was checked: nothing found in it\. Closest so far/)).toBeTruthy();
    expect(screen.queryByText("Nothing touches.")).toBeNull();
  });

  it("while the check runs, none found is not told as none there", () => {
    const checking = { pairsDone: 49, pairsTotal: 2374 };
    app.setState({ result: checkResult([clear]), partial: true, checking });
    const { container } = render(<Ledger />);
    expect(screen.getByText(/^Checking… nothing found yet in 49 of 2374 pairs\./)).toBeTruthy();
    expect(container.querySelector(".nothing-touches b")).toBeNull();
    expect(screen.getByRole("button", { name: "– clash" })).toBeTruthy();
    expect(screen.queryByRole("button", { name: "0 clash" })).toBeNull();
  });

  it("nothing touching before a change is not told as nothing touching", () => {
    app.setState({ result: checkResult([clear]), stale: true });
    render(<Ledger />);
    expect(screen.queryByText("Nothing touches.")).toBeNull();
    expect(screen.getByText(/^Before your change nothing touched/)).toBeTruthy();
  });

  it("the way apart names the part that moves, and turns round with it", () => {
    // the ear stands on the powertrain: the wishbone is what the sentence speaks of, and moves against the ear's way
    const partingOfA = [0, 0.8, 0.6] as const;
    app.setState({ result: checkResult([{ ...clash, partingOfA }]), chosenPair: pairKey(clash) });
    render(<Ledger />);
    expect(screen.getByText("move upper wishbone 6.2 mm inboard and down")).toBeTruthy();
  });

  it("says that a pair of both sides counts once", () => {
    render(<Ledger />);
    expect(screen.getByRole("button", { name: "1 tight" }).title).toContain("pairs, both sides as one");
    expect(screen.getByText("A pair that both sides have counts once.")).toBeTruthy();
    expect(screen.getByText("to 0.1 mm")).toBeTruthy();
  });

  it("leaving a pair out asks why, and keeps the reason in the scene", () => {
    app.setState({ chosenPair: pairKey(clash) });
    render(<Ledger />);
    fireEvent.click(screen.getByRole("button", { name: "Leave this pair out…" }));
    const dialog = within(screen.getByRole("dialog"));
    const keep = dialog.getByRole("button", { name: "Leave it out" }) as HTMLButtonElement;
    expect(keep.disabled).toBe(true);
    fireEvent.change(dialog.getByRole("textbox"), { target: { value: "rubber flap" } });
    fireEvent.click(keep);
    expect(app.getState().document!.clearances.accept).toEqual([{ a: clash.a, b: clash.b, why: "rubber flap" }]);
    app.getState().undo();
    expect(app.getState().document!.clearances.accept).toBeUndefined();
  });

  it("shows lengths in the chosen unit", () => {
    app.setState({ unit: "in" });
    render(<Ledger />);
    expect(screen.getByText("0.244 in too deep")).toBeTruthy();
  });

  it("tells progress with a way to stop", () => {
    app.setState({ checking: { pairsDone: 120, pairsTotal: 412 } });
    render(<Ledger />);
    expect(screen.getByRole("status").textContent).toContain("checking 120 of 412 pairs");
    expect(screen.getByRole("button", { name: "Stop" })).toBeTruthy();
  });
});
