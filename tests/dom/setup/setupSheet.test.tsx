import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { usePointsLook } from "../../../src/app/points/pointsStore.ts";
import { SetupSheet } from "../../../src/app/setup/SetupSheet.tsx";
import { goTo } from "../../../src/app/setup/setupStore.ts";
import { isSetupOpen } from "../../../src/app/shell/places.ts";
import { blankState } from "../../../src/app/store/blank.ts";
import { app } from "../../../src/app/store/useApp.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { readScene } from "../../../src/scene/read.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { answer, beginSetup, standingOf } from "../../../src/scene/setup/setup.ts";
import { placesOf } from "../../scene/setup/answers.ts";

const kept = () => app.getState().document!;
const field = (name: string | RegExp) => screen.getByRole("textbox", { name }) as HTMLInputElement;
const type = (name: string | RegExp, text: string) => fireEvent.change(field(name), { target: { value: text } });
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole("button", { name }));
const question = () => screen.getByRole("heading", { level: 2 }).textContent;
/** What Enter does in a field of the form. */
const enter = (name: string | RegExp) => fireEvent.submit(field(name).closest("form")!);

function open(document: SceneDocument): void {
  app.setState({ ...blankState(), ready: true });
  app.getState().openDocument(document, "corner.json");
  app.setState({ scene: resolveScene(document) });
  app.temporal.getState().clear();
  usePointsLook.setState({ datumId: null });
  goTo(null);
}

beforeEach(() => {
  open(beginSetup("hub-and-arm"));
  render(<SetupSheet />);
});
afterEach(cleanup);

describe("one question at a time", () => {
  it("asks the first open one, keeps the answer as a named step and goes on", () => {
    expect(question()).toBe("What shall this corner be called?");
    type(/^Name/, "Heron, rear");
    enter(/^Name/);
    expect(kept().title).toBe("Heron, rear");
    expect(app.getState().stepName).toBe("name measured");
    expect(question()).toBe("Which sides of the car are checked?");
    press("Left only");
    expect(kept().sides).toBe("left");
    expect(question()).toBe("What size stands on the tyre?");
  });

  it("shows what to measure in a picture, with its arrow", () => {
    act(() => goTo("wheel.rimOffset_mm"));
    expect(screen.getByRole("img", { name: /rim cut through/ })).toBeTruthy();
    act(() => goTo("upper.in"));
    const picture = screen.getByRole("img", { name: /arrows lead forward, out and up/ });
    const loud = () => [...picture.querySelectorAll('[data-wanted="true"] text')].map((text) => text.textContent);
    fireEvent.focus(field(/^Out/));
    expect(loud()).toEqual(["out"]);
    fireEvent.focus(field(/^Forward/));
    expect(loud()).toEqual(["forward"]);
  });

  it("takes sums, fractions and the other unit, and steps for a glove", () => {
    act(() => goTo("wheel.rimOffset_mm"));
    type(/^Rim offset/, '1 5/8"');
    enter(/^Rim offset/);
    expect(kept().wheel.rimOffset_mm).toBeCloseTo(41.275, 9);
    act(() => goTo("travel.bump_mm"));
    press("Bump travel: 1 mm more");
    expect(field(/^Bump travel/).value).toBe("61");
    enter(/^Bump travel/);
    expect(kept().travel.bump_mm).toBe(61);
  });

  it("wants all three coordinates, and Enter goes to the one that is empty", () => {
    act(() => goTo("upper.in"));
    type(/^Forward/, "58");
    enter(/^Forward/);
    expect(document.activeElement).toBe(field(/^Out/));
    type(/^Out/, "300+18");
    type(/^Up/, "412");
    enter(/^Up/);
    expect(placesOf(kept())["upper.in"]).toEqual([58, 318, 412]);
    expect(question()).not.toMatch(/inboard end of the upper link/);
  });

  it("reads a place from a datum of the builder's own", () => {
    open({ ...beginSetup("hub-and-arm"), datums: [{ id: "rail", at: [0, 482, 565] }] });
    act(() => usePointsLook.setState({ datumId: "rail" }));
    act(() => goTo("upper.in"));
    type(/^Forward/, "58");
    type(/^Out/, "-164");
    type(/^Up/, "-153");
    enter(/^Up/);
    expect(placesOf(kept())["upper.in"]).toEqual([58, 318, 412]);
  });

  it("tells what cannot be with its mend, keeps what was typed, and changes nothing", () => {
    act(() => goTo("wheel.centre"));
    const before = kept();
    type(/^Forward/, "0");
    type(/^Out/, "1480");
    type(/^Up/, "305");
    enter(/^Up/);
    expect(screen.getByRole("alert").textContent).toMatch(/half of the track/);
    expect(field(/^Out/).value).toBe("1480");
    type(/^Out/, "seven");
    enter(/^Out/);
    expect(screen.getByRole("alert").textContent).toMatch(/Not a length/);
    expect(kept()).toBe(before);
  });

  it("asks for an answer where Enter finds an empty field", () => {
    act(() => goTo("wheel.rimWidth_in"));
    enter(/^Rim width/);
    expect(screen.getByRole("alert").textContent).toMatch(/skip this question/);
  });
});

