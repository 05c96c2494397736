import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { type GrabPlace, listenForGestures } from "../../../src/app/viewport/gestures.ts";
import type { Picture } from "../../../src/app/viewport/picture.ts";

let element: HTMLElement;
let stop: () => void;
const moved = vi.fn<(at: GrabPlace) => void>();
const ended = vi.fn<(isKept: boolean) => void>();

beforeEach(() => {
  element = document.createElement("div");
  element.setPointerCapture = () => {};
  document.body.append(element);
  moved.mockClear();
  ended.mockClear();
  stop = listenForGestures(element, () => ({ pick: () => null }) as unknown as Picture, {
    onMoved() {},
    onHold() {},
    onGrab: () => ({ move: moved, end: ended }),
  });
});
afterEach(() => {
  stop();
  element.remove();
});

function tell(type: string, x: number, y: number, pointerId = 1, target: EventTarget = element): void {
  target.dispatchEvent(new PointerEvent(type, { pointerId, clientX: x, clientY: y, button: 0, bubbles: true }));
}

test("what is pulled follows moves as they come, and is not moved again with the frame", () => {
  tell("pointerdown", 100, 100);
  tell("pointerrawupdate", 110, 100);
  tell("pointerrawupdate", 120, 100);
  tell("pointermove", 120, 100);
  expect(moved.mock.calls.map(([at]) => at.x)).toEqual([110, 120]);
  tell("pointerup", 120, 100);
  expect(ended).toHaveBeenCalledExactlyOnceWith(true);
});

test("it follows the frame's moves where the browser tells no others", () => {
  tell("pointerdown", 100, 100);
  tell("pointermove", 110, 100);
  expect(moved.mock.calls.map(([at]) => at.x)).toEqual([110]);
});

test("another finger breaks it off wherever it lands, and what the first does then moves nothing", () => {
  const panel = document.createElement("button");
  document.body.append(panel);
  tell("pointerdown", 100, 100);
  tell("pointermove", 110, 100);
  tell("pointerdown", 5, 5, 2, panel);
  expect(ended).toHaveBeenCalledExactlyOnceWith(false);
  tell("pointermove", 150, 100);
  expect(moved).toHaveBeenCalledTimes(1);
  panel.remove();
});

test("a press that hardly moves pulls nothing", () => {
  tell("pointerdown", 100, 100);
  tell("pointermove", 102, 101);
  tell("pointerup", 102, 101);
  expect(moved).not.toHaveBeenCalled();
  expect(ended).toHaveBeenCalledExactlyOnceWith(false);
});
