import { act, cleanup, render, screen } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { PrintRoom } from "../../../src/app/card/PrintRoom.tsx";
import { usePrinting } from "../../../src/app/card/printing.ts";
import { CAUTION } from "../../../src/buildlog/entry.ts";
import { card, pair, result } from "../../buildlog/fixture.ts";

beforeEach(() => {
  usePrinting.setState({ paper: "a4", job: null });
  vi.stubGlobal("print", vi.fn());
});
afterEach(() => {
  vi.restoreAllMocks();
  cleanup();
  vi.unstubAllGlobals();
});

function print(...cards: Parameters<typeof card>) {
  render(<PrintRoom />);
  act(() =>
    usePrinting.getState().print({ cards: cards.length ? cards.map((over) => card(over)) : [card()], unit: "mm" }),
  );
  return document.querySelector(".paper")!;
}

describe("a printed card", () => {
  it("has the head, the verdicts, the points, the wheel, the note and the stages", () => {
    const paper = print();
    for (const text of [
      "Donor mounts in",
      "6.2 too deep at +38",
      "Upper link, inboard end upper.in",
      "Wheel at +38",
      "Tacked",
      "Measured",
      "Welded",
    ]) {
      expect(paper.textContent).toContain(text);
    }
    expect(paper.textContent).toContain("Don’t weld the inboard brackets yet.");
  });

  it("leaves a blank box for every measurement on the car", () => {
    const paper = print();
    // three open verdicts and two points in question
    expect(paper.querySelectorAll(".blank-box")).toHaveLength(5);
  });

  it("carries file, check, page and caution on every sheet", () => {
    const many = Array.from({ length: 40 }, (_, k) => pair({ b: `part-${k}` }));
    const paper = print({ result: result({ pairs: many }) });
    const sheets = [...paper.querySelectorAll(".sheet")];
    expect(sheets.length).toBeGreaterThan(1);
    for (const [index, sheet] of sheets.entries()) {
      expect(sheet.textContent).toContain(CAUTION);
      expect(sheet.textContent).toMatch(/wren-rear\.json, check [0-9a-f]{8}/);
      expect(sheet.textContent).toContain(`page ${index + 1} of ${sheets.length}`);
    }
    expect(paper.textContent).toContain("part 39 (left)");
  });

  it("is set for the chosen paper", () => {
    // this page without layout reads no page boxes: what was put into each sheet of style is kept beside it
    const texts = new Map<CSSStyleSheet, string>();
    vi.spyOn(CSSStyleSheet.prototype, "replaceSync").mockImplementation(function (this: CSSStyleSheet, text) {
      texts.set(this, text);
    });
    const pageRules = () => document.adoptedStyleSheets.map((sheet) => texts.get(sheet));
    print();
    expect(pageRules().join()).toContain("size: A4 portrait");
    act(() => usePrinting.getState().choosePaper("letter"));
    expect(pageRules().join()).toContain("size: letter portrait");
    expect(pageRules()).toHaveLength(1);
  });

  it("goes to the printer once drawn and leaves the page afterwards", async () => {
    print();
    await vi.waitFor(() => expect(window.print).toHaveBeenCalledOnce());
    act(() => void window.dispatchEvent(new Event("afterprint")));
    expect(document.querySelector(".paper")).toBeNull();
    expect(screen.queryByText("Tacked")).toBeNull();
  });
});
