import type { Vec3 } from "../../maths/vec3.ts";
import type { Picture } from "./picture.ts";

export interface GestureEvents {
  /** The camera was moved by hand. */
  onMoved(): void;
  onHold(bodyId: string | null): void;
  /** A finger or the left button goes down: what it takes hold of, if anything; else the camera moves. */
  onGrab?(at: GrabPlace): Grab | null;
  /** A mouse passes over the picture with no button down. */
  onHover?(at: GrabPlace): void;
  /** A click or a single tap: true where it meant something that is drawn over the picture. */
  onTap?(at: GrabPlace): boolean;
}

/** Where a pointer is, CSS px from the picture's upper left. */
export interface GrabPlace {
  readonly x: number;
  readonly y: number;
  readonly isTouch: boolean;
  readonly shiftKey: boolean;
}

/** Something that follows the pointer in place of the camera. */
export interface Grab {
  move(at: GrabPlace): void;
  /** Let go; `isKept` is false when the gesture was broken off. */
  end(isKept: boolean): void;
}

const RADIANS_PER_PX = 0.0065;
const CLICK_PX = 5;
const CLICK_MS = 450;
const DOUBLE_TAP_MS = 380;
const DOUBLE_TAP_PX = 30;
const WHEEL_PAUSE_MS = 250;

interface Pointer {
  x: number;
  y: number;
}

/**
 * Fingers, mouse and wheel on the picture. One finger or the left button orbits, two fingers or another button slide, wheel and
 * pinch come nearer, all about what is pointed at. What the shell has drawn over the picture may take the pointer instead
 * (`onGrab`, `onTap`). A click holds the part under it; on a touch screen a double tap does.
 */
