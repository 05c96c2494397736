import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { partInHand } from "../../../src/app/parts/handles.ts";
import { forgetDraft } from "../../../src/app/parts/partDraft.ts";
import { usePartsLook } from "../../../src/app/parts/partsStore.ts";
import { Shelf } from "../../../src/app/parts/Shelf.tsx";
import { PointsSheet } from "../../../src/app/points/PointsSheet.tsx";
import { usePointsLook } from "../../../src/app/points/pointsStore.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { withTwoParts } from "../../scene/parts/document.ts";
import { openCorner } from "../points/scene.ts";

beforeEach(() => {
  openCorner(withTwoParts());
  usePointsLook.setState({ list: "parts" });
  usePartsLook.setState({ search: "", shelfOpen: false, asks: null, powertrainOpen: false });
  forgetDraft();
  render(
    <>
      <PointsSheet />
      <Shelf />
    </>,
  );
});
afterEach(cleanup);

const button = (name: string | RegExp) => screen.getByRole("button", { name }) as HTMLButtonElement;
const field = (name: string) => screen.getByRole("textbox", { name }) as HTMLInputElement;
const press = (name: string | RegExp) => fireEvent.click(button(name));
const type = (name: string, text: string) => fireEvent.change(field(name), { target: { value: text } });
const hold = (id: string) => act(() => app.getState().hold(id));
const kept = () => app.getState().document!;
const step = () => app.getState().stepName;

describe("the list of parts", () => {
  it("groups parts by what they ride on", () => {
    const group = (name: string) => within(screen.getByRole("region", { name }));
    expect(group("Chassis").getByText("Clevis")).toBeTruthy();
    expect(group("Powertrain").getByText("Gearbox mount ear")).toBeTruthy();
    expect(group("Arms").getByText("Damper")).toBeTruthy();
    expect(group("Hub side").getByText("Wheel")).toBeTruthy();
  });

  it("finds parts by name, recipe and role, and says when none fits", () => {
    const search = screen.getByRole("searchbox", { name: "Search parts" });
    fireEvent.change(search, { target: { value: "cross tube" } });
    expect(screen.getByText("Tube")).toBeTruthy();
    expect(screen.queryByText("Clevis")).toBeNull();
    fireEvent.change(search, { target: { value: "anvil" } });
    expect(screen.getByText(/None of 9 parts reads like “anvil”/)).toBeTruthy();
  });

  it("goes from the search to the rows by the arrow keys, and takes one in hand", () => {
    const search = screen.getByRole("searchbox", { name: "Search parts" });
    search.focus();
    fireEvent.keyDown(search, { key: "ArrowDown" });
    expect(document.activeElement?.textContent).toMatch(/^Rail/);
    fireEvent.keyDown(document.activeElement!, { key: "ArrowDown" });
    fireEvent.click(document.activeElement!);
    expect(app.getState().heldPart).toBe("clevis");
    expect(screen.getByRole("heading", { name: "Clevis" })).toBeTruthy();
  });
});

