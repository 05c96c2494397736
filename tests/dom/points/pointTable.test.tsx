import { cleanup, fireEvent, render, screen } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { PointTable } from "../../../src/app/points/PointTable.tsx";
import { withDetails } from "../../../src/app/points/withDetails.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { validateDocument } from "../../../src/scene/read.ts";
import { corner, openCorner } from "./scene.ts";

beforeEach(() => openCorner());
afterEach(cleanup);

const cell = (name: string) => screen.getByRole("textbox", { name }) as HTMLInputElement;
const type = (name: string, text: string) => fireEvent.change(cell(name), { target: { value: text } });

describe("the table of all points", () => {
  it("tries a number that is changed in place, and keeps it by Enter", () => {
    render(<PointTable />);
    type("upper.in, up", "17 1/2in");
    expect(app.getState().tried?.to[2]).toBeCloseTo(17.5 * 25.4, 9);
    expect(app.getState().heldPoint).toBe("upper.in");
    fireEvent.keyDown(cell("upper.in, up"), { key: "Enter" });
    expect(app.getState().document!.points["upper.in"]).toEqual([150, 392, 444.5]);
    expect(cell("upper.in, up").value).toBe("444.5");
  });

  it("puts it back by Escape", () => {
    render(<PointTable />);
    type("upper.in, up", "500");
    fireEvent.keyDown(cell("upper.in, up"), { key: "Escape" });
    expect(app.getState().tried).toBeNull();
    expect(cell("upper.in, up").value).toBe("440.0");
  });

  it("keeps nothing while a cell holds nonsense", () => {
    render(<PointTable />);
    type("upper.in, forward", "138");
    type("upper.in, up", "nine");
    expect(cell("upper.in, up").value).toBe("nine");
    fireEvent.keyDown(cell("upper.in, forward"), { key: "Enter" });
    expect(app.getState().document!.points["upper.in"]).toEqual([150, 392, 440]);
    fireEvent.keyDown(cell("upper.in, up"), { key: "Escape" });
    expect(cell("upper.in, forward").value).toBe("150.0");
  });

  it("holds other points still while one is tried", () => {
    render(<PointTable />);
    type("upper.in, up", "500");
    expect(cell("lower.in, up").disabled).toBe(true);
  });

  it("goes from row to row with the arrows, in the same column", () => {
    render(<PointTable />);
    cell("upper.in, out").focus();
    fireEvent.keyDown(cell("upper.in, out"), { key: "ArrowDown" });
    expect(document.activeElement).toBe(cell("upper.out, out"));
    fireEvent.keyDown(cell("upper.out, out"), { key: "ArrowUp" });
    expect(document.activeElement).toBe(cell("upper.in, out"));
  });

  it("keeps how a point was measured, beside a move that stays tried", () => {
    render(<PointTable />);
    type("upper.in, up", "500");
    type("upper.in, how measured", "plumb bob");
    fireEvent.blur(cell("upper.in, how measured"));
    expect(app.getState().document!.points["upper.in"]).toEqual({ at: [150, 392, 440], how: "plumb bob" });
    expect(app.getState().tried?.to).toEqual([150, 392, 500]);
  });

  it("takes a tolerance in either unit and refuses one below nothing", () => {
    render(<PointTable />);
    type("upper.in, tolerance", "-1");
    fireEvent.blur(cell("upper.in, tolerance"));
    expect(cell("upper.in, tolerance").getAttribute("aria-invalid")).toBe("true");
    type("upper.in, tolerance", "1/16in");
    fireEvent.blur(cell("upper.in, tolerance"));
    expect(app.getState().document!.points["upper.in"]).toMatchObject({ tolerance_mm: 25.4 / 16 });
  });
});

describe("withDetails", () => {
  it("gives a document that still reads, and takes details away without a trace", () => {
    const noted = withDetails(corner(), "upper.in", { tolerance_mm: 2, how: " tape " });
    expect(validateDocument(noted, "").points["upper.in"]).toEqual({
      at: [150, 392, 440],
      tolerance_mm: 2,
      how: "tape",
    });
    expect(withDetails(noted, "upper.in", { tolerance_mm: null, how: "" })).toEqual(corner());
  });
});
