import { cleanup, render, screen } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { GroupChips } from "../../src/app/corner/GroupChips.tsx";
import { ThumbBar } from "../../src/app/corner/ThumbBar.tsx";
import { SavedLine } from "../../src/app/shell/SavedLine.tsx";
import { blankState } from "../../src/app/store/blank.ts";
import { app } from "../../src/app/store/useApp.ts";
import { smallScene } from "../app/smallScene.ts";

beforeEach(() => {
  app.setState({ ...blankState(), document: smallScene() });
});
afterEach(cleanup);

describe("on narrow windows", () => {
  it("a tablet has Redo under the thumb; what is stepped through is named at every width", () => {
    render(<ThumbBar layout="tablet" />);
    expect(screen.getByRole("button", { name: /^Redo/ })).toBeTruthy();
    expect(screen.getByRole("button", { name: "Clash next" }).textContent).toBe("Clash next");
    cleanup();
    render(<ThumbBar layout="phone" />);
    expect(screen.queryByRole("button", { name: /^Redo/ })).toBeNull();
    expect(screen.getByRole("button", { name: "Clash before" }).textContent).toBe("Before");
  });

  it("each group says whether it is solid, glass or off", () => {
    app.setState({ show: { chassis: "glass", powertrain: "off", hub: "solid", arms: "solid" } });
    render(<GroupChips />);
    expect(screen.getAllByRole("button").map(({ textContent }) => textContent)).toEqual([
      "Chassis glass",
      "Powertrain off",
      "Hub side solid",
      "Arms solid",
    ]);
  });

  it("says where the work is kept, in few words where there is no room", () => {
    app.setState({ saved_ms: new Date(2026, 0, 1, 23, 7).getTime() });
    render(<SavedLine layout="wide" />);
    expect(screen.getByText("kept in this browser 23:07").title).toContain("nowhere else");
    cleanup();
    render(<SavedLine layout="phone" />);
    expect(screen.getByText("kept 23:07")).toBeTruthy();
  });
});
