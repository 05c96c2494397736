import { useEffect, useRef, useState } from "react";
import type { SessionState } from "../store/state.ts";

type Travel = SessionState["travel_mm"];

const EASE_ms = 160;
/** Smaller steps, such as a drag's, are followed at once. */
const JUMP_mm = 6;

/** The travel as the eye sees it: jumps take 160 ms, unless the builder asked for less motion. */
export function useEasedTravel(wanted: Travel): Travel {
  const [seen, setSeen] = useState(wanted);
  const now = useRef(wanted);
  useEffect(() => {
    const from = now.current;
    const jump = Math.max(Math.abs(wanted.left - from.left), Math.abs(wanted.right - from.right));
    const show = (travel: Travel): void => {
      now.current = travel;
      setSeen(travel);
    };
    if (jump < JUMP_mm || matchMedia("(prefers-reduced-motion: reduce)").matches) {
      show(wanted);
      return;
    }
    const began = performance.now();
    let frame = requestAnimationFrame(function step(time) {
      const share = Math.min(1, Math.max(0, (time - began) / EASE_ms));
      const eased = 1 - (1 - share) ** 3;
      if (share >= 1) return show(wanted);
      show({
        left: from.left + (wanted.left - from.left) * eased,
        right: from.right + (wanted.right - from.right) * eased,
      });
      frame = requestAnimationFrame(step);
    });
    return () => cancelAnimationFrame(frame);
  }, [wanted]);
  return seen;
}
