import { act, cleanup, fireEvent, render, screen } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { FileLine } from "../../../src/app/files/FileLine.tsx";
import { openFiles } from "../../../src/app/files/sceneFiles.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { document as fixture } from "../../buildlog/fixture.ts";
import { openCorner } from "../points/scene.ts";

beforeEach(async () => {
  openCorner(fixture());
  render(<FileLine />);
  await act(() => openFiles([new File(["nine"], "notes.json")]));
});
afterEach(cleanup);

const line = () => screen.queryByRole("alert");

describe("the line that tells of a file that was not opened", () => {
  it("is closed by Escape, which does nothing else then", () => {
    expect(line()!.textContent).toMatch(/^Not opened: notes\.json +is not an Elbowroom scene file \(/);
    const isUnused = fireEvent.keyDown(document.body, { key: "Escape" });
    expect(isUnused).toBe(false);
    expect(line()).toBeNull();
    expect(fireEvent.keyDown(document.body, { key: "Escape" })).toBe(true);
  });

  it("leaves Escape to a field", () => {
    const field = document.body.appendChild(document.createElement("input"));
    fireEvent.keyDown(field, { key: "Escape" });
    field.remove();
    expect(line()).not.toBeNull();
  });

  it("stays while the scene is worked on and goes when another one is opened", () => {
    act(() => app.getState().edit("note", { ...app.getState().document! }));
    expect(line()).not.toBeNull();
    act(() => app.getState().openDocument(fixture(), "other.json"));
    expect(line()).toBeNull();
  });
});
