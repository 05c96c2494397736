import "fake-indexeddb/auto";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/react";
import { afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { closeDialog, showProjects, showSteps } from "../../../src/app/projects/dialogs.ts";
import { ProjectLine } from "../../../src/app/projects/ProjectLine.tsx";
import { ProjectsDialog } from "../../../src/app/projects/ProjectsDialog.tsx";
import { StepsDialog } from "../../../src/app/projects/StepsDialog.tsx";
import { desk } from "../../../src/app/projects/theDesk.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { smallScene } from "../../app/smallScene.ts";

beforeAll(() => desk.start());
beforeEach(async () => {
  app.setState({ standing: "mine", refusedEdits: 0 });
  await desk.openNew(smallScene({ title: "Rear left" }), "rear.json");
});
afterEach(async () => {
  closeDialog();
  cleanup();
  for (const { id } of desk.state.getState().list) {
    await desk.remove(id);
    await desk.removeForGood(id);
  }
});

const press = (name: string | RegExp) => fireEvent.click(screen.getByRole("button", { name }));

describe("the list of projects", () => {
  beforeEach(() => {
    render(<ProjectsDialog />);
    showProjects();
  });

  it("tells title, time, contents and steps, and marks the open one", async () => {
    const row = await screen.findByRole("button", { name: /^Rear left/ });
    expect(row.textContent).toMatch(/changed today \d\d:\d\d · 6 points, 5 parts · no step yet · \d+ (bytes|kB)/);
    expect(row.getAttribute("aria-current")).toBe("true");
  });

  it("renames in place; Escape leaves the name and the list as they are", async () => {
    await screen.findByRole("button", { name: /^Rear left/ });
    press("Rename Rear left");
    const field = screen.getByRole("textbox", { name: "New name" });
    fireEvent.change(field, { target: { value: "Gone" } });
    fireEvent.keyDown(field, { key: "Escape" });
    expect(screen.queryByRole("textbox")).toBeNull();
    expect(screen.getByRole("dialog", { name: "Projects" })).toBeTruthy();
    press("Rename Rear left");
    fireEvent.change(screen.getByRole("textbox", { name: "New name" }), { target: { value: "  Plan B  " } });
    press("Keep");
    await screen.findByRole("button", { name: /^Plan B/ });
    expect(app.getState()).toMatchObject({ stepName: "rename to Plan B" });
  });

  it("deletes with Undo beside it, and keeps what was deleted in reach afterwards", async () => {
    await screen.findByRole("button", { name: /^Rear left/ });
    press("Delete Rear left");
    fireEvent.click(await screen.findByRole("button", { name: "Undo" }));
    await screen.findByRole("button", { name: /^Rear left/ });
    press("Delete Rear left");
    await screen.findByText(/is deleted/);
    closeDialog();
    await waitFor(() => expect(screen.queryByRole("dialog")).toBeNull());
    showProjects();
    fireEvent.click(await screen.findByText("Deleted (1)"));
    expect(screen.getByText("goes for good in 14 days")).toBeTruthy();
    press("Put Rear left back");
    await screen.findByRole("button", { name: "Rename Rear left" });
  });
});

describe("the list of steps", () => {
  it("has every step by name, the newest first, and goes to the one that is chosen", async () => {
    for (let i = 1; i <= 450; i++) app.getState().edit(`step ${i}`, smallScene({ title: `T${i}` }));
    render(<StepsDialog />);
    showSteps();
    const list = await screen.findByRole("list");
    // plain queries: roles of hundreds of buttons take the double of a browser seconds to work out
    const rows = () => [...list.querySelectorAll("button")];
    const row = (step: string) => rows().find(({ textContent }) => textContent?.includes(step))!;
    expect(rows()).toHaveLength(201);
    expect(rows()[0]!.textContent).toContain("step 450");
    expect(rows()[0]!.getAttribute("aria-current")).toBe("step");
    fireEvent.click(screen.getByText("Show 250 older steps"));
    expect(rows()).toHaveLength(401);
    fireEvent.click(row("step 300"));
    expect(app.getState().document!.title).toBe("T300");
    expect(row("step 301").textContent).toContain("undone");
    fireEvent.click(row("step 301"));
    expect(app.getState().document!.title).toBe("T301");
  }, 60_000);
});

describe("lines about the project", () => {
  it("say that another tab has it, louder after a refused change, with both ways on", () => {
    app.setState({ standing: "watched" });
    const { rerender } = render(<ProjectLine />);
    expect(screen.getByRole("status").textContent).toMatch(/open in another tab/);
    app.getState().edit("title", smallScene({ title: "Mine" }));
    rerender(<ProjectLine />);
    expect(screen.getByRole("alert").textContent).toMatch(/^Nothing was changed/);
    expect(screen.getAllByRole("button").map(({ textContent }) => textContent)).toEqual([
      "Change it here",
      "Go on with a copy",
    ]);
    app.setState({ standing: "mine" });
  });

  it("say that this tab's changes cannot be saved, and what can be done with them", () => {
    app.setState({ standing: "cut-off" });
    render(<ProjectLine />);
    expect(screen.getByRole("alert").textContent).toMatch(/another tab has changed this project/);
    expect(screen.getAllByRole("button").map(({ textContent }) => textContent)).toEqual([
      "Keep mine as a copy",
      "Save a file",
      "Let mine go",
    ]);
    app.setState({ standing: "mine" });
  });

  it("say what the browser has thrown away", () => {
    desk.state.setState({ gone: { projects: 3, title: "Rear left", changed_ms: Date.UTC(2026, 0, 5, 12) } });
    render(<ProjectLine />);
    expect(screen.getByRole("alert").textContent).toMatch(/3 projects, last “Rear left”/);
    press("Close");
    expect(screen.queryByRole("alert")).toBeNull();
  });
});
