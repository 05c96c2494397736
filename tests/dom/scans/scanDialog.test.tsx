import { cleanup, fireEvent, render, screen } from "@testing-library/react";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { FitStep } from "../../../src/app/scans/FitStep.tsx";
import { PartStep } from "../../../src/app/scans/PartStep.tsx";
import { PlaceStep } from "../../../src/app/scans/PlaceStep.tsx";
import { placingOf } from "../../../src/app/scans/placing.ts";
import { bringIn } from "../../../src/app/scans/scanActions.ts";
import { blankDraft, type PairDraft, useScan } from "../../../src/app/scans/scanStore.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { applyPose, composePoses, invertPose, rotationPose, translationPose } from "../../../src/maths/pose.ts";
import { add, type Vec3 } from "../../../src/maths/vec3.ts";
import { scanOf } from "../../../src/scene/parts/scan.ts";
import { openCorner } from "../points/scene.ts";

/** Where the scan stands in the car. */
const POSE = composePoses(translationPose([100, 200, 300]), rotationPose([0, 0, 1], 1));
const FILE = { name: "engine.stl", bytes: Uint8Array.of(1, 2, 3) };

function pairAt(car: Vec3, off: Vec3 = [0, 0, 0]): PairDraft {
  return { key: Math.random(), scan: add(applyPose(invertPose(POSE), car), off), car, point: null };
}

const CORNERS: readonly Vec3[] = [
  [0, 0, 0],
  [400, 0, 0],
  [0, 300, 50],
  [200, 100, 240],
];

beforeEach(() => {
  openCorner();
  useScan.setState({ ...blankDraft(), isOpen: true, file: FILE, unit: "mm", id: "engine" });
});
afterEach(() => {
  cleanup();
  useScan.setState(blankDraft());
});

describe("placing a scan by pairs", () => {
  it("says how far they are off, and which of them is wrong", () => {
    useScan.setState({ pairs: CORNERS.map((corner, i) => pairAt(corner, i === 2 ? [40, -30, 20] : undefined)) });
    render(<PlaceStep />);
    expect(screen.getByRole("status").textContent).toMatch(/^Placed\. The pairs are off by \d/);
    const told = screen.getAllByText(/does not go with the others/);
    expect(told).toHaveLength(1);
    expect(told[0]!.closest("li")!.textContent).toContain("3");
  });

  it("refuses points in a line and says what to do", () => {
    useScan.setState({ pairs: [0, 1, 2].map((i) => pairAt([200 * i, 0, 0])) });
    render(<PlaceStep />);
    expect(screen.getByRole("alert").textContent).toMatch(/nearly in one line.*Wanted: one point well off that line/);
  });

  it("takes coordinates that are typed, in the unit that is shown", () => {
    render(<PlaceStep />);
    fireEvent.click(screen.getAllByRole("button", { name: "Type the coordinates" })[0]!);
    fireEvent.change(screen.getByLabelText("Scan's y"), { target: { value: "2in" } });
    expect(useScan.getState().pairs[0]!.scan![1]).toBeCloseTo(50.8, 9);
  });

  it("asks for one more pair on the scan first", () => {
    render(<PlaceStep />);
    fireEvent.click(screen.getByRole("button", { name: "One more pair" }));
    expect(useScan.getState().pairs).toHaveLength(4);
    expect(useScan.getState()).toMatchObject({ shown: "scan", picking: { kind: "pair", end: "scan" } });
  });
});

describe("refining by fit", () => {
  it("holds what the surfaces hold and tells what each is off by", () => {
    const flat = [-50, 50].flatMap((x) => [-50, 50].map((y): Vec3 => applyPose(invertPose(POSE), [x, y, 102])));
    useScan.setState({
      pairs: CORNERS.map((corner) => pairAt(corner)),
      matches: [
        {
          key: 1,
          kind: "plane",
          patch: { fitted: { kind: "plane", at: flat[0]!, normal: [0, 0, 1], rms_mm: 0 }, points: flat },
          target: { name: "the deck", at: [0, 0, 100], way: [0, 0, 1] },
        },
      ],
    });
    render(<FitStep />);
    expect(screen.getByRole("status").textContent).toBe(
      "The fit holds 3 of the 6 ways it can move; in the others it stays where the pairs put it.",
    );
    expect(screen.getByText(/^Off by 0\.00 mm in the mean/)).toBeTruthy();
    // all of it went down by the 2 mm by which the flat was too high
    expect(screen.getByText(/the picked pairs are off by 2\.0 mm in the mean/)).toBeTruthy();
    expect(placingOf(useScan.getState()).pose[11]).toBeCloseTo(298, 6);
  });
});

describe("bringing it in", () => {
  it("is one step with its file, undone and redone as one", async () => {
    useScan.setState({ pairs: CORNERS.map((corner) => pairAt(corner)) });
    const before = app.getState().document;
    expect(await bringIn("bring in engine")).toBeNull();
    const { document, files } = app.getState();
    expect(files.get("engine.stl")).toBe(FILE.bytes);
    const scan = scanOf(document!, "engine")!;
    for (let i = 0; i < 12; i++) expect(scan.pose[i]!).toBeCloseTo(POSE[i]!, 5);
    expect(useScan.getState().isOpen).toBe(false);
    app.getState().undo();
    expect(app.getState().document).toBe(before);
    app.getState().redo();
    expect(app.getState().document).toBe(document);
    expect(app.getState().files.get("engine.stl")).toBe(FILE.bytes);
  });

  it("gives another file of the same name a name of its own", async () => {
    await bringIn("bring in engine");
    useScan.setState({ ...blankDraft(), file: { ...FILE, bytes: Uint8Array.of(9) }, unit: "m", id: "second" });
    expect(await bringIn("bring in second")).toBeNull();
    expect(scanOf(app.getState().document!, "second")!.file).toBe("engine-2.stl");
    expect(app.getState().files.get("engine.stl")).toBe(FILE.bytes);
  });

  it("keeps the dialog open with the reason where the name is taken or the project is another tab's", async () => {
    await bringIn("bring in engine");
    useScan.setState({ ...blankDraft(), isOpen: true, file: FILE, unit: "mm", id: "engine" });
    expect(await bringIn("bring in engine")).toMatch(/already/);
    useScan.setState({ id: "other" });
    app.setState({ standing: "watched" });
    expect(await bringIn("bring in other")).toMatch(/another tab/);
    app.setState({ standing: "mine" });
    expect(useScan.getState().isOpen).toBe(true);
  });

  it("says which clearance its role wants", () => {
    const { document } = app.getState();
    const rules = [{ a: "role:exhaust", b: "*", mm: 25 }];
    app.getState().edit("rule", { ...document!, clearances: { ...document!.clearances, rules } });
    render(<PartStep />);
    fireEvent.change(screen.getByLabelText(/^Role/), { target: { value: "exhaust" } });
    expect(screen.getByText(/^Wants 25 mm to other parts, by the rule for its role/)).toBeTruthy();
    expect(screen.getByText(/^It was not placed/)).toBeTruthy();
  });
});
