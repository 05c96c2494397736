import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { PrintRoom } from "../../../src/app/card/PrintRoom.tsx";
import { log } from "../../../src/app/log/cards.ts";
import { LogPlace } from "../../../src/app/log/LogPlace.tsx";
import { app } from "../../../src/app/store/useApp.ts";
import type { ClashDecision } from "../../../src/buildlog/decision.ts";
import { card, document as fixture, PNG, POINTS, pair, result } from "../../buildlog/fixture.ts";
import { openCorner } from "../points/scene.ts";
import { logOf } from "./logState.ts";

const before = card({ number: 12 });
const after = card({
  number: 14,
  title: "Upper link 20 back",
  points: { ...POINTS, "upper.in": [130, 392, 446] },
  result: result({
    pairs: [
      pair({ clearance_mm: 5.1, verdict: "tight" }),
      pair({ a: "arch", b: "tyre", side: "right", required_mm: 15, clearance_mm: -3.9 }),
    ],
    summary: { clash: 1, tight: 1, clear: 0, accepted: 0 },
  }),
});

function show(cards = [after, before], decisions: readonly ClashDecision[] = []) {
  log.setState(logOf(cards, decisions));
  openCorner(fixture());
  render(<LogPlace />);
}

beforeEach(() => app.setState({ unit: "mm" }));
afterEach(cleanup);

const row = (name: RegExp) => screen.getByRole("row", { name });

describe("the place Build log", () => {
  it("says how to make the first card", () => {
    show([]);
    expect(screen.getByText("No job cards yet")).toBeTruthy();
    expect(screen.getByText(/press Make job card, or the key S/)).toBeTruthy();
  });

  it("opens the newest card, and the one that is pressed", () => {
    show();
    expect(screen.getByRole("article", { name: /Card 14/ })).toBeTruthy();
    fireEvent.click(screen.getByRole("button", { name: /12 Donor mounts in/ }));
    expect(screen.getByRole("article", { name: /Card 12/ })).toBeTruthy();
  });

  it("compares the two that are ticked, the earlier one as A", () => {
    show();
    fireEvent.click(screen.getByRole("checkbox", { name: "Compare card 14" }));
    fireEvent.click(screen.getByRole("checkbox", { name: "Compare card 12" }));
    // 5.1 − (−6.2) = 11.3 won, −3.9 − (−3.1) = 0.8 lost
    expect(row(/Ear, upper link/).textContent).toContain("▴ +11.3");
    expect(row(/Arch, tyre/).textContent).toContain("▾ −0.8");
    const cells = within(row(/Ear, upper link/)).getAllByRole("cell");
    expect(cells[0]!.textContent).toContain("−6.2");
    expect(cells[1]!.textContent).toContain("+5.1");
    expect(row(/upper\.in/).textContent).toContain("20 back, 6 up");
    expect(row(/upper\.in/).textContent).toContain("130.0, 392.0, 446.0");
  });

  it("shows a difference that its printed figures give", () => {
    const gap = (number: number, clearance_mm: number, at: readonly [number, number, number]) =>
      card({
        number,
        points: { ...POINTS, "upper.in": at },
        result: result({ pairs: [pair({ clearance_mm, verdict: "tight" })] }),
      });
    // 2.04 prints as 2.0 and 5.16 as 5.2: 3.2 apart as printed, though 3.12 as they are
    show([gap(2, 5.16, [150.16, 392, 440]), gap(1, 2.04, [147.04, 392, 440])]);
    fireEvent.click(screen.getByRole("checkbox", { name: "Compare card 1" }));
    fireEvent.click(screen.getByRole("checkbox", { name: "Compare card 2" }));
    expect(row(/Ear, upper link/).textContent).toContain("▴ +3.2");
    expect(row(/Upper link, inboard end upper\.in/).textContent).toContain("3.2 forward");
    act(() => app.setState({ unit: "in" }));
    // 2.04 / 25.4 = 0.0803 and 5.16 / 25.4 = 0.2031: 0.080 and 0.203
    expect(row(/Ear, upper link/).textContent).toContain("▴ +0.123");
  });

  it("has the open card laid out for the browser's own print command, and clears it away with the log", () => {
    const print = vi.fn();
    vi.stubGlobal("print", print);
    const paper = () => document.querySelector(".paper");
    show();
    render(<PrintRoom />);
    expect(paper()!.textContent).toContain("Job card 14");
    fireEvent.click(screen.getByRole("button", { name: /12 Donor mounts in/ }));
    expect(paper()!.textContent).toContain("Job card 12");
    act(() => app.setState({ cardOpen: true }));
    expect(paper()).toBeNull();
    act(() => app.setState({ cardOpen: false }));
    expect(print).not.toHaveBeenCalled();
    vi.unstubAllGlobals();
  });

  it("opens a card's scene where its picture was taken, as often as it is asked to", () => {
    show([card({ travel_mm: { left: 38, right: -38 } })]);
    for (let time = 0; time < 2; time++) {
      const before = app.getState().document;
      fireEvent.click(screen.getByRole("button", { name: "Open this scene again" }));
      expect(app.getState()).toMatchObject({ travel_mm: { left: 38, right: -38 }, wheels: "opposed", pose: "overrun" });
      expect(app.getState().document).not.toBe(before);
    }
  });

  it("opens the scene of a card again as a step that can be undone", () => {
    show();
    fireEvent.click(screen.getByRole("button", { name: "Open this scene again" }));
    expect(app.getState().document!.points["upper.in"]).toEqual([130, 392, 446]);
    expect(app.getState().place).toBe("corner");
    act(() => app.getState().undo());
    expect(app.getState().document!.points["upper.in"]).toEqual([150, 392, 440]);
  });

  it("shows the days of the timeline, and the revision of a card", () => {
    show([card({ number: 3, revision: "C", made: new Date("2026-11-14T12:00:00Z") }), before]);
    const day = screen.getByRole("region", { name: "Sat 14 Nov 2026" });
    expect(within(day).getByText("Revision C")).toBeTruthy();
  });

  it("shows notes and names as they were written, and runs nothing of them", () => {
    const nasty = "<img src=x onerror=\"document.title='ran'\"><script>document.title='ran'</script>";
    show([card({ title: nasty, note: nasty, revision: nasty, fileName: nasty })]);
    expect(screen.getAllByText(nasty).length).toBeGreaterThan(1);
    expect(document.querySelectorAll("main script, main img[src=x]")).toHaveLength(0);
  });
});

