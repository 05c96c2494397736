// Numbers of stories 4 and 5 are those of the project's acceptance stories, worked out apart from this program by
// rigid-joint geometry.
import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { GearDialogs } from "../../../src/app/gear/GearDialogs.tsx";
import { GearPanel } from "../../../src/app/gear/GearPanel.tsx";
import { closeGearForm, type GearTab, useGearLook, useGearTold } from "../../../src/app/gear/gearStore.ts";
import { closeForm, useLoadsForm } from "../../../src/app/loads/formsStore.ts";
import { blankState } from "../../../src/app/store/blank.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { drawnPart } from "../../../src/scene/aside.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { gearReport } from "../../../src/work/gearReport.ts";
import { storyCorner } from "../../check/storyCorner.ts";

function open(document: SceneDocument, tab: GearTab) {
  app.setState({ ...blankState(), document, scene: resolveScene(drawnPart(document)) });
  useGearLook.setState({ tab, side: "left", openJoint: null, spare_mm: 3 });
  useGearTold.setState({ report: null, stale: false, error: null });
  render(
    <>
      <GearPanel />
      <GearDialogs />
    </>,
  );
  tell();
}

/** As the workshop and the engine do it. */
function tell() {
  act(() => {
    const { document } = app.getState();
    const scene = resolveScene(document!);
    app.setState({ scene: resolveScene(drawnPart(document!)) });
    useGearTold.setState({ report: gearReport(scene, useGearLook.getState().spare_mm) });
  });
}

const press = (name: string | RegExp) => fireEvent.click(screen.getByRole("button", { name }));
const row = (name: string) => screen.getByRole("row", { name: new RegExp(`^${name}`) });
const cell = (name: string, column = 0) =>
  within(row(name)).getAllByRole("cell")[column]?.textContent?.replaceAll("\u00a0", " ");
const withShaft = (more: Partial<NonNullable<SceneDocument["driveshaft"]>>, rest: Partial<SceneDocument> = {}) =>
  storyCorner({ driveshaft: { ...storyCorner().driveshaft!, ...more }, ...rest });
const withDamper = (more: Partial<NonNullable<SceneDocument["damper"]>>, rest: Partial<SceneDocument> = {}) =>
  storyCorner({ damper: { ...storyCorner().damper!, ...more }, ...rest });

beforeEach(() => {
  closeForm();
  closeGearForm();
});
afterEach(cleanup);

describe("the driveshaft", () => {
  it("is told as it is now and at its ends, each end with its state and what is to spare, and leads there", () => {
    open(storyCorner(), "shaft");
    expect(cell("Length now")).toBe("436.0 mm");
    expect(cell("Shortest")).toMatch(/^426\.[3-5] mm\+60 bumpengine/);
    expect(cell("Before it bottoms")).toMatch(/^7\.[3-5] mm/);
    expect(cell("Longest")).toMatch(/^442\.[0-2] mm−70 droop/);
    expect(cell("Before it lets go")).toMatch(/^4\.[89] mm|^5\.0 mm/);
    expect(cell("Inner joint, most")).toMatch(/^16\.[12]° \/ 23\.0°/);
    expect(cell("Outer joint, most")).toMatch(/^17\.9° \/ 45\.0°/);
    fireEvent.click(within(row("Longest")).getByRole("button"));
    expect(app.getState().travel_mm.left).toBe(-70);
    expect(app.getState().pose).toMatch(/^tail-/);
    expect(cell("Length now")).toBe(cell("Longest")?.slice(0, 8));
  });

  it("cut 6 mm shorter is told to let go, and from which wheel height on", () => {
    open(withShaft({ shortest_mm: 413, longest_mm: 441 }), "shaft");
    const told = screen.getByRole("button", { name: /Driveshaft is .*too short/ });
    // the story's −45 is for the shaft itself cut; here the joint's reach stands for it
    expect(told.textContent).toMatch(/engine .*from −/);
    expect(cell("Before it lets go")).toMatch(/too far/);
  });

  it("says which length works for the plunge wanted at each end, and takes what is missing as one step", () => {
    open(storyCorner(), "shaft");
    // 442.1 + 3 − 447 and 426.4 − 3 − 419
    expect(screen.getByText(/against the length as it is/).textContent).toMatch(
      /From −1\.[89] mm to \+4\.[345] mm keeps 3\.0 mm/,
    );
    press("Tell the bar…");
    const line = screen.getByText("Bar alone, end to end").closest<HTMLElement>(".size-row")!;
    fireEvent.click(within(line).getByRole("button"));
    fireEvent.change(screen.getByRole("textbox", { name: "Bar alone, end to end" }), { target: { value: "372" } });
    press("Keep it");
    expect(app.getState().document?.driveshaft?.bar_mm).toBe(372);
    expect(app.getState().stepName).toBe("driveshaft lengths and limits");
    tell();
    expect(screen.getByText(/a bar of/).textContent).toMatch(
      /a bar of 373\.[123] mm.*From 370\.[012] mm to 376\.[345] mm/,
    );
    act(() => app.getState().undo());
    expect(app.getState().document?.driveshaft?.bar_mm).toBeUndefined();
  });

  it("asks for the ends where they are not told, and tells how much plunge is needed", () => {
    const { shortest_mm: _short, longest_mm: _long, ...bare } = storyCorner().driveshaft!;
    open(storyCorner({ driveshaft: bare }), "shaft");
    expect(cell("Before it bottoms")).toBe("not told");
    expect(screen.getByText(/so the joint needs 21\.[5-9] mm/)).toBeTruthy();
    press("Tell the ends…");
    expect(screen.getByRole("dialog", { name: "Driveshaft" })).toBeTruthy();
  });

  it("with a single cross tells how unevenly the wheel turns", () => {
    open(withShaft({ outerJoint: "universal" }), "shaft");
    expect(screen.getByText(/the outer joint is a single cross/).textContent).toMatch(
      /varies by 1\.\d\d % at ride height/,
    );
  });

  it("shows lengths in inches where inches are shown", () => {
    open(storyCorner(), "shaft");
    act(() => app.setState({ unit: "in" }));
    // √(25² + 433² + 45²) / 25.4
    expect(cell("Length now")).toBe("17.167 in");
  });
});

