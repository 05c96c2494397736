import { act, cleanup, fireEvent, render, screen } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { CardDialog } from "../../../src/app/card/CardDialog.tsx";
import { log } from "../../../src/app/log/cards.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { PNG, result } from "../../buildlog/fixture.ts";
import { logOf } from "../log/logState.ts";
import { openCorner } from "../points/scene.ts";

/** A PNG's signature and the size in its header. */
const PICTURE = Uint8Array.from([...PNG.slice(0, 8), 0, 0, 0, 13, 73, 72, 68, 82, 0, 0, 0, 16, 0, 0, 0, 10]);
const takePicture = () => Promise.resolve(new Blob([PICTURE]));

beforeEach(() => {
  log.setState(logOf());
  openCorner();
  app.setState({ result: result(), cardOpen: true });
});
afterEach(cleanup);

const keepButton = () => screen.getByRole("button", { name: "Keep in the build log" }) as HTMLButtonElement;

describe("making a job card", () => {
  it("proposes the worst verdict as its title", () => {
    render(<CardDialog takePicture={takePicture} />);
    expect((screen.getByLabelText("Title") as HTMLInputElement).value).toBe("Ear meets upper link");
  });

  it("keeps picture, words and scene, and closes", async () => {
    render(<CardDialog takePicture={takePicture} />);
    fireEvent.change(screen.getByLabelText("Note"), { target: { value: "Arch tube next." } });
    fireEvent.click(keepButton());
    await vi.waitFor(() => expect(app.getState().cardOpen).toBe(false));
    const [kept] = log.getState().cards.values();
    expect(kept).toMatchObject({ number: 1, title: "Ear meets upper link", note: "Arch tube next." });
    expect(kept!.picture).toEqual({ png: PICTURE, width: 16, height: 10 });
    expect(kept!.document).toEqual(app.getState().document);
  });

  it("is kept without a picture where there is no view, and says so", async () => {
    render(<CardDialog takePicture={() => Promise.reject(new Error("no view is shown here"))} />);
    expect(await screen.findByText("No picture: no view is shown here")).toBeTruthy();
    fireEvent.click(keepButton());
    await vi.waitFor(() => expect([...log.getState().cards.values()][0]?.picture).toBeNull());
  });

  it("says that a move is only tried", () => {
    app.setState({ tried: { point: "upper.in", to: [150, 392, 444], meaning: "cut" } });
    render(<CardDialog takePicture={takePicture} />);
    const note = screen.getByLabelText("Note") as HTMLTextAreaElement;
    expect(note.value).toBe("Tried, not kept: upper link, inboard end 4 up.");
  });

  it("is not made of verdicts from before a change", () => {
    render(<CardDialog takePicture={takePicture} />);
    act(() => app.setState({ stale: true }));
    expect(keepButton().disabled).toBe(true);
    expect(screen.getByText(/the verdicts are from before your change/)).toBeTruthy();
  });
});
