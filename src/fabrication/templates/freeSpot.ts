import {
  boxAround,
  cornersOf,
  distanceToRing,
  distanceToSide,
  type Flat,
  polygonOf,
  type Words,
  widthOf,
} from "./drawing.ts";
import type { FlatPart } from "./flatPart.ts";

/** Heights that a name is tried in, mm, the largest first. */
const HEIGHTS_mm = [6, 5, 4, 3, 2.5];
/** Bare steel left about it. */
const MARGIN_mm = 1.5;
const STEPS = 16;

/** Where a text fits on the plate clear of edges, holes and bends, as large as it goes; null: nowhere. */
export function freeSpot(part: FlatPart, text: string): Words | null {
  for (const height_mm of HEIGHTS_mm) {
    const width_mm = widthOf({ text, height_mm });
    for (const turn_deg of [0, 90]) {
      const [wide, high] = turn_deg === 0 ? [width_mm, height_mm] : [height_mm, width_mm];
      const middle = freeMiddle(part, wide, high);
      if (!middle) continue;
      const [u, v] = middle;
      const at: Flat = turn_deg === 0 ? [u - wide / 2, v - high / 2] : [u + wide / 2, v - high / 2];
      return { text, height_mm, turn_deg, at };
    }
  }
  return null;
}

/** The middle of the roomiest place for a box on the plate, clear of all that is on it and of `taken`; null: there is none. */
export function freeMiddle(part: FlatPart, wide_mm: number, high_mm: number, taken: Words | null = null): Flat | null {
  const outline = polygonOf(part.outline, 0.1);
  const { min, max } = boxAround(outline);
  let best: Flat | null = null;
  let most_mm = MARGIN_mm;
  for (let i = 1; i < STEPS; i++) {
    for (let j = 1; j < STEPS; j++) {
      const middle: Flat = [min[0] + ((max[0] - min[0]) * i) / STEPS, min[1] + ((max[1] - min[1]) * j) / STEPS];
      const room_mm = roomAbout(middle, [wide_mm, high_mm], part, outline, taken);
      // a place must be clearly roomier to be taken over one before it, so that like plates are marked alike
      if (room_mm > most_mm + 0.01) [best, most_mm] = [middle, room_mm];
    }
  }
  return best;
}

/** Least distance from a box to what it must stay off; negative where it leaves the plate. */
function roomAbout(
  [u, v]: Flat,
  [wide, high]: Flat,
  part: FlatPart,
  outline: readonly Flat[],
  taken: Words | null,
): number {
  const corners: Flat[] = [
    [u - wide / 2, v - high / 2],
    [u + wide / 2, v - high / 2],
    [u + wide / 2, v + high / 2],
    [u - wide / 2, v + high / 2],
  ];
  // places along the border of the box stand for it: sides of plates are long against the steps
  const border = corners.flatMap((a, i): Flat[] => {
    const b = corners[(i + 1) % 4]!;
    return [0, 0.25, 0.5, 0.75].map((t): Flat => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
  });
  const words = taken ? cornersOf(taken) : [];
  // what lies wholly within the box
  if (words.some((p) => isWithin(p, corners))) return -1;
  if (part.holes.some((hole) => isWithin(hole.kind === "circle" ? hole.centre : hole.corners[0]!.at, corners)))
    return -1;
  let room = Infinity;
  for (const p of border) {
    if (!isWithin(p, outline) || isWithin(p, words)) return -1;
    room = Math.min(room, distanceToRing(p, part.outline));
    for (const [i, a] of words.entries()) room = Math.min(room, distanceToSide(p, a, words[(i + 1) % 4]!));
    for (const hole of part.holes) {
      if (hole.kind === "circle") {
        room = Math.min(room, Math.hypot(p[0] - hole.centre[0], p[1] - hole.centre[1]) - hole.diameter_mm / 2);
      } else {
        if (isWithin(p, polygonOf(hole, 0.1))) return -1;
        room = Math.min(room, distanceToRing(p, hole));
      }
    }
    for (const { from, to, allowance_mm } of part.folds) {
      if (sidesOf(corners, from, to)) return -1;
      room = Math.min(room, distanceToSide(p, from, to) - allowance_mm / 2);
    }
  }
  return room;
}

/** Whether the box lies on both sides of a fold. */
function sidesOf(corners: readonly Flat[], from: Flat, to: Flat): boolean {
  const side = ([u, v]: Flat) => Math.sign((to[0] - from[0]) * (v - from[1]) - (to[1] - from[1]) * (u - from[0]));
  return new Set(corners.map(side)).size > 1;
}

/** Even-odd rule. */
export function isWithin([u, v]: Flat, polygon: readonly Flat[]): boolean {
  let inside = false;
  for (const [i, [u0, v0]] of polygon.entries()) {
    const [u1, v1] = polygon[(i + 1) % polygon.length]!;
    if (v0 > v !== v1 > v && u < u0 + ((v - v0) / (v1 - v0)) * (u1 - u0)) inside = !inside;
  }
  return inside;
}
