import { act, cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { closeForm } from "../../../src/app/loads/formsStore.ts";
import { LoadsDialogs } from "../../../src/app/loads/LoadsDialogs.tsx";
import { LoadsPanel } from "../../../src/app/loads/LoadsPanel.tsx";
import { useLoadsLook, useLoadsTold } from "../../../src/app/loads/loadsStore.ts";
import { blankState } from "../../../src/app/store/blank.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { useTools } from "../../../src/app/tools/toolsStore.ts";
import { reportLoads } from "../../../src/loads/report.ts";
import { drawnPart } from "../../../src/scene/aside.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { loadedScene } from "../../app/loads/loadedScene.ts";

function open(document: SceneDocument) {
  app.setState({ ...blankState(), document, scene: resolveScene(drawnPart(document)) });
  useTools.setState({ open: "loads" });
  useLoadsLook.setState({ tab: "forces", caseId: null, side: "left", picked: null, openRow: null });
  useLoadsTold.setState({ report: null, stale: false, error: null });
  return render(
    <>
      <LoadsPanel />
      <LoadsDialogs />
    </>,
  );
}

/** As the workshop does it. */
const tell = () =>
  act(() => useLoadsTold.setState({ report: reportLoads(resolveScene(app.getState().document!), "rest") }));
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole("button", { name }));
const cellsOf = (row: string) =>
  within(screen.getByRole("row", { name: new RegExp(`^${row}`) }))
    .getAllByRole("cell")
    .map((cell) => cell.textContent?.replaceAll("\u00a0", " "));

beforeEach(() => closeForm());
afterEach(cleanup);