describe("skipping, going back and changing", () => {
  it("skips with the assumed value on the button, and lists it as assumed", () => {
    act(() => goTo("wheel.tyre"));
    press("Skip: assume 205/55R16");
    expect(question()).toBe("How wide is the rim?");
    press("All answers");
    const row = screen.getByRole("button", { name: /^Tyre size/ });
    expect(row.textContent).toMatch(/205\/55R16.*assumed, not measured/);
    expect(app.getState().stepName).toBe("tyre size assumed");
  });

  it("goes back to an earlier answer and changes it, and only it", () => {
    act(() => goTo("wheel.rimWidth_in"));
    type(/^Rim width/, "7");
    enter(/^Rim width/);
    press("Back");
    expect(field(/^Rim width/).value).toBe("7");
    press("Next");
    expect(kept().wheel.rimWidth_in).toBe(7);
    press("Back");
    type(/^Rim width/, "7.5");
    press("Keep and go on");
    expect(kept().wheel.rimWidth_in).toBe(7.5);
    expect(kept().wheel.rimOffset_mm).toBe(40);
  });

  it("each answer is undone by itself, and its question is open again", () => {
    act(() => goTo("wheel.rimWidth_in"));
    type(/^Rim width/, "8");
    enter(/^Rim width/);
    act(() => app.getState().undo());
    expect(kept().wheel.rimWidth_in).toBe(6.5);
    press("All answers");
    expect(screen.getByRole("button", { name: /^Rim width/ }).textContent).toMatch(/open/);
  });

  it("a value that is only shown rounded is not changed by looking at it", () => {
    const exact = answer(beginSetup("hub-and-arm"), "upper.in", [58.04, 318.06, 412.02]);
    open(exact);
    act(() => goTo("upper.in"));
    type(/^Up/, "415");
    enter(/^Up/);
    const [x, y, z] = placesOf(kept())["upper.in"] as number[];
    expect([x, y]).toEqual([58.04, 318.06]);
    expect(z).toBe(415);
  });
});

describe("left and resumed", () => {
  it("goes on at the first open question from the saved scene alone", () => {
    type(/^Name/, "Heron");
    enter(/^Name/);
    press(/^Skip/);
    type(/^Tyre size/, "195/50R15");
    enter(/^Tyre size/);
    const file = JSON.stringify(kept());
    cleanup();
    open(readScene(file, "heron.json"));
    render(<SetupSheet />);
    expect(question()).toBe("How wide is the rim?");
    expect(isSetupOpen(kept())).toBe(true);
  });

  it("is looked at and not changed while another tab has the project", () => {
    act(() => app.setState({ standing: "watched" }));
    expect(field(/^Name/).disabled).toBe(true);
    expect(screen.getByText(/Another tab has this project/)).toBeTruthy();
  });

  it("says what is missing in plain words, and verdicts once nothing is", () => {
    expect(screen.getByText(/Before the wheel's way can be worked out/).textContent).toMatch(/tyre size; rim width/);
    for (let i = 0; i < 60 && screen.queryByText(/Before the wheel's way/); i++) press(/^Skip/);
    expect(screen.getByText(/it is being checked/)).toBeTruthy();
    expect(screen.queryByRole("alert")).toBeNull();
  });

  it("ends with what is assumed, and can be put away", () => {
    for (let i = 0; i < 100 && question() !== "Every question has its answer"; i++) press(/^Skip/);
    const members = within(screen.getByRole("region", { name: "What holds the hub" }));
    expect(members.getByRole("button", { name: /^Arm, front bush/ }).textContent).toMatch(/assumed/);
    press("Put the set-up away");
    expect(kept().setup!.closed).toBe(true);
    expect(isSetupOpen(kept())).toBe(false);
    expect(standingOf(kept(), { kind: "text", id: "title" } as never)).toBe("assumed");
  });
});