describe("two cards compared", () => {
  const png = { png: PNG, width: 16, height: 10 };
  const bump = { name: "", state: "bump", travel_mm: { left: 80, right: 80 }, pose: "rest", picture: png } as const;

  it("lie over each other, with a line that is pulled across", () => {
    show([card({ number: 2, picture: png }), card({ number: 1, picture: png })]);
    for (const number of [1, 2]) fireEvent.click(screen.getByRole("checkbox", { name: `Compare card ${number}` }));
    fireEvent.click(screen.getByRole("button", { name: "One over the other" }));
    const line = screen.getByRole("slider", { name: "How much of A is shown over B" }) as HTMLInputElement;
    expect(line.value).toBe("50");
    fireEvent.change(line, { target: { value: "80" } });
    expect(line.getAttribute("aria-valuetext")).toBe("80 % of A");
    expect(document.querySelector<HTMLElement>(".swipe")!.style.getPropertyValue("--swipe")).toBe("80%");
  });

  it("offer the views that both have", () => {
    const droop = { ...bump, state: "droop" } as const;
    show([card({ number: 2, views: [bump, droop] }), card({ number: 1, views: [bump] })]);
    for (const number of [1, 2]) fireEvent.click(screen.getByRole("checkbox", { name: `Compare card ${number}` }));
    const views = within(screen.getByRole("group", { name: "View" }));
    expect(views.getAllByRole("button").map((button) => button.textContent)).toEqual(["As shown", "Full bump"]);
  });
});

describe("the clash list", () => {
  const items = () => within(screen.getByRole("region", { name: "Clash list" })).queryAllByRole("listitem");
  const open = () => fireEvent.click(screen.getByRole("button", { name: "Clash list" }));

  it("has what is open, with gap, wanted, wheel and engine, and who sees to it", () => {
    show([before]);
    open();
    expect(items()[0]!.textContent).toMatch(
      /Ear, upper link \(left\)6\.2 mm too deep, wants 10 mm\+38 bump, engine on overrun/,
    );
    expect(items()[0]!.textContent).toContain("nobody sees to it yet");
  });

  it("keeps what the builder decides, and asks for a reason to accept", async () => {
    show([before]);
    open();
    fireEvent.click(screen.getByRole("button", { name: "Decide: Ear, upper link (left)" }));
    fireEvent.click(screen.getByRole("button", { name: "accepted" }));
    fireEvent.change(screen.getByLabelText("Who sees to it"), { target: { value: "Kim" } });
    fireEvent.click(screen.getByRole("button", { name: "Keep" }));
    expect(screen.getByRole("alert").textContent).toMatch(/Say why it is accepted/);
    fireEvent.change(screen.getByLabelText("Why it is accepted"), { target: { value: "rubber flap" } });
    fireEvent.click(screen.getByRole("button", { name: "Keep" }));
    await vi.waitFor(() => expect(log.getState().decisions).toHaveLength(1));
    expect(log.getState().decisions[0]).toMatchObject({ state: "accepted", owner: "Kim", why: "rubber flap" });
    fireEvent.click(screen.getByRole("button", { name: "Accepted 1" }));
    expect(items().map((item) => item.textContent)).toEqual([expect.stringContaining("accepted: rubber flap")]);
  });

  it("tells what the newest card finds clear as fixed", () => {
    show([after, before]);
    open();
    fireEvent.click(screen.getByRole("button", { name: /^Fixed/ }));
    expect(items()).toHaveLength(0);
    expect(screen.getByText("Nothing is fixed yet.")).toBeTruthy();
  });
});
