import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { listenForGestures } from "../../../src/app/viewport/gestures.ts";
import type { Picture } from "../../../src/app/viewport/picture.ts";
import { CameraRig } from "../../../src/app/viewport/rig.ts";

let element: HTMLDivElement;
let rig: CameraRig;
let held: (string | null)[];
let moves: number;
let grabbed: string[];
const isOnMark = ({ x, y }: { x: number; y: number }) => Math.hypot(x - 150, y - 150) < 10;
let stop: () => void;

beforeEach(() => {
  element = document.createElement("div");
  element.setPointerCapture = () => {};
  document.body.append(element);
  rig = new CameraRig();
  held = [];
  moves = 0;
  grabbed = [];
  // a part called "upper" covers the left half of the picture
  const picture = {
    rig,
    pick: (x: number) => (x < 100 ? { body: { id: "upper" }, at: [0, 400, 400] } : null),
    underPointer: () => [0, 0, 400],
    mmPerPx: () => 2,
    moved: () => {},
  } as unknown as Picture;
  stop = listenForGestures(element, () => picture, {
    onMoved: () => {
      moves++;
    },
    onHold: (id) => held.push(id),
    // what the shell drew lies at 150, 150
    onGrab: (at) => {
      if (!isOnMark(at)) return null;
      return {
        move: ({ x, y }) => grabbed.push(`${x},${y}`),
        end: (isKept) => grabbed.push(isKept ? "kept" : "not kept"),
      };
    },
    onTap: (at) => isOnMark(at) && grabbed.push("tapped") > 0,
  });
});

afterEach(() => {
  stop();
  element.remove();
});

function pointer(type: string, x: number, y: number, more: PointerEventInit = {}) {
  element.dispatchEvent(
    new PointerEvent(type, {
      clientX: x,
      clientY: y,
      pointerId: 1,
      pointerType: "mouse",
      button: 0,
      bubbles: true,
      ...more,
    }),
  );
}

describe("mouse", () => {
  it("holds what is clicked, and nothing beside it", () => {
    pointer("pointerdown", 50, 50);
    pointer("pointermove", 52, 51);
    pointer("pointerup", 52, 51);
    pointer("pointerdown", 150, 50);
    pointer("pointerup", 150, 50);
    expect(held).toEqual(["upper", null]);
    expect(moves).toBe(0);
  });

  it("orbits with the left button and holds nothing after it", () => {
    const before = rig.place;
    pointer("pointerdown", 50, 50);
    pointer("pointermove", 90, 60);
    pointer("pointerup", 90, 60);
    expect(rig.place.azimuth_rad).not.toBe(before.azimuth_rad);
    expect(rig.place.distance_mm).toBe(before.distance_mm);
    expect(held).toEqual([]);
    expect(moves).toBeGreaterThan(0);
  });

  it("slides with another button and keeps the direction", () => {
    const before = rig.place;
    pointer("pointerdown", 50, 50, { button: 2 });
    pointer("pointermove", 90, 60, { button: -1 });
    pointer("pointerup", 90, 60, { button: 2 });
    expect(rig.place.azimuth_rad).toBe(before.azimuth_rad);
    expect(rig.place.target).not.toEqual(before.target);
    expect(held).toEqual([]);
  });

  it("comes nearer with the wheel", () => {
    const before = rig.place.distance_mm;
    element.dispatchEvent(new WheelEvent("wheel", { deltaY: -120, clientX: 50, clientY: 50, cancelable: true }));
    expect(rig.place.distance_mm).toBeLessThan(before);
  });
});

describe("fingers", () => {
  const touch = { pointerType: "touch" } as const;
  const tap = (x: number, y: number) => {
    pointer("pointerdown", x, y, touch);
    pointer("pointerup", x, y, touch);
  };

  it("hold on the second tap, not on the first", () => {
    tap(50, 50);
    expect(held).toEqual([]);
    tap(54, 52);
    expect(held).toEqual(["upper"]);
  });

  it("do not take two taps far apart for one", () => {
    tap(50, 50);
    tap(95, 90);
    expect(held).toEqual([]);
  });

  it("pinch nearer and slide with two, without turning", () => {
    const before = rig.place;
    pointer("pointerdown", 50, 50, touch);
    pointer("pointerdown", 90, 50, { ...touch, pointerId: 2 });
    pointer("pointermove", 170, 50, { ...touch, pointerId: 2 });
    pointer("pointerup", 170, 50, { ...touch, pointerId: 2 });
    pointer("pointerup", 50, 50, touch);
    expect(rig.place.distance_mm).toBeCloseTo(before.distance_mm / 3, 6);
    expect(rig.place.azimuth_rad).toBe(before.azimuth_rad);
    expect(held).toEqual([]);
  });
});

describe("what lies over the picture", () => {
  it("follows the pointer in place of the camera, from the first clear movement on", () => {
    const before = rig.place;
    pointer("pointerdown", 150, 150);
    pointer("pointermove", 152, 151);
    pointer("pointermove", 170, 160);
    pointer("pointerup", 170, 160);
    expect(grabbed).toEqual(["170,160", "kept"]);
    expect(rig.place).toBe(before);
    expect(moves).toBe(0);
    expect(held).toEqual([]);
  });

  it("is tapped by a click, and by the first tap of a finger", () => {
    pointer("pointerdown", 150, 150);
    pointer("pointerup", 150, 150);
    pointer("pointerdown", 151, 150, { pointerType: "touch" });
    pointer("pointerup", 151, 150, { pointerType: "touch" });
    expect(grabbed).toEqual(["not kept", "tapped", "not kept", "tapped"]);
    expect(held).toEqual([]);
  });

  it("is let go when a second finger comes down or the browser takes the pointer away", () => {
    const touch = { pointerType: "touch" } as const;
    pointer("pointerdown", 150, 150, touch);
    pointer("pointermove", 170, 150, touch);
    pointer("pointerdown", 40, 40, { ...touch, pointerId: 2 });
    expect(grabbed).toEqual(["170,150", "not kept"]);
    pointer("pointerup", 40, 40, { ...touch, pointerId: 2 });
    pointer("pointerup", 170, 150, touch);
    pointer("pointerdown", 150, 150);
    pointer("pointermove", 180, 150);
    pointer("pointercancel", 180, 150);
    expect(grabbed).toEqual(["170,150", "not kept", "180,150", "not kept"]);
  });
});
