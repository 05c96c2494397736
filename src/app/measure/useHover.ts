import { useEffect, useRef } from "react";
import type { MeasuredState } from "../../check/measures.ts";
import type { Stage } from "../corner/useStage.ts";
import { viewHandle } from "../shell/viewHandle.ts";
import type { GrabPlace } from "../viewport/gestures.ts";
import { hoverMeasure } from "./underPointer.ts";

/** Tells what a press would pick as the mouse passes over the picture, once a frame at the most; nothing while `state` is null. */
export function useHover(stage: Stage, state: MeasuredState | null): (at: GrabPlace) => void {
  const now = useRef({ stage, state });
  const frame = useRef(0);
  const wanted = useRef<GrabPlace | null>(null);
  useEffect(() => {
    now.current = { stage, state };
  });
  useEffect(() => () => cancelAnimationFrame(frame.current), []);
  return (at) => {
    wanted.current = at;
    if (!now.current.state) return;
    frame.current ||= requestAnimationFrame(() => {
      frame.current = 0;
      const sight = viewHandle.current?.sight();
      const { stage: shown, state: measured } = now.current;
      if (wanted.current && sight && measured) hoverMeasure(wanted.current, sight, shown, measured);
    });
  };
}
