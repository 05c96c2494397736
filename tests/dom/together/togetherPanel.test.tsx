// What may happen together, told in the app: numbers are those of the study itself, whose truths its own tests hold.
import { act, cleanup, fireEvent, render, screen, within } from "@testing-library/react";
import { afterEach, describe, expect, it } from "vitest";
import { blankState } from "../../../src/app/store/blank.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { TogetherPanel } from "../../../src/app/together/TogetherPanel.tsx";
import { togetherStudy } from "../../../src/app/together/togetherStore.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { judgeTogether } from "../../../src/studies/together/together.ts";
import { studyCorner } from "../../studies/studyCorner.ts";

let end: () => void = () => {};

async function opened(document: SceneDocument): Promise<void> {
  app.setState({ ...blankState(), document, scene: resolveScene(document), fileName: "story" });
  end = togetherStudy.serve(app, (question) => ({
    done: Promise.resolve(judgeTogether(question.document, new Map(), "story")),
    stop() {},
  }));
  render(<TogetherPanel />);
  await act(async () => {
    fireEvent.click(screen.getByRole("button", { name: "Work it out" }));
    await Promise.resolve();
  });
}

afterEach(() => {
  cleanup();
  end();
  togetherStudy.use.setState({ running: null, told: null, trouble: null });
});

const region = (name: string) => within(screen.getByRole("region", { name }));

describe("what may happen together", () => {
  it("says of a motion beyond its travel what it would do, and what it does where it must be clear; a press goes there", async () => {
    const corner = studyCorner({ tessellation_mm: 0.5 });
    const poses = corner.powertrain!.poses!.map((pose) => ({ ...pose, within_mm: [-70, 0] as const }));
    await opened({ ...corner, powertrain: { poses } });
    const row = region("Cannot happen together").getAllByRole("button")[0]!;
    expect(row.textContent).toMatch(/would (be off|meet)/);
    expect(row.textContent).toMatch(/only told from −70 to 0.*where it must be clear/);
    fireEvent.click(row);
    expect(app.getState().pose).not.toBe("rest");
    expect(app.getState().travel_mm.left).toBeGreaterThan(0);
    expect(screen.queryByRole("region", { name: "One wheel up, one down" })).toBeNull();
  });

  it("names parts of both sides that come near with the wheels at different heights, and takes each wheel there", async () => {
    const { driveshaft: _, powertrain: __, ...corner } = studyCorner({ sides: "both", tessellation_mm: 0.5 });
    const ball = (id: string, at: readonly [number, number, number]) =>
      ({ id, on: "upper", shape: { kind: "sphere", at, diameter_mm: 40 } }) as const;
    await opened({
      ...corner,
      bodies: [ball("knob", [-20, 30, 425]), ball("peg", [-20, 24, 525])],
      clearances: { default_mm: 10 },
      travel: { bump_mm: 20, droop_mm: 25, step_mm: 5 },
    });
    const row = region("One wheel up, one down").getByRole("button", { name: /Left knob.*right peg/i });
    fireEvent.click(row);
    const { travel_mm, wheels } = app.getState();
    expect(wheels).toBe("opposed");
    expect(travel_mm.left).toBeLessThan(travel_mm.right);
    expect(region("Cannot happen together").getByText(/No motion would come closer/)).toBeTruthy();
  });
});
