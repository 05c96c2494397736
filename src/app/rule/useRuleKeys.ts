import type { KeyboardEvent } from "react";
import { travelStep_mm } from "../words/travelStep.ts";
import type { TravelRuleProps } from "./TravelRule.tsx";

type Known = Pick<TravelRuleProps, "unit" | "travel_mm" | "onTravel">;

/** ↑ and ↓ by a step, with Shift or as Page keys by ten; Home is ride height. */
export function useRuleKeys({ unit, travel_mm, onTravel }: Known): (event: KeyboardEvent) => void {
  return (event) => {
    const by = stepOf(event);
    if (by === null && event.key !== "Home") return;
    event.preventDefault();
    onTravel(by === null ? 0 : travel_mm + by * travelStep_mm(unit));
  };
}

function stepOf({ key, shiftKey }: KeyboardEvent): number | null {
  const size = shiftKey ? 10 : 1;
  if (key === "ArrowUp" || key === "ArrowRight") return size;
  if (key === "ArrowDown" || key === "ArrowLeft") return -size;
  if (key === "PageUp") return 10;
  return key === "PageDown" ? -10 : null;
}