describe("damper and spring", () => {
  it("tell what ends the travel each way at which height; a press takes the wheel there", () => {
    open(withDamper({ strapTight_mm: 435.4 }), "spring");
    expect(screen.getByText(/^Up: the bump stop is solid at \+56\.[4-8] bump\./)).toBeTruthy();
    expect(screen.getByText(/^Down: the droop strap is tight at −(59|60|61)\.?\d? droop\./)).toBeTruthy();
    const ladder = screen.getByRole("list", { name: /^Heights/ });
    const heights = within(ladder)
      .getAllByRole("listitem")
      .map((item) => Number(item.firstElementChild?.firstElementChild?.textContent?.replace("−", "-") ?? Number.NaN))
      .filter((height) => !Number.isNaN(height));
    expect(heights).toEqual([...heights].sort((a, b) => b - a));
    press(/the bump stop is touched/);
    expect(app.getState().travel_mm.left).toBeCloseTo(42, 0);
    // what lies beyond the checked travel is told, and leads nowhere
    expect(within(ladder).queryByRole("button", { name: /damper is at its end.*312/ })).toBeNull();
  });

  it("asks for mass and spring, and then tells static load, wheel rate, frequency and preload", () => {
    open(storyCorner(), "spring");
    expect(cell("Static load")).toBe("not told");
    press("Tell the mass…");
    expect(useLoadsForm.getState().open).toEqual({ what: "basics" });
    cleanup();
    open(
      withDamper({ springRate_N_per_mm: 40, springFree_mm: 300 }, { loads: { cornerMass_kg: 300, unsprung_kg: 40 } }),
      "spring",
    );
    // 300 · 9.80665 N; 260 kg sprung over the ratio of 1.07; R² of 40 N/mm is 45.8, the ratio's change comes on top
    expect(cell("Static load")).toMatch(/^2\.94 kN260 kg of it sprung/);
    expect(cell("Spring force")).toMatch(/^2\.3[789] kN/);
    expect(cell("Wheel rate")).toMatch(/N\/mm[+−]\d+\.\d N\/mm of it by the changing ratio/);
    expect(cell("Ride frequency")).toMatch(/^[12]\.\d\d Hz$/);
    expect(cell("Spring pressed by")).toMatch(/^59\.\d mm/);
    expect(screen.queryByText(/taken as sprung/)).toBeNull();
    act(() => app.setState({ unit: "in" }));
    expect(cell("Static load")).toMatch(/^661 lbf573 lb of it sprung/);
    expect(cell("Wheel rate")).toMatch(/lbf\/in/);
  });

  it("shows the caution about springs", () => {
    open(storyCorner(), "spring");
    expect(screen.getByText("Springs store energy.")).toBeTruthy();
  });
});