describe("the loads", () => {
  it("ask for the mass that the cases count in, take it as a step, and then tell the forces", () => {
    open(loadedScene({}));
    expect(screen.queryByRole("table")).toBeNull();
    expect(screen.getByText(/What does a scale under the wheel read/)).toBeTruthy();
    press("Tell the mass…");
    expect(screen.getByRole("button", { name: "Keep it" }).hasAttribute("disabled")).toBe(true);
    const field = screen.getByRole("textbox", { name: "Mass on the wheel" });
    fireEvent.change(field, { target: { value: "250" } });
    press("Keep it");
    expect(app.getState().document?.loads).toEqual({ cornerMass_kg: 250 });
    expect(app.getState().stepName).toBe("mass, brakes, wanted factor");
    // 250 · 9.80665 N
    expect(cellsOf("Road on the tyre")[0]).toBe("2.45 kN");
    act(() => app.getState().undo());
    expect(screen.queryByRole("table")).toBeNull();
  });

  it("take the mass in pounds where inches are shown", () => {
    open(loadedScene({}));
    act(() => app.setState({ unit: "in" }));
    press("Tell the mass…");
    fireEvent.change(screen.getByRole("textbox", { name: "Mass on the wheel" }), { target: { value: "600" } });
    press("Keep it");
    // 600 lb, exact: 272.155422 kg
    expect(app.getState().document?.loads?.cornerMass_kg).toBeCloseTo(272.155422, 6);
    expect(cellsOf("Road on the tyre")[0]).toBe("600 lbf");
  });

  it("tell every part's force here and the worst of all, and lead there", async () => {
    open(loadedScene());
    tell();
    expect(screen.getAllByRole("row").length).toBeGreaterThan(12);
    const row = screen.getByRole("row", { name: /^Damper, spring and stop/ });
    expect(row.textContent).toMatch(/push.*kN.*push.*kN.*, [+−]/s);
    press("Toe link, inboard end");
    expect(useLoadsLook.getState().picked).toBe("toe.inboard");
    expect(screen.getByText(/What the frame does to the toe link: forward/)).toBeTruthy();
    press("Go there");
    const { caseId, side } = useLoadsLook.getState();
    const worst = useLoadsTold
      .getState()
      .report!.sides[0]!.worst.find(({ part, kind }) => part === "toe.inboard" && kind === "force")!;
    expect({ caseId, side, travel_mm: app.getState().travel_mm.left }).toEqual({
      caseId: worst.at.case,
      side: "left",
      travel_mm: worst.at.travel_mm,
    });
    // what stands here is then the worst; the table follows at a distance
    await waitFor(() => {
      const [here, most] = cellsOf("Toe link, inboard end");
      expect(most).toContain(here);
    });
  });

  it("print what equilibrium leaves over, and never hide the cautions", () => {
    open(loadedScene());
    tell();
    expect(screen.getByText(/Every part added up anew leaves over .* × 10⁻/)).toBeTruthy();
    for (const tab of ["Forces", "Screening", "What is given"]) {
      press(tab);
      expect(screen.getByText(/not a licence to drive/)).toBeTruthy();
      expect(screen.getByText(/fatigue, plates that buckle, crash, brakes/)).toBeTruthy();
    }
  });

  it("screen against the builder's own factor, with formula, source and inputs one press away", () => {
    open(
      loadedScene({
        cornerMass_kg: 250,
        target: 50,
        tubes: [{ member: "toe", diameter_mm: 20, wall_mm: 2, material: "E355+N" }],
      }),
    );
    tell();
    press("Screening");
    const list = screen.getByRole("list", { name: "What was screened" });
    fireEvent.click(within(list).getByRole("button", { name: /Toe link: compression/ }));
    const row = within(list).getByRole("button", { name: /Toe link: compression/ });
    expect(row.textContent).toMatch(/ ×.*below your 50: stop here/);
    expect(list.textContent).toMatch(/Shigley/);
    expect(list.textContent).toMatch(/Sy 355 MPa/);
    expect(list.textContent).toMatch(/E355\+N \(EN 10305-1/);
    press("Change what is given…");
    expect(screen.getByRole("heading", { name: "Tubes and arms" })).toBeTruthy();
  });

  it("keep what is unknown unknown, say what to ask for, and take the answer", () => {
    open(loadedScene());
    tell();
    press("Screening");
    expect(screen.getByText(/Nothing is screened yet/)).toBeTruthy();
    press(/^Toe link, outboard end/);
    const asked = screen.getByText("the static rating of its rod end, ball joint or bush: ask its maker");
    fireEvent.click(within(asked.closest("li")!).getByRole("button", { name: "Tell it…" }));
    const entry = screen.getByRole("group", { name: "Makers' ratings 1" });
    expect(within(entry).getByRole("combobox", { name: "Joint" }).textContent).toContain("Toe link, outboard end");
    fireEvent.change(within(entry).getByRole("textbox", { name: "Static rating" }), { target: { value: "31500" } });
    press("Keep it");
    expect(app.getState().document?.loads?.ratings).toEqual([{ joint: "toe.outboard", static_N: 31_500 }]);
    tell();
    expect(screen.getByRole("button", { name: /Toe link, outboard end: joint's rating/ }).textContent).toMatch(
      /no wanted factor is set/,
    );
  });

  it("take the usual cases over to change them, and go back to them", () => {
    open(loadedScene());
    press("What is given");
    press(/^Load cases/);
    press("Take the usual cases to change them");
    const first = screen.getByRole("group", { name: "Load cases 1" });
    fireEvent.change(within(first).getByRole("textbox", { name: "Up, times static" }), { target: { value: "1.5" } });
    press("Keep it");
    const { cases } = app.getState().document!.loads!;
    expect(cases![0]).toEqual({ id: "standing", timesStatic: { up: 1.5 } });
    // no driving without a driveshaft
    expect(cases!.map(({ id }) => id)).not.toContain("drive");
    press(/^Load cases/);
    press("Back to the usual cases");
    press("Keep it");
    expect(app.getState().document?.loads?.cases).toBeUndefined();
  });

  it("hold back a new record until everything of it is told: nobody's guess is screened", () => {
    open(loadedScene());
    press("What is given");
    press(/^Bolts/);
    press("Add a bolt");
    const keep = screen.getByRole("button", { name: "Keep it" });
    expect(screen.getByText("Still to tell: Thread, Class, Shear.")).toBeTruthy();
    expect(keep.hasAttribute("disabled")).toBe(true);
    for (const choice of ["M12", "10.9", "double"]) press(choice);
    expect(keep.hasAttribute("disabled")).toBe(false);
    press("Keep it");
    const [bolt] = app.getState().document!.loads!.bolts!;
    expect(bolt).toEqual({ joint: "upper.front", thread: "M12", class: "10.9", planes: 2 });
  });

  it("refuse what could not be opened again, where it was typed", () => {
    const plate = { joint: "toe.inboard", count: 2, thickness_mm: 5, hole_mm: 13, end_mm: 26, side_mm: 20 };
    open(loadedScene({ plates: [{ ...plate, material: "S355" }] }));
    press("What is given");
    press(/^Plates/);
    const entry = screen.getByRole("group", { name: "Plates 1" });
    fireEvent.change(within(entry).getByRole("textbox", { name: "Hole" }), { target: { value: "80" } });
    press("Keep it");
    expect(screen.getByRole("alert").textContent).toMatch(/half the hole/);
    expect(app.getState().document?.loads?.plates?.[0]?.hole_mm).toBe(13);
  });

  it("say that nothing holds a wheel up without a damper", () => {
    const { damper: _, ...without } = loadedScene();
    open(without);
    expect(screen.getByText(/Nothing holds the wheel up/)).toBeTruthy();
  });
});
