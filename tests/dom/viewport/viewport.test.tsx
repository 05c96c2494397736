import { cleanup, render, screen } from "@testing-library/react";
import { createRef } from "react";
import { afterEach, describe, expect, it } from "vitest";
import { CloseLook } from "../../../src/app/viewport/CloseLook.tsx";
import { Viewport, type ViewportHandle } from "../../../src/app/viewport/Viewport.tsx";

afterEach(cleanup);

const NOTHING = {
  bodies: [],
  poses: new Map(),
  show: { chassis: "solid", powertrain: "solid", hub: "solid", arms: "solid" },
  glassKeys: new Set<string>(),
  heldIds: new Set<string>(),
  patches: [],
  crossing: [],
  theme: "daylight",
  stand: "behind",
  onStandLeft: () => {},
  onHold: () => {},
} as const;

describe("a browser without WebGL 2", () => {
  it("says so in the picture's place, and that the rest works", () => {
    render(<Viewport {...NOTHING} />);
    const words = screen.getByRole("status").textContent!;
    expect(words).toMatch(/no 3D picture/i);
    expect(words).toMatch(/verdicts/i);
    expect(words).toMatch(/curves/i);
  });

  it("refuses a snapshot and takes every other order calmly", async () => {
    const handle = createRef<ViewportHandle>();
    render(<Viewport {...NOTHING} ref={handle} />);
    await expect(handle.current!.snapshot(100, 80)).rejects.toThrow();
    handle.current!.orbitBy(10, 5);
    handle.current!.zoomBy(0.5);
    handle.current!.frame("above");
  });

  it("leaves the close look's place and words", () => {
    const handle = createRef<ViewportHandle>();
    render(
      <>
        <Viewport {...NOTHING} ref={handle} />
        <CloseLook
          viewport={handle}
          at={[0, 400, 400]}
          from={[0, 0, 1]}
          span_mm={120}
          pair={["upper@left", "sump"]}
          width={180}
          height={180}
          shape="round"
          theme="garage"
          label="Close look from above"
        />
      </>,
    );
    expect(screen.getByRole("img", { name: "Close look from above" })).toBeTruthy();
  });
});
