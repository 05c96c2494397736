import { useEffect, useRef } from "react";
import { viewHandle } from "../shell/viewHandle.ts";
import type { GrabPlace } from "../viewport/gestures.ts";
import { hoverMeasure, type MeasuredScene } from "./underPointer.ts";

/** Tells what a press would pick as the mouse passes over the picture, once a frame at the most; nothing while `shown` is null. */
export function useHover(shown: MeasuredScene | null): (at: GrabPlace) => void {
  const now = useRef(shown);
  const frame = useRef(0);
  const wanted = useRef<GrabPlace | null>(null);
  useEffect(() => {
    now.current = shown;
  });
  useEffect(() => () => cancelAnimationFrame(frame.current), []);
  return (at) => {
    wanted.current = at;
    if (!now.current) return;
    frame.current ||= requestAnimationFrame(() => {
      frame.current = 0;
      const sight = viewHandle.current?.sight();
      if (wanted.current && sight && now.current) hoverMeasure(wanted.current, sight, now.current);
    });
  };
}
