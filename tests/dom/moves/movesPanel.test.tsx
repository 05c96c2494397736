// Numbers of the clash are those of the project's acceptance stories, worked out apart from this program.
import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, describe, expect, it } from "vitest";
import { MovesPanel } from "../../../src/app/moves/MovesPanel.tsx";
import { clearPair, type MovesQuestion, movesStudy, useMovesLook } from "../../../src/app/moves/movesStore.ts";
import { blankState } from "../../../src/app/store/blank.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { useStudies } from "../../../src/app/studies/studiesStore.ts";
import { useTools } from "../../../src/app/tools/toolsStore.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { findMoves, type Move, type MovesResult, type PricedAlteration } from "../../../src/studies/moves/moves.ts";
import type { OnStudyProgress } from "../../../src/work/protocol.ts";
import { studyCorner } from "../../studies/studyCorner.ts";

const corner = studyCorner();
const document = {
  ...corner,
  tessellation_mm: 0.5,
  clearances: { default_mm: 0, rules: [{ a: "sump-rail", b: "upper", mm: 10 }] },
};

const found: MovesResult = findMoves({
  document,
  meshFiles: new Map(),
  pair: null,
  points: ["upper.in"],
  fits: ["cut"],
  within_mm: 20,
  limits: {},
  travelStep_mm: 20,
  proved: 1,
});

let asked: MovesQuestion[] = [];
let tell: OnStudyProgress = () => {};
let answer: (result: MovesResult) => void = () => {};
let end: () => void = () => {};

function open() {
  asked = [];
  app.setState({ ...blankState(), document, scene: resolveScene(document), fileName: "story" });
  useMovesLook.setState({ pair: null, points: null, fit: "either", within_mm: 25, limits: {} });
  end = movesStudy.serve(app, (question, _files, onProgress) => {
    asked.push(question);
    tell = onProgress;
    const done = new Promise<MovesResult>((resolve) => {
      answer = resolve;
    });
    return { done, stop() {} };
  });
  render(<MovesPanel />);
}

const press = (name: string | RegExp) => fireEvent.click(screen.getByRole("button", { name }));
const answered = (result: MovesResult) =>
  act(async () => {
    answer(result);
    await Promise.resolve();
  });

afterEach(() => {
  cleanup();
  end();
  movesStudy.use.setState({ running: null, told: null, trouble: null });
  useTools.setState({ open: null });
});

