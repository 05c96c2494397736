import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { takePicture } from "../../../src/app/card/takePicture.ts";
import { viewHandle } from "../../../src/app/shell/viewHandle.ts";
import { pairKey } from "../../../src/app/store/state.ts";
import { app } from "../../../src/app/store/useApp.ts";
import type { ViewportHandle } from "../../../src/app/viewport/Viewport.tsx";
import { distance, length, type Vec3 } from "../../../src/maths/vec3.ts";
import { pair, result } from "../../buildlog/fixture.ts";
import { openCorner } from "../points/scene.ts";

const [main, inset, both] = ["main", "inset", "both"].map((name) => new Blob([name]));
const snapshot = vi.fn<ViewportHandle["snapshot"]>();
const compose = vi.fn(async () => both!);

beforeEach(() => {
  vi.clearAllMocks();
  snapshot.mockImplementation(async (_width, _height, options) => (options?.view ? inset! : main!));
  viewHandle.current = { snapshot } as unknown as ViewportHandle;
  openCorner();
  app.setState({ result: result() });
});
afterEach(() => {
  viewHandle.current = null;
});

describe("the picture on a card", () => {
  it("is the view alone while no touch is chosen", async () => {
    expect(await takePicture(compose)).toBe(main);
    expect(compose).not.toHaveBeenCalled();
  });

  it("has the close look at the chosen touch, of its two parts only, square to the way they part", async () => {
    app.setState({ chosenPair: pairKey(pair()) });
    expect(await takePicture(compose)).toBe(both);
    expect(compose).toHaveBeenCalledWith(main, inset, expect.stringMatching(/^close look from /));
    const { view, only } = snapshot.mock.calls[1]![2]!;
    expect([...only!]).toEqual(["ear", "upper"]);
    // half-way between the pair's points (139.6, 536, 467.2) and (139.6, 536, 461)
    expect(view).toMatchObject({ at: [139.6, 536, 464.1] });
    const { from } = view as { from: readonly [number, number, number] };
    expect(length(from)).toBeCloseTo(1, 9);
    expect(from[2]).toBeCloseTo(0, 9);
  });

  it("has the pinned measures that are shown, each with its number and what it reads", async () => {
    const { document } = app.getState();
    const measure = { id: "1", kind: "distance", from: { point: "upper.in" }, to: { point: "upper.out" } } as const;
    const hidden = { ...measure, id: "2", hidden: true } as const;
    app.setState({ document: { ...document!, measures: [measure, hidden] } });
    await takePicture(compose);
    const { over } = snapshot.mock.calls[0]![2]!;
    vi.stubGlobal("Path2D", class {});
    const written: string[] = [];
    const context = new Proxy({} as CanvasRenderingContext2D, {
      get: (_, name) => (name === "fillText" ? (text: string) => written.push(text) : () => {}),
      set: () => true,
    });
    const asked: Vec3[] = [];
    over!(context, (points) => {
      asked.push(...points);
      return points.map((_, i) => ({ x: 100 + 300 * i, y: 200, visible: true }));
    });
    vi.unstubAllGlobals();
    const [a, b] = ["upper.in", "upper.out"].map((name) => app.getState().scene!.points.get(name)!.at) as [Vec3, Vec3];
    expect(asked).toEqual([a, b]);
    expect(written).toEqual([`1  ${distance(a, b).toFixed(1)} mm`]);
  });

  it("is refused where no view is shown", async () => {
    viewHandle.current = null;
    await expect(takePicture(compose)).rejects.toThrow("no view is shown here");
  });
});
