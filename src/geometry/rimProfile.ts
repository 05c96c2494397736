import type { ProfilePoint } from "./revolve.ts";
import type { TyreSize } from "./tyreSize.ts";

/*
 * Plain road-rim proportions, common practice, no source: lengths in mm, others per rim width or per bead-seat radius.
 */
const FLANGE_HEIGHT = 17;
const FLANGE_LIP = 9;
const WALL = 5;
const DROP_DEPTH = 17;
const DISC = 12;
const DROP_INBOARD_PER_WIDTH = 0.12;
const DROP_OUTBOARD_PER_WIDTH = 0.38;
const DROP_SLOPE_PER_WIDTH = 0.1;
const BORE_PER_RADIUS = 0.16;
const PAD_PER_RADIUS = 0.38;
const DISH_PER_RADIUS = 0.46;
const WINDOW_PER_RADIUS = 0.5;
const WINDOW_EDGE = 6;

/** A closed profile (radius from the spin axis, height outboard of the wheel's centre plane), counter-clockwise. */
export interface RimProfile {
  readonly points: readonly ProfilePoint[];
  /** Corners of the windows in the disc's flat part; front is outboard. Each follows the one before or after on a face. */
  readonly windowOuterFront: number;
  readonly windowInnerFront: number;
  readonly windowInnerBack: number;
  readonly windowOuterBack: number;
}

export function rimProfile(size: TyreSize, rimOffset_mm: number): RimProfile {
  const seat = size.rimDiameter_mm / 2;
  const half = size.rimWidth_mm / 2;
  const flange = seat + FLANGE_HEIGHT;
  const drop = seat - DROP_DEPTH;
  const inboard = -DROP_INBOARD_PER_WIDTH * size.rimWidth_mm;
  const outboard = DROP_OUTBOARD_PER_WIDTH * size.rimWidth_mm;
  const slope = DROP_SLOPE_PER_WIDTH * size.rimWidth_mm;
  const [dropFrom, dropTo] = [inboard + slope, outboard - slope];
  const outside: ProfilePoint[] = [
    [flange, -half - FLANGE_LIP],
    [flange, -half],
    [seat, -half],
    [seat, inboard],
    [drop, dropFrom],
    [drop, dropTo],
    [seat, outboard],
    [seat, half],
    [flange, half],
    [flange, half + FLANGE_LIP],
    [flange - WALL, half + FLANGE_LIP],
    [flange - WALL, half + WALL],
    [seat - WALL, half + WALL],
    [seat - WALL, outboard],
    [drop - WALL, dropTo],
  ];
  // the disc meets the barrel under the drop centre, whatever the offset
  const web = Math.min(Math.max(rimOffset_mm, dropFrom + 1), dropTo - DISC - 1);
  const face = (axialHub: number, axialWeb: number): ProfilePoint[] => [
    [drop - WALL, axialWeb],
    [drop - WALL - WINDOW_EDGE, axialWeb],
    [WINDOW_PER_RADIUS * seat, axialWeb],
    [DISH_PER_RADIUS * seat, axialWeb],
    [PAD_PER_RADIUS * seat, axialHub],
    [BORE_PER_RADIUS * seat, axialHub],
  ];
  const front = face(rimOffset_mm + DISC, web + DISC);
  const back = face(rimOffset_mm, web).reverse();
  const inside: ProfilePoint[] = [
    [drop - WALL, dropFrom],
    [seat - WALL, inboard],
    [seat - WALL, -half - WALL],
    [flange - WALL, -half - WALL],
    [flange - WALL, -half - FLANGE_LIP],
  ];
  const first = outside.length;
  return {
    points: [...outside, ...front, ...back, ...inside],
    windowOuterFront: first + 1,
    windowInnerFront: first + 2,
    windowInnerBack: first + 9,
    windowOuterBack: first + 10,
  };
}