describe("what clears it", () => {
  it("is asked for one pair from its verdict, with all mounts and both ways of making parts", () => {
    open();
    act(() => clearPair("sump-rail/upper"));
    expect(useTools.getState().open).toBe("studies");
    expect(useStudies.getState().study).toBe("moves");
    expect(asked[0]).toMatchObject({ pair: "sump-rail/upper", points: [], fits: ["cut", "bolted"], within_mm: 25 });
  });

  it("tells how far it is, can be stopped, and is asked again", () => {
    open();
    press("Find the smallest moves");
    act(() => tell({ done: 3, total: 6 }));
    expect(screen.getByText("3 of 6")).toBeTruthy();
    expect(screen.getByRole("progressbar", { name: "How far the study is" }).getAttribute("value")).toBe("3");
    press("Stop");
    expect(screen.getByText("Stopped.")).toBeTruthy();
    press("Find the smallest moves");
    expect(asked).toHaveLength(2);
  });

  it("lists the smallest first with what each costs, and tries one in the view as a move that can be kept and undone", async () => {
    open();
    press("Find the smallest moves");
    await answered(found);
    const rows = screen.getAllByRole("listitem").filter((item) => item.className === "move-found");
    expect(rows.length).toBe(found.moves.length + found.thinner.length);
    const first = rows[0]!;
    expect(within(first).getByText("Toe")).toBeTruthy();
    expect(within(first).getByText("Everything clears.")).toBeTruthy();
    fireEvent.click(within(first).getByRole("button", { name: "Try it" }));
    const { tried } = app.getState();
    const [x, y, z] = document.points["upper.in"] as [number, number, number];
    const by = found.moves[0]!.moves[0]!.by;
    expect(tried).toMatchObject({ point: "upper.in", meaning: "cut" });
    [x, y, z].forEach((value, k) => {
      expect(Math.abs(tried!.to[k]! - value - by[k]!)).toBeLessThanOrEqual(0.01 + 1e-9);
    });
    expect(within(first).getByText("not kept yet")).toBeTruthy();
    fireEvent.click(within(first).getByRole("button", { name: "Keep it" }));
    expect(app.getState().stepName).toMatch(/^upper link, inboard end .*/);
    expect(screen.getByText("From before your change.")).toBeTruthy();
    expect(screen.getAllByRole("button", { name: "Try it" }).every((button) => button.matches(":disabled"))).toBe(true);
    act(() => app.getState().undo());
    expect(app.getState().document).toBe(document);
    expect(screen.queryByText("From before your change.")).toBeNull();
  });

  it("tries two moves together as one edit", async () => {
    const both: Move = {
      kind: "together",
      fit: "cut",
      moves: [
        { point: "upper.in", by: [0, 4, 0] },
        { point: "upper.out", by: [0, 0, -3] },
      ],
      way_mm: 5,
      price: null,
    };
    open();
    press("Find the smallest moves");
    await answered({ ...found, moves: [both], thinner: [] });
    expect(screen.getByText("Not checked in full yet: try it and the check tells.")).toBeTruthy();
    press("Try it");
    expect(app.getState().triedEdit?.document.points["upper.in"]).toEqual([-20, 414, 425]);
    expect(app.getState().triedEdit?.document.points["upper.out"]).toEqual([-20, 650, 427]);
    press("Keep it");
    expect(app.getState().stepName).toBe("upper link, inboard end 4 outboard and upper link, outboard end 3 down");
  });

  it("lists parts made otherwise and the powertrain elsewhere among the moves by size, each tried and kept as one edit", async () => {
    const shifted: PricedAlteration = {
      alteration: { kind: "shifted", by: [0, -12, 3.5], fit: "bolted" },
      fit: "bolted",
      way_mm: 12.5,
      price: null,
    };
    const thinner: PricedAlteration = {
      alteration: { kind: "thinner", member: "upper", diameter_mm: 22.08, was_mm: 30 },
      fit: "cut",
      way_mm: 3.96,
      price: null,
    };
    const nosed: PricedAlteration = {
      alteration: { kind: "turned", turn: "tilt", by_deg: -1.5, about: [150, 0, 400], fit: "bolted" },
      fit: "bolted",
      way_mm: 20,
      price: null,
    };
    open();
    press("Find the smallest moves");
    await answered({ ...found, moves: [], alterations: [nosed, shifted, thinner], thinner: [] });
    const rows = screen.getAllByRole("listitem").filter((item) => item.className === "move-found");
    expect(rows.map((row) => row.querySelector(".move-words")!.textContent)).toEqual([
      "Upper link no thicker than 22.0 mm, 30.0 mm now",
      "Powertrain 12.0 to the right, 3.5 up",
      "Powertrain turned: 1.50°, nose up",
    ]);
    fireEvent.click(within(rows[0]!).getByRole("button", { name: "Try it" }));
    expect(app.getState().triedEdit?.document.members.find(({ id }) => id === "upper")).toMatchObject({
      diameter_mm: 22,
    });
    expect(within(rows[0]!).getByText("not kept yet")).toBeTruthy();
    fireEvent.click(within(rows[1]!).getByRole("button", { name: "Try it" }));
    expect(within(rows[0]!).queryByText("not kept yet")).toBeNull();
    expect(app.getState().triedEdit?.document.powertrain?.place?.shift_mm).toEqual([0, -12, 3.5]);
    fireEvent.click(within(rows[1]!).getByRole("button", { name: "Keep it" }));
    expect(app.getState().stepName).toBe("powertrain 12.0 to the right, 3.5 up");
  });

  it("asks for what the builder narrows down: how, which points, how far, what must hold", () => {
    open();
    press("bolted up");
    fireEvent.click(screen.getByText("Which points, how far, what must hold"));
    fireEvent.click(screen.getByRole("checkbox", { name: "Lower link, inboard end" }));
    fireEvent.click(screen.getByRole("checkbox", { name: "Toe changes little through the travel" }));
    press("Find the smallest moves");
    expect(asked[0]).toMatchObject({
      fits: ["bolted"],
      points: ["arm.front", "upper.in"],
      limits: { toeChange_deg: 0.5 },
    });
  });

  it("says so where nothing clears it within the reach", async () => {
    open();
    press("Find the smallest moves");
    await answered({ ...found, moves: [], thinner: [] });
    expect(screen.getByText(/clears it within 25 mm/)).toBeTruthy();
  });
});
