import type { Scene, Side } from "../../scene/scene.ts";
import { ruleShape } from "../rule/ruleShape.ts";
import type { Layout } from "../shell/useLayout.ts";
import type { SessionState } from "../store/state.ts";
import type { Inset } from "../viewport/framing.ts";
import { type Circle, TOUCH_RING } from "./ViewLines.tsx";

/** Where things lie over the view, CSS px. */
export interface ViewPlan {
  readonly ruleTop: number;
  readonly ruleHeight: number;
  /** What is covered at the edges: stands frame the car between. */
  readonly inset: Inset;
  /** Where the close look lies: at the top, near the touch but never over it. */
  lens(touch: { readonly x: number; readonly y: number }): Circle;
  /** The lower inner corner of each wheel's flag. */
  flags(scene: Scene, travel_mm: SessionState["travel_mm"]): Partial<Record<Side, { x: number; y: number }>>;
}

const RULE_HEIGHT = 430;
const LEAST_RULE_HEIGHT = { wide: 190, tablet: 190, phone: 150 } as const;
const HEAD = 66;
const FOOT = 66;
/** Below a rule, for what its lane cannot say by itself. */
const CAPTION = 42;
/** Narrower than this the dock takes a second row. */
const DOCK_WIDTH = { wide: 955, tablet: 680, phone: 0 } as const;
const DOCK_ROW = 56;
/** Narrower than this a tablet's chips take a second row. */
const CHIPS_WIDTH = 600;
const CHIP_ROW = 56;
export const RULE_MARGIN = 14;
/** The rules stand this far below the view's middle: more lies above them than below. */
const RULE_DROP = 4;

export function viewPlan(layout: Layout, width: number, height: number): ViewPlan {
  const large = layout !== "wide";
  const foot = width < DOCK_WIDTH[layout] ? FOOT + DOCK_ROW : FOOT;
  const head = layout === "tablet" && width < CHIPS_WIDTH ? HEAD + CHIP_ROW : HEAD;
  const under = layout === "phone" ? 4 : CAPTION;
  const above = layout === "phone" ? 28 : 12;
  const ruleHeight = Math.max(LEAST_RULE_HEIGHT[layout], Math.min(RULE_HEIGHT, height - head - foot - above - under));
  const middle = (height + head - HEAD - ruleHeight) / 2 + RULE_DROP;
  const ruleTop = Math.min(middle, height - foot - ruleHeight - under);
  const radius = Math.max(56, Math.min(100, width * 0.12, height * 0.17));
  const side = RULE_MARGIN + (large ? 92 : 96);
  const lensX = layout === "phone" ? width - radius - 24 : RULE_MARGIN + 156 + radius;
  const lensY = head + radius + 8;
  const outmost: Circle = { x: lensX, y: lensY, radius };
  return {
    ruleTop,
    ruleHeight,
    inset: { top: head + 20, bottom: foot + 8, left: side, right: layout === "phone" ? 16 : side },
    lens: (touch) => (layout === "phone" ? outmost : clearLens(outmost, width, touch)),
    flags(scene, travel_mm) {
      const range_mm = [-scene.travel.droop_mm, scene.travel.bump_mm] as const;
      const ends: Partial<Record<Side, { x: number; y: number }>> = {};
      if (layout === "phone") return ends;
      for (const side of scene.sides) {
        const shape = ruleShape({ side, height: ruleHeight, large, range_mm });
        const x = RULE_MARGIN + shape.width - 2;
        const y = ruleTop + shape.y(travel_mm[side]) + 22;
        ends[side] = { x: side === "left" ? x : width - x, y };
      }
      return ends;
    },
  };
}

const STEP = 12;

/** Slides the lens inwards from the touch's side of the view until the touch's ring is out of its way. */
function clearLens(outmost: Circle, width: number, touch: { readonly x: number; readonly y: number }): Circle {
  const least = Math.min(outmost.x, width - outmost.x);
  const inwards = touch.x < width / 2 ? 1 : -1;
  let x = inwards > 0 ? least : width - least;
  for (let k = 0; k * STEP < width - 2 * least; k++) {
    if (Math.hypot(touch.x - x, touch.y - outmost.y) >= outmost.radius + TOUCH_RING + 16) break;
    x += inwards * STEP;
  }
  return { ...outmost, x };
}
