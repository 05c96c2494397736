import { type PointerEvent, useRef } from "react";
import type { Unit } from "../store/state.ts";
import { travelStep_mm } from "../words/travelStep.ts";
import { bandAt } from "./bands.ts";
import type { TravelRuleProps } from "./ruleProps.ts";
import { FLAG_HEIGHT, LANE_REACH_px, LANE_WIDTH, type RuleShape, travelAtY } from "./ruleShape.ts";

/** A press that moves less than this is a tap. */
const TAP_px = 5;
const SWIPE_px = 40;

interface Press {
  readonly x: number;
  readonly y: number;
  /** From the pointer to the flag's middle, so that a grabbed flag does not jump; null: not a drag of the flag yet. */
  grip: number | null;
  readonly onLane: boolean;
  moved: boolean;
}

type Known = Pick<TravelRuleProps, "unit" | "travel_mm" | "bands" | "onTravel" | "onBand" | "onSwipe">;

/** The flag follows a drag anywhere on the rule; a tap on a painted band jumps to its worst; a swipe shows the other side. */
export function useRuleDrag(shape: RuleShape, known: Known) {
  const press = useRef<Press | null>(null);
  return {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      if (event.button !== 0) return;
      const at = within(event);
      const fromEdge = shape.x(at.x) - shape.edge;
      const flag = shape.y(known.travel_mm);
      const onFlag = fromEdge > LANE_WIDTH && Math.abs(at.y - flag) <= FLAG_HEIGHT / 2;
      const onLane = !onFlag && fromEdge > -LANE_WIDTH / 2;
      if (!onFlag && fromEdge > LANE_REACH_px - LANE_WIDTH / 2) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      press.current = { ...at, grip: onFlag ? flag - at.y : null, onLane, moved: false };
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      const began = press.current;
      if (!began) return;
      const at = within(event);
      if (!began.moved) {
        if (Math.abs(at.y - began.y) < TAP_px) return;
        began.moved = true;
        began.grip ??= 0;
      }
      known.onTravel(snapped(travelAtY(shape, at.y + began.grip!), known.unit, event.shiftKey));
    },
    onPointerUp(event: PointerEvent<HTMLElement>) {
      const began = press.current;
      press.current = null;
      if (!began || began.moved) return;
      const at = within(event);
      if (known.onSwipe && Math.abs(at.x - began.x) > SWIPE_px) return known.onSwipe();
      if (began.grip !== null) return;
      const travel_mm = travelAtY(shape, at.y);
      const band = began.onLane ? bandAt(known.bands, travel_mm) : undefined;
      if (band) known.onBand(band);
      else known.onTravel(snapped(travel_mm, known.unit, event.shiftKey));
    },
    onPointerCancel() {
      press.current = null;
    },
  };
}

/** Whole steps of travel (1 mm, 1/16 in), with Shift tenths of them. */
function snapped(travel_mm: number, unit: Unit, fine: boolean): number {
  const step = travelStep_mm(unit) * (fine ? 0.1 : 1);
  return Math.round(travel_mm / step) * step;
}

function within(event: PointerEvent<HTMLElement>): { x: number; y: number } {
  const box = event.currentTarget.getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}