describe("the sheet of a part", () => {
  it("tries sizes as they are typed, and keeps them as one named step", () => {
    hold("clevis");
    const before = kept();
    type("Pin to base", "70");
    expect(kept()).toBe(before);
    expect(app.getState().triedEdit!.document.bodies.at(-2)!.made!.reach_mm).toBe(70);
    expect(screen.getByText("not kept yet")).toBeTruthy();
    press("Keep this");
    expect(kept().bodies.at(-2)!.made!.reach_mm).toBe(70);
    expect(step()).toBe("clevis: pin to base 70.0");
    act(() => app.getState().undo());
    expect(kept()).toBe(before);
    expect(field("Pin to base").value).toBe("45.0");
  });

  it("takes fractions of an inch and shows both units", () => {
    hold("clevis");
    type("Pin to base", '2 1/4"');
    expect(app.getState().triedEdit!.document.bodies.at(-2)!.made!.reach_mm).toBeCloseTo(57.15, 9);
    act(() => app.getState().setUnit("in"));
    expect(field("Pin to base").value).toBe("2.250");
    expect(screen.getByText("about 2 1/4 in · 57.1 mm")).toBeTruthy();
  });

  it("tells beside the field what cannot be, and keeps nothing", () => {
    hold("clevis");
    type("Pin hole", "60");
    expect(within(field("Pin hole").parentElement!).getByRole("alert").textContent).toMatch(
      /leaves nothing of the lug/,
    );
    expect(button("Keep this").disabled).toBe(true);
    type("Pin hole", "14");
    expect(button("Keep this").disabled).toBe(false);
    press(/^Put it back/);
    expect(field("Pin hole").value).toBe("12.0");
    expect(app.getState().triedEdit).toBeNull();
  });

  it("moves it by steps, set off from a mount that others use", () => {
    hold("clevis");
    press("Up 5 mm");
    press("Up 1 mm");
    press("Keep this");
    expect(kept().bodies.at(-2)!.made!.at).toEqual({ from: "toe.in", by: [0, 0, 6] });
    expect(step()).toBe("clevis moved");
  });

  it("puts it on both sides, or one, and on the other", () => {
    hold("tube");
    press("Both sides");
    expect(kept().bodies.at(-1)!.mirror).toBe(true);
    expect(step()).toBe("tube on both sides");
    press("To the other side");
    expect(kept().bodies.at(-1)!.made!.a).toEqual([-300, -280, 300]);
  });

  it("renames it with its rules, and refuses a name that is taken", async () => {
    hold("clevis");
    act(() => usePartsLook.setState({ asks: "rename" }));
    type("Name", "tube");
    press("Rename");
    expect(screen.getByRole("alert").textContent).toMatch(/taken already/);
    type("Name", "toe ear");
    press("Rename");
    expect(kept().clearances.rules![0]!.a).toBe("toe ear");
    expect(app.getState().heldPart).toBe("toe ear");
    expect(screen.getByRole("heading", { name: "Toe ear" })).toBeTruthy();
  });

  it("tells which gap a role wants, and that no rule names it", () => {
    hold("clevis");
    act(() => usePartsLook.setState({ asks: "rename" }));
    const role = "Role, which clearance rules may name (exhaust, frame)";
    type(role, "frame");
    expect(screen.getByText("Wants 12 mm to other parts, by the rule for this role.")).toBeTruthy();
    type(role, "frme");
    expect(screen.getByText(/^No rule names this role: .*Rules name frame\.$/)).toBeTruthy();
  });

  it("says what goes with a part before it is deleted", () => {
    hold("tube");
    act(() => usePartsLook.setState({ asks: "delete" }));
    expect(screen.getByText(/hard points that nothing else uses: tube.a, tube.b/)).toBeTruthy();
    press("Delete");
    expect(kept().points).not.toHaveProperty("tube.a");
    expect(partInHand(kept(), "tube")).toBeNull();
  });

  it("refuses to delete what holds the hub, with the reason", () => {
    hold("toe");
    act(() => usePartsLook.setState({ asks: "delete" }));
    press("Delete");
    expect(screen.getByRole("alert").textContent).toMatch(/hold the hub with 4 constraints/);
  });

  it("copies it with points of its own", () => {
    hold("tube");
    act(() => usePartsLook.setState({ asks: "copy" }));
    press("Copy");
    expect(kept().points["tube-2.a"]).toEqual([-250, 280, 300]);
    expect(app.getState().heldPart).toBe("tube-2");
  });

  it("sets the damper's and the wheel's own sizes", () => {
    hold("damper-lower");
    type("Body diameter", "46");
    press("Keep this");
    expect(kept().damper!.body_mm).toBe(46);
    hold("tyre");
    type("Tyre size", "wide");
    expect(screen.getByRole("alert").textContent).toMatch(/Wanted/);
    type("Tyre size", "225/45R17");
    press("Keep this");
    expect(kept().wheel.tyre).toBe("225/45R17");
  });
});

describe("the shelf", () => {
  it("adds a part on a new hard point, takes it in hand, and undoes it whole", () => {
    const before = kept();
    press("Add a part");
    press(/^Frame rail/);
    type("Name", "left rail");
    press("Add it");
    expect(kept().bodies.at(-1)).toMatchObject({ id: "left rail", made: { as: "frame rail", a: "left rail.a" } });
    expect(kept().points["left rail.a"]).toEqual([-450, 300, 560]);
    expect(step()).toBe("add left rail");
    expect(screen.getByRole("heading", { name: "Left rail" })).toBeTruthy();
    act(() => app.getState().undo());
    expect(kept()).toBe(before);
  });

  it("finds what is searched and takes units that are there in hand", () => {
    press("Add a part");
    fireEvent.change(screen.getByRole("searchbox", { name: "Search the shelf" }), { target: { value: "damper" } });
    expect(screen.queryByRole("button", { name: /^Clevis/ })).toBeNull();
    press(/^Damper with spring/);
    expect(app.getState().heldPart).toBe("damper-lower");
  });

  it("adds a driveshaft with its joints and boots in one step", () => {
    press("Add a part");
    press(/^Driveshaft with joints and boots/);
    expect(
      kept()
        .bodies.slice(-4)
        .map(({ on }) => on),
    ).toEqual(["powertrain", "carrier", "driveshaft", "driveshaft"]);
    expect(step()).toBe("add driveshaft");
  });
});

describe("the powertrain as one", () => {
  it("is moved and tilted by steps and goes back to as drawn", () => {
    press(/^Move and tilt as one/);
    press("Up 5 mm");
    press("Tilt, nose down: 0.5 more");
    press("Keep this");
    expect(kept().powertrain!.place).toMatchObject({
      shift_mm: [0, 0, 5],
      turn_deg: [0, 0.5, 0],
      about: [150, 0, 400],
    });
    expect(step()).toBe("powertrain up 5.0 mm, tilt, nose down 0.5°");
    press("Back to as drawn");
    press("Keep this");
    expect(kept().powertrain!.place).toBeUndefined();
  });
});
