import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
// pictures come for it later: here it is loaded before the page is gone
import "../../src/app/parts/drawPart.ts";
import { PiecesDialog } from "../../src/app/pieces/PiecesDialog.tsx";
import { closePieces, openNewPieces, openPiecesOf } from "../../src/app/pieces/piecesStore.ts";
import { app } from "../../src/app/store/useApp.ts";
import { openCorner } from "./points/scene.ts";

const kept = () => app.getState().document!;
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole("button", { name }));
const type = (name: string | RegExp, text: string) =>
  fireEvent.change(screen.getByRole("textbox", { name }), { target: { value: text } });

beforeEach(() => {
  openCorner();
  render(<PiecesDialog />);
});
afterEach(() => {
  closePieces();
  cleanup();
});

describe("a part from pieces", () => {
  it("is typed piece by piece, hung on hard points, and added as one step", () => {
    const before = kept();
    act(openNewPieces);
    type("Name", "peg");
    type(/^Role/, "bracket");
    press("+ Cylinder");
    type("From", "upper.in");
    type("To", "upper.in: 0; 0; -40");
    type("Diameter", '3/4"');
    press("+ Cast lump");
    type(/^Balls/, "0; 300; 400; 30\n0\t320\t400\t20");
    press("Keep the part");
    expect(kept().bodies.at(-1)).toEqual({
      id: "peg",
      on: "chassis",
      role: "bracket",
      shape: {
        kind: "group",
        parts: [
          { kind: "cylinder", from: "upper.in", to: { from: "upper.in", by: [0, 0, -40] }, diameter_mm: 19.05 },
          {
            kind: "hull",
            spheres: [
              { at: [0, 300, 400], diameter_mm: 30 },
              { at: [0, 320, 400], diameter_mm: 20 },
            ],
          },
        ],
      },
    });
    expect(app.getState().stepName).toBe("add peg");
    act(() => app.getState().undo());
    expect(kept()).toBe(before);
  });

  it("marks what is missing or wrong, and keeps nothing", () => {
    const before = kept();
    act(openNewPieces);
    press("+ Box");
    type("Size", "10; 20");
    expect(screen.getByRole("alert").textContent).toMatch(/3 lengths/);
    press("Keep the part");
    expect(screen.getAllByRole("alert").map(({ textContent }) => textContent)).toContain("Middle is wanted.");
    expect(kept()).toBe(before);
  });

  it("draws a part of the scene anew from what it is", () => {
    act(() => openPiecesOf("upper-bracket"));
    const form = within(screen.getByRole("region", { name: "1 Box" }));
    expect((form.getByRole("textbox", { name: "Middle" }) as HTMLInputElement).value).toBe("upper.in: 0; 0; -20");
    type("Size", "12; 10; 10");
    press("Keep the part");
    expect(kept().bodies[0]!.shape).toMatchObject({ kind: "box", size_mm: [12, 10, 10] });
  });
});
