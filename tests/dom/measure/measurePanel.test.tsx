import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { useStage } from "../../../src/app/corner/useStage.ts";
import { MeasurePanel } from "../../../src/app/measure/MeasurePanel.tsx";
import { addPick, chooseKind, useMeasuring } from "../../../src/app/measure/measuring.ts";
import { useMeasureView } from "../../../src/app/measure/useMeasureView.ts";
import { blankState } from "../../../src/app/store/blank.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { useTools } from "../../../src/app/tools/toolsStore.ts";
import { assembleModel } from "../../../src/check/assemble.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { smallScene } from "../../app/smallScene.ts";

function Panel() {
  return <MeasurePanel view={useMeasureView(useStage())} />;
}
const pick = (name: string) => act(() => addPick({ what: "spot", spot: { point: name } }));

beforeEach(() => {
  const document = smallScene();
  const scene = resolveScene(document);
  app.setState({ ...blankState(), document, scene, bodies: assembleModel(scene) });
  useTools.setState({ open: "measure" });
  chooseKind("distance");
});
afterEach(cleanup);

describe("the measures' panel", () => {
  it("asks for one place after the other and pins the distance as a step that can be undone", () => {
    render(<Panel />);
    expect(screen.getByRole("status").textContent).toBe("Point at the first place.");
    pick("toe.in");
    expect(screen.getByRole("status").textContent).toBe("Point at the second place.");
    expect(screen.getByText("Toe link, inboard end")).toBeTruthy();
    pick("toe.in");
    expect(screen.getByRole("status").textContent).toContain("That is the same place again.");
    pick("toe.out");
    const list = screen.getByRole("list", { name: "Pinned measures" });
    // √(340² + 5²)
    expect(within(list).getByText("340.0 mm")).toBeTruthy();
    expect(within(list).getByText("0.0 forward, 340.0 out, 5.0 up")).toBeTruthy();
    expect(app.getState().stepName).toBe("pin a distance");
    act(() => app.setState({ unit: "in" }));
    expect(screen.getByText("13.387 in")).toBeTruthy();
    act(() => app.getState().undo());
    expect(screen.getByText("Nothing is pinned yet.")).toBeTruthy();
  });

  it("hides, shows and deletes by steps of their own", () => {
    render(<Panel />);
    pick("toe.in");
    pick("toe.out");
    fireEvent.click(screen.getByRole("button", { name: "Hide measure 1" }));
    expect(app.getState().document?.measures?.[0]?.hidden).toBe(true);
    fireEvent.click(screen.getByRole("button", { name: "Show measure 1" }));
    expect(app.getState().document?.measures?.[0]?.hidden).toBeUndefined();
    fireEvent.click(screen.getByRole("button", { name: "Delete measure 1" }));
    expect(app.getState().document?.measures).toBeUndefined();
    expect(app.getState().stepName).toBe("delete measure 1");
  });

  it("takes a place back, and forgets what was picked when another kind is chosen", () => {
    render(<Panel />);
    fireEvent.click(screen.getByRole("button", { name: "angle" }));
    pick("toe.in");
    pick("toe.out");
    expect(useMeasuring.getState().picks).toHaveLength(2);
    fireEvent.click(screen.getByRole("button", { name: "Take back the last place" }));
    expect(useMeasuring.getState().picks).toHaveLength(1);
    fireEvent.click(screen.getByRole("button", { name: "gap" }));
    expect(useMeasuring.getState().picks).toHaveLength(0);
    expect(screen.getByText(/counts the whole surface of both parts/)).toBeTruthy();
  });
});
