import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { CarDialogs } from "../../src/app/car/CarDialogs.tsx";
import { closeCar, openCar } from "../../src/app/car/carStore.ts";
import { app } from "../../src/app/store/useApp.ts";
import { openCorner } from "./points/scene.ts";

const kept = () => app.getState().document!;
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole("button", { name }));
const button = (name: string | RegExp) => screen.getByRole("button", { name }) as HTMLButtonElement;
const row = (name: string) => within(screen.getByRole("group", { name }));
const type = (label: string | RegExp, text: string) =>
  fireEvent.change(screen.getByRole("textbox", { name: label }), { target: { value: text } });

beforeEach(() => {
  openCorner();
  render(<CarDialogs />);
});
afterEach(() => {
  closeCar();
  cleanup();
});

describe("what holds the hub", () => {
  it("is swapped all at once: kept only while five constraints hold it", () => {
    act(() => openCar("members"));
    fireEvent.click(row("upper").getByRole("button", { name: "Take it out" }));
    expect(screen.getByRole("status").textContent).toBe("The hub is held by 4 of 5: 1 more is wanted.");
    expect(button("Keep it").disabled).toBe(true);
    press("+ Link");
    expect(screen.getByRole("status").textContent).toBe("The hub is held: 5 of 5.");
    press("Keep it");
    expect(kept().members.map(({ id }) => id)).toContain("link");
    expect(kept().points).toHaveProperty("link.in");
    expect(app.getState().stepName).toBe("members");
  });
});

describe("a new hard point", () => {
  it("is put down by numbers from where the builder measures", () => {
    act(() => openCar("point"));
    type("Name", "stud.1");
    type(/^Forward/, "23 5/8in");
    type(/^Out/, "300");
    type(/^Up/, "=upper.in + 10");
    press("Keep it");
    const [, , up] = kept().points["upper.in"] as readonly number[];
    const at = kept().points["stud.1"] as readonly number[];
    expect(at[0]).toBeCloseTo(600.075, 9);
    expect(at.slice(1)).toEqual([300, up! + 10]);
    expect(app.getState().heldPoint).toBe("stud.1");
  });

  it("tells a name that is taken", () => {
    act(() => openCar("point"));
    type("Name", "upper.in");
    press("Keep it");
    expect(screen.getByRole("alert").textContent).toMatch(/already/);
  });
});

describe("travel, gaps, engine rock and datums", () => {
  it("each is one named step, undone whole", () => {
    const before = kept();
    act(() => openCar("travel"));
    type("Bump", "55");
    press("Keep it");
    expect(kept().travel.bump_mm).toBe(55);
    act(() => openCar("gaps"));
    press("Add a rule");
    type("Parts that share a joint may meet within", "50");
    press("Keep it");
    expect(kept().clearances).toMatchObject({ jointRadius_mm: 50 });
    expect(kept().clearances.rules!.at(-1)).toEqual({ a: "tyre", b: "*", mm: 15 });
    act(() => openCar("datums"));
    press("Add a datum");
    press("Keep it");
    expect(kept().datums).toHaveLength(2);
    act(() => app.getState().undo(3));
    expect(kept()).toBe(before);
  });

  it("a motion of the powertrain takes its line, its angle and the travel it is credible in", () => {
    act(() => openCar("rock"));
    const poses = kept().powertrain?.poses?.length ?? 0;
    press("Add a motion");
    press("Keep it");
    expect(kept().powertrain!.poses).toHaveLength(poses + 1);
    expect(kept().powertrain!.poses!.at(-1)).toMatchObject({ axis: [0, 1, 0] });
  });
});

describe("tyre growth and give", () => {
  it("are kept as one step, and taken out again", () => {
    act(() => openCar("allow"));
    fireEvent.click(screen.getByRole("checkbox", { name: "The tread stands farther out at speed by" }));
    press("Add what gives");
    fireEvent.change(row("Give 1").getByRole("textbox", { name: "may be pushed off by" }), {
      target: { value: "1.5" },
    });
    press("Keep it");
    expect(kept().allowances).toEqual({ tyreGrowth_mm: 3, give: [{ on: "powertrain", mm: 1.5 }] });
    expect(app.getState().stepName).toBe("tyre growth and give");
    act(() => openCar("allow"));
    fireEvent.click(screen.getByRole("checkbox", { name: "The tread stands farther out at speed by" }));
    fireEvent.click(row("Give 1").getByRole("button", { name: "Take it out" }));
    press("Keep it");
    expect(kept()).not.toHaveProperty("allowances");
  });
});
