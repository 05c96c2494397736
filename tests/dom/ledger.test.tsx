import { cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
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
    expect(screen.getByText("−6 to +60")).toBeTruthy();
    expect(screen.getByText("5.3 deep")).toBeTruthy();
    expect(screen.getByText("6.2 mm up")).toBeTruthy();
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
    expect(screen.getByText("Nothing touches so far.")).toBeTruthy();
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
