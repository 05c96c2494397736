import type { Side } from "../../scene/scene.ts";
import { linearScale, type Scale } from "../curves/scale.ts";

/** Room above and below the scale for the hole and the words bump and droop. */
export const RULE_PAD = 34;
export const LANE_WIDTH = 14;
export const FLAG_HEIGHT = 44;
/** Width in which a tap means the painted lane, from half a lane inside the edge. */
export const LANE_REACH_px = 44;

/** Where the parts of a rule stand, px from its left edge. The right wheel's rule is the left one's image. */
export interface RuleShape {
  readonly width: number;
  readonly height: number;
  /** The edge from which the lines grow, towards the wheel. */
  readonly edge: number;
  readonly flagWidth: number;
  readonly y: Scale;
  /** Mirrors an x for the right wheel. */
  x(left: number): number;
  /** Left edge of a box whose near edge is `left`. */
  boxX(left: number, width: number): number;
}

interface Wanted {
  readonly side: Side;
  readonly height: number;
  readonly large: boolean;
  /** [droop end, bump end]. */
  readonly range_mm: readonly [number, number];
}

export function ruleShape({ side, height, large, range_mm }: Wanted): RuleShape {
  const edge = 2 + (large ? 54 : 48);
  const flagWidth = large ? 84 : 76;
  const width = edge + 2 * LANE_WIDTH + flagWidth + 2;
  const right = side === "right";
  return {
    width,
    height,
    edge,
    flagWidth,
    y: linearScale(range_mm[0], range_mm[1], height - RULE_PAD, RULE_PAD),
    x: (left) => (right ? width - left : left),
    boxX: (left, boxWidth) => (right ? width - left - boxWidth : left),
  };
}

/** The travel at a height on the rule, within its range. */
export function travelAtY({ y, height }: RuleShape, at: number): number {
  const share = (height - RULE_PAD - at) / (height - 2 * RULE_PAD);
  return Math.min(y.to, Math.max(y.from, y.from + share * (y.to - y.from)));
}
