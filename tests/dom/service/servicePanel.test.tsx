// The plug, socket and swing are those of the project's acceptance stories; they hold to ±0.3 mm and ±0.02°.
import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, describe, expect, it } from "vitest";
import { ServiceDialogs } from "../../../src/app/service/ServiceDialogs.tsx";
import { ServicePanel } from "../../../src/app/service/ServicePanel.tsx";
import { closeServiceForm } from "../../../src/app/service/serviceForms.ts";
import { type ServiceQuestion, serviceStudy, useServiceLook } from "../../../src/app/service/serviceStore.ts";
import { blankState } from "../../../src/app/store/blank.ts";
import { app } from "../../../src/app/store/useApp.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { withService } from "../../../src/scene/serviceEdits.ts";
import { type ServiceReport, tryService } from "../../../src/studies/service/service.ts";
import { storyCorner } from "../../check/storyCorner.ts";

const story = withService(storyCorner({ tessellation_mm: 0.2 }), {
  fasteners: [{ id: "sump plug", on: "powertrain", at: [-45, 290, 210], facing: [0, 1, 0], size_mm: 19 }],
  tools: [{ id: "socket", kind: "socket", diameter_mm: 26, length_mm: 90 }],
  jobs: [
    { id: "oil", kind: "reach", fastener: "sump plug", tools: ["socket"] },
    {
      id: "shaft out",
      kind: "out",
      parts: ["driveshaft"],
      removed: ["upper", "lower", "damper", "wheel"],
      steps: [{ kind: "swing", member: "arm", allows_deg: 7, frees: { at: [0, 668, 300], way: [0, 1, 0], mm: 92 } }],
    },
  ],
});

let end: () => void = () => {};
let questions: ServiceQuestion[] = [];
let answer: (report: ServiceReport) => void = () => {};

function open(document: SceneDocument) {
  questions = [];
  app.setState({ ...blankState(), document, scene: resolveScene(document), fileName: "story" });
  useServiceLook.setState(useServiceLook.getInitialState());
  end = serviceStudy.serve(app, (question) => {
    questions.push(question);
    const done = new Promise<ServiceReport>((resolve) => {
      answer = resolve;
    });
    return { done, stop() {} };
  });
  render(
    <>
      <ServicePanel />
      <ServiceDialogs />
    </>,
  );
}

async function tried() {
  fireEvent.click(screen.getByRole("button", { name: /^Try / }));
  const { document, jobs } = questions.at(-1)!;
  await act(async () => answer(tryService({ document, jobs, meshFiles: new Map() })));
}

afterEach(() => {
  closeServiceForm();
  cleanup();
  end();
  serviceStudy.use.setState({ running: null, told: null, trouble: null });
});

describe("service jobs", () => {
  it("tell what stops the socket at ride height and hanging, and what would free it", async () => {
    open(story);
    expect(screen.getAllByText("not tried yet")).toHaveLength(2);
    await tried();
    fireEvent.click(screen.getByRole("button", { name: /^Oil/ }));
    expect(screen.getByText("Sump plug: faces outboard, 19 mm across the flats.")).toBeTruthy();
    expect(screen.getByText(/^Socket 26 mm × 90 mm runs into lower link by 1\.[5-8] mm\.$/)).toBeTruthy();
    fireEvent.click(screen.getByRole("button", { name: "Hanging" }));
    expect(screen.getByText(/runs into lower link by 0\.[1-4] mm\.$/)).toBeTruthy();
    expect(app.getState().travel_mm.left).toBe(-70);
    const ways = within(screen.getByRole("list", { name: "What would free it" })).getAllByRole("listitem");
    const texts = ways.map(({ textContent }) => textContent);
    expect(texts).toEqual(
      expect.arrayContaining([expect.stringMatching(/^The fastener (1\.[5-9]|2\.0) mm forward\.$/)]),
    );
    expect(texts).toContain("Lower link off too.");
  });

  it("tell that the bush allows 52 of the 92 mm, and which bolt must be out too", async () => {
    open(story);
    await tried();
    fireEvent.click(screen.getByRole("button", { name: /^Shaft out/ }));
    expect(
      screen.getByText(/^Step 1 needs 12\.4° of swing, the bush allows 7\.0°: 52\.\d mm of the 92 mm it needs\.$/),
    ).toBeTruthy();
    expect(screen.getByText("Bolt out too: arm, pivot.")).toBeTruthy();
    const slider = screen.getByRole("slider", { name: "Along the path" });
    fireEvent.change(slider, { target: { value: "0" } });
    expect(slider.getAttribute("aria-valuetext")).toBe("Step 1, 0.0°");
  });

  it("are old once a job was changed, and can be tried again", async () => {
    open(story);
    await tried();
    act(() =>
      app.getState().editAside("another", (document) => withService(document, { jobs: [story.service!.jobs![0]!] })),
    );
    expect(screen.getByText("From before your change.")).toBeTruthy();
    expect(screen.getByRole("button", { name: "Try again" })).toBeTruthy();
  });

  it("are put in by a form as one step, without a check, and taken back", async () => {
    const bare = storyCorner();
    open(bare);
    fireEvent.click(screen.getByRole("button", { name: "Take a part out" }));
    const dialog = within(await screen.findByRole("dialog", { name: "Take a part out" }));
    fireEvent.change(dialog.getByRole("textbox", { name: "Name of the job" }), { target: { value: "shaft" } });
    fireEvent.click(dialog.getByRole("button", { name: "One more step" }));
    fireEvent.click(dialog.getAllByRole("button", { name: "swing" })[1]!);
    fireEvent.click(dialog.getByText("Off first"));
    fireEvent.click(dialog.getByRole("checkbox", { name: "Upper link" }));
    fireEvent.click(dialog.getByRole("button", { name: "Keep" }));
    const { document, stepName } = app.getState();
    expect(stepName).toBe("Service job: shaft");
    expect(document!.service!.jobs).toEqual([
      {
        id: "shaft",
        kind: "out",
        parts: ["driveshaft"],
        removed: ["upper"],
        steps: [
          { kind: "straight", way: [0, 0, -1], length_mm: 300 },
          { kind: "swing", member: "arm", angle_deg: 5 },
        ],
      },
    ]);
    fireEvent.click(screen.getByRole("button", { name: /^Shaft/ }));
    fireEvent.click(screen.getByRole("button", { name: "Delete" }));
    expect(app.getState().document).toBe(bare);
  });

  it("refuse a name that is taken, in the form", async () => {
    open(story);
    fireEvent.click(screen.getByRole("button", { name: "Reach a bolt or plug" }));
    const dialog = within(await screen.findByRole("dialog", { name: "Reach a bolt or plug" }));
    fireEvent.change(dialog.getByRole("textbox", { name: "Name of the job" }), { target: { value: "oil" } });
    fireEvent.click(dialog.getByRole("button", { name: "Keep" }));
    expect(dialog.getByRole("alert").textContent).toMatch(/oil/);
    expect(app.getState().document).toBe(story);
  });
});
