import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { KeysDialog } from "../../src/app/shell/KeysDialog.tsx";
import { useKeys } from "../../src/app/shell/useKeys.ts";
import { blankState } from "../../src/app/store/blank.ts";
import { pairKey } from "../../src/app/store/state.ts";
import { app } from "../../src/app/store/useApp.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { checkResult, pairVerdict, smallScene } from "../app/smallScene.ts";

function Page() {
  useKeys();
  return (
    <>
      <input aria-label="field" />
      <KeysDialog />
    </>
  );
}

const first = pairVerdict();
const second = pairVerdict({ a: "rail", clearance_mm: -2, at: { travel_mm: -20, pose: "rest" } });

beforeEach(() => {
  const result = checkResult([first, second]);
  app.setState({ ...blankState(), document: smallScene(), scene: resolveScene(smallScene()), result });
  render(<Page />);
});
afterEach(cleanup);

const press = (key: string, more: KeyboardEventInit = {}) => fireEvent.keyDown(document.body, { key, ...more });

describe("keys", () => {
  it("travel, ride height and engine poses", () => {
    press("ArrowUp");
    press("ArrowUp", { shiftKey: true });
    expect(app.getState().travel_mm).toEqual({ left: 11, right: 11 });
    press("Home");
    expect(app.getState().travel_mm.left).toBe(0);
    press(".");
    expect(app.getState().pose).toBe("pulling");
    press(",");
    expect(app.getState().pose).toBe("rest");
  });

  it("brackets walk through what clashes, round and round", () => {
    press("]");
    expect(app.getState().chosenPair).toBe(pairKey(first));
    press("]");
    expect(app.getState().chosenPair).toBe(pairKey(second));
    press("]");
    expect(app.getState().chosenPair).toBe(pairKey(first));
    press("[");
    expect(app.getState().chosenPair).toBe(pairKey(second));
  });

  it("stands, glass and the job card", () => {
    press("4");
    expect(app.getState().stand).toBe("above");
    app.getState().hold("upper");
    press("g");
    expect(app.getState().glassParts).toEqual(["upper"]);
    press("S", { shiftKey: true });
    expect(app.getState().cardOpen).toBe(true);
  });

  it("undo and redo by Ctrl and Cmd", () => {
    app.getState().edit("title", smallScene({ title: "New" }));
    press("z", { ctrlKey: true });
    expect(app.getState().document!.title).toBe("Small corner");
    press("Z", { metaKey: true, shiftKey: true });
    expect(app.getState().document!.title).toBe("New");
  });

  it("escape puts a tried move back before it lets a pair go", () => {
    press("]");
    app.getState().tryMove({ point: "upper.out", to: [0, 660, 440], meaning: "cut" });
    press("Escape");
    expect(app.getState().tried).toBeNull();
    expect(app.getState().chosenPair).not.toBeNull();
    press("Escape");
    expect(app.getState().chosenPair).toBeNull();
  });

  it("? lists the keys, which sleep until the list is closed", async () => {
    press("?", { shiftKey: true });
    const list = screen.getByRole("dialog", { name: "Keys" });
    expect(list.textContent).toContain("ride height");
    press("ArrowUp");
    expect(app.getState().travel_mm.left).toBe(0);
    fireEvent.click(screen.getByRole("button", { name: "Close" }));
    await waitFor(() => expect(screen.queryByRole("dialog")).toBeNull());
  });

  it("keys sleep while a field is typed in", () => {
    fireEvent.keyDown(document.querySelector("input")!, { key: "ArrowUp" });
    fireEvent.keyDown(document.querySelector("input")!, { key: "g" });
    expect(app.getState().travel_mm.left).toBe(0);
  });
});
