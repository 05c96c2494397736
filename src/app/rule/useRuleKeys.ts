import type { KeyboardEvent } from "react";
import { travelStep_mm } from "../words/travelStep.ts";
import type { TravelRuleProps } from "./ruleProps.ts";

type Known = Pick<TravelRuleProps, "unit" | "travel_mm" | "range_mm" | "onTravel">;

/** ↑ and ↓ by a step, with Shift by ten; Home is ride height, Page Up and End full bump, Page Down full droop. */
export function useRuleKeys({ unit, travel_mm, range_mm, onTravel }: Known): (event: KeyboardEvent) => void {
  return (event) => {
    const by = stepOf(event);
    const to_mm = by === null ? placeOf(event.key, range_mm) : travel_mm + by * travelStep_mm(unit);
    if (to_mm === null) return;
    event.preventDefault();
    onTravel(to_mm);
  };
}

function stepOf({ key, shiftKey }: KeyboardEvent): number | null {
  const size = shiftKey ? 10 : 1;
  if (key === "ArrowUp" || key === "ArrowRight") return size;
  return key === "ArrowDown" || key === "ArrowLeft" ? -size : null;
}

function placeOf(key: string, [droop_mm, bump_mm]: TravelRuleProps["range_mm"]): number | null {
  if (key === "Home") return 0;
  if (key === "PageUp" || key === "End") return bump_mm;
  return key === "PageDown" ? droop_mm : null;
}