export function listenForGestures(
  element: HTMLElement,
  picture: () => Picture | null,
  events: GestureEvents,
): () => void {
  const pointers = new Map<number, Pointer>();
  let pivot: Vec3 = [0, 0, 0];
  let mode: "orbit" | "pan" | "pinch" | "grab" | null = null;
  let grab: Grab | null = null;
  let isToldAtOnce = false;
  let pressed: (Pointer & { time: number; still: boolean }) | null = null;
  let lastTap: (Pointer & { time: number }) | null = null;
  let wheelAt: (Pointer & { time: number; pivot: Vec3 }) | null = null;

  // while a pointer is down the picture stays where it is, and asking anew would lay the page out at every move
  let held: { left: number; top: number } | null = null;
  const place = (event: PointerEvent | WheelEvent): Pointer => {
    const box = held ?? element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  const pivotAt = (shown: Picture, at: Pointer): Vec3 => shown.pick(at.x, at.y)?.at ?? shown.underPointer(at.x, at.y);
  const middle = (): Pointer & { spread: number } => {
    const [a, b] = [...pointers.values()] as [Pointer, Pointer];
    return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, spread: Math.hypot(a.x - b.x, a.y - b.y) };
  };

  const grabPlace = (event: PointerEvent): GrabPlace => {
    return { ...place(event), isTouch: event.pointerType === "touch", shiftKey: event.shiftKey };
  };
  const letGo = (isKept: boolean): void => {
    window.removeEventListener("pointerdown", breakOff, { capture: true });
    element.removeEventListener("pointerrawupdate", pullAtOnce);
    grab?.end(isKept);
    grab = null;
  };
  // another finger breaks a pull off wherever it lands: on the picture or on a panel over it
  const breakOff = () => letGo(false);

  /** Until a pointer has left the place where it went down, it may be a click. */
  const isStill = (at: Pointer): boolean => {
    if (pressed?.still && Math.hypot(at.x - pressed.x, at.y - pressed.y) < CLICK_PX) return true;
    if (pressed !== null) pressed.still = false;
    return false;
  };
  const pull = (event: PointerEvent): void => {
    if (mode !== "grab" || picture() === null || !pointers.has(event.pointerId)) return;
    const at = place(event);
    if (isStill(at)) return;
    pointers.set(event.pointerId, at);
    grab?.move(grabPlace(event));
  };
  // moves as they come, where the browser tells them so: otherwise it keeps them for the next frame
  const pullAtOnce = (event: Event): void => {
    isToldAtOnce = true;
    pull(event as PointerEvent);
  };

  const down = (event: PointerEvent) => {
    const shown = picture();
    if (shown === null || event.target instanceof HTMLButtonElement) return;
    held ??= element.getBoundingClientRect();
    const at = place(event);
    pointers.set(event.pointerId, at);
    element.setPointerCapture(event.pointerId);
    if (pointers.size === 1) {
      pressed = { ...at, time: event.timeStamp, still: true };
      grab = event.button === 0 ? (events.onGrab?.(grabPlace(event)) ?? null) : null;
      isToldAtOnce = false;
      if (grab) {
        window.addEventListener("pointerdown", breakOff, { capture: true });
        element.addEventListener("pointerrawupdate", pullAtOnce);
      }
      mode = grab ? "grab" : event.button === 0 ? "orbit" : "pan";
      if (!grab) pivot = pivotAt(shown, at);
    } else if (pointers.size === 2) {
      if (pressed !== null) pressed.still = false;
      mode = "pinch";
      pivot = pivotAt(shown, middle());
    }
  };

  const move = (event: PointerEvent) => {
    const shown = picture();
    const before = pointers.get(event.pointerId);
    if (before === undefined && event.pointerType === "mouse" && event.buttons === 0)
      events.onHover?.(grabPlace(event));
    if (shown === null || before === undefined || mode === null) return;
    if (mode === "grab") {
      if (!isToldAtOnce) pull(event);
      return;
    }
    const at = place(event);
    if (isStill(at)) return;
    if (mode === "pinch") {
      const old = middle();
      pointers.set(event.pointerId, at);
      const now = middle();
      slide(shown, now.x - old.x, now.y - old.y);
      if (old.spread > 8 && now.spread > 8) shown.rig.zoom(pivot, old.spread / now.spread);
    } else {
      pointers.set(event.pointerId, at);
      const [dx, dy] = [at.x - before.x, at.y - before.y];
      if (mode === "orbit") shown.rig.orbit(pivot, -dx * RADIANS_PER_PX, dy * RADIANS_PER_PX);
      else slide(shown, dx, dy);
    }
    shown.moved();
    events.onMoved();
  };

  const slide = (shown: Picture, dx: number, dy: number) => {
    const scale = shown.mmPerPx(pivot);
    shown.rig.pan(dx * scale, -dy * scale);
  };

  const up = (event: PointerEvent) => {
    if (!pointers.delete(event.pointerId)) return;
    const shown = picture();
    const press = pressed;
    letGo(event.type !== "pointercancel" && press !== null && !press.still);
    if (pointers.size > 0) {
      mode = null;
      return;
    }
    mode = null;
    pressed = null;
    const at = place(event);
    held = null;
    const quick = event.timeStamp - (press?.time ?? 0) < CLICK_MS;
    if (shown === null || press === null || !press.still || !quick || event.type === "pointercancel") return;
    if (event.button > 0) return;
    if (events.onTap?.({ ...at, isTouch: event.pointerType === "touch", shiftKey: event.shiftKey })) return;
    if (event.pointerType === "touch" && !isSecondTap(at, event.timeStamp)) return;
    events.onHold(shown.pick(at.x, at.y)?.body.id ?? null);
  };

  const isSecondTap = (at: Pointer, time: number): boolean => {
    const first = lastTap;
    lastTap = { ...at, time };
    if (first === null || time - first.time > DOUBLE_TAP_MS) return false;
    if (Math.hypot(at.x - first.x, at.y - first.y) > DOUBLE_TAP_PX) return false;
    lastTap = null;
    return true;
  };

  const wheel = (event: WheelEvent) => {
    const shown = picture();
    if (shown === null) return;
    event.preventDefault();
    const at = place(event);
    const same =
      wheelAt !== null &&
      event.timeStamp - wheelAt.time < WHEEL_PAUSE_MS &&
      Math.hypot(at.x - wheelAt.x, at.y - wheelAt.y) < CLICK_PX;
    const about = same && wheelAt !== null ? wheelAt.pivot : pivotAt(shown, at);
    wheelAt = { ...at, time: event.timeStamp, pivot: about };
    const lines = event.deltaMode === WheelEvent.DOM_DELTA_PIXEL ? event.deltaY : event.deltaY * 30;
    // a pinch on a touch pad comes as a wheel with Control, in small steps
    const step = Math.max(-0.35, Math.min(0.35, lines * (event.ctrlKey ? 0.01 : 0.0016)));
    shown.rig.zoom(about, Math.exp(step));
    shown.moved();
    events.onMoved();
  };

  const noMenu = (event: Event) => event.preventDefault();
  element.addEventListener("pointerdown", down);
  element.addEventListener("pointermove", move);
  element.addEventListener("pointerup", up);
  element.addEventListener("pointercancel", up);
  element.addEventListener("wheel", wheel, { passive: false });
  element.addEventListener("contextmenu", noMenu);
  return () => {
    letGo(false);
    element.removeEventListener("pointerdown", down);
    element.removeEventListener("pointermove", move);
    element.removeEventListener("pointerup", up);
    element.removeEventListener("pointercancel", up);
    element.removeEventListener("wheel", wheel);
    element.removeEventListener("contextmenu", noMenu);
  };
}
