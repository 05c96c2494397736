import { type Point2, tidyOutline } from "../../geometry/outline.ts";
import type { Circle, Corner, Flat, Ring } from "./drawing.ts";

/**
 * How far an outline that is drawn by straight sides may stand off the arc that it stands for, mm: recipes draw their arcs within 0.05 mm,
 * and files keep a ten-thousandth.
 */
const ARC_WITHIN_mm = 0.055;
const SAME_LENGTH_mm = 0.002;
const SAME_TURN_rad = 0.002;

/**
 * The outline of a plate with its arcs made round again, counter-clockwise. An outline stands around its arcs: sides touch them at
 * their middles, so a run of corners that turn alike between sides of one length is an arc about them. Anything else stays as it is drawn.
 */
export function ringOf(outline: readonly Point2[]): Ring {
  const corners = tidyOutline(outline, true);
  const n = corners.length;
  const turns = corners.map((_, i) => turnAt(corners, i));
  const sides = corners.map((_, i) => sideOf(corners, i));
  const isLinked = (i: number) =>
    sides[i]! > 0 &&
    Math.abs(turns[i]! - turns[(i + 1) % n]!) < SAME_TURN_rad &&
    standsOff(sides[i]!, turns[i]!) <= ARC_WITHIN_mm;
  const start = corners.findIndex((_, i) => !continues(i === 0 ? n - 1 : i - 1));
  if (start === -1) return disc(corners, sides[0]!, turns[0]!);

  const ring: Corner[] = [];
  for (let done = 0; done < n; ) {
    const first = (start + done) % n;
    let last = 0;
    while (done + last + 1 < n && continues((first + last) % n)) last++;
    if (last === 0) {
      ring.push({ at: corners[first]!, bulge: 0 });
      done++;
      continue;
    }
    // the arc begins and ends half a side beyond its outer corners
    const half = sides[first]! / 2;
    const end = (first + last) % n;
    const from = towards(corners[first]!, corners[(first + n - 1) % n]!, half);
    const to = towards(corners[end]!, corners[(end + 1) % n]!, half);
    // added up, so that the rounding of corners does not
    const turned = Array.from({ length: last + 1 }, (_, k) => turns[(first + k) % n]!).reduce(
      (sum, turn) => sum + turn,
    );
    ring.push({ at: from, bulge: Math.tan(turned / 4) }, { at: to, bulge: 0 });
    done += last + 1;
  }
  return { kind: "ring", corners: withoutDoubles(ring) };

  /** Whether the side after corner i belongs to an arc whose ends still fit on the sides beside it. */
  function continues(i: number): boolean {
    const [before, after] = [(i + n - 1) % n, (i + 1) % n];
    return (
      isLinked(i) &&
      sides[before]! >= sides[i]! / 2 - SAME_LENGTH_mm &&
      sides[after]! >= sides[i]! / 2 - SAME_LENGTH_mm &&
      (!isLinked(before) || Math.abs(sides[before]! - sides[i]!) < SAME_LENGTH_mm) &&
      (!isLinked(after) || Math.abs(sides[after]! - sides[i]!) < SAME_LENGTH_mm)
    );
  }
}

/** An outline that is one arc all round, as two halves. */
function disc(corners: readonly Flat[], side_mm: number, turn_rad: number): Ring {
  const centre: Flat = [mean(corners.map(([u]) => u)), mean(corners.map(([, v]) => v))];
  const radius_mm = side_mm / 2 / Math.tan(turn_rad / 2);
  return {
    kind: "ring",
    corners: [
      { at: [centre[0] - radius_mm, centre[1]], bulge: 1 },
      { at: [centre[0] + radius_mm, centre[1]], bulge: 1 },
    ],
  };
}

/** A hole that is drawn round, its corners on its circle; `flats_mm` is what passes between its sides. */
export interface RoundHole extends Circle {
  readonly flats_mm: number;
}

/** Corners as near as files keep them, mm, or as near as people write them by hand. */
const ROUND_WITHIN_mm = 0.08;
const FEWEST_CORNERS = 8;

/** A hole as it is cut: a circle where its corners lie on one, evenly spread. */
export function holeOf(outline: readonly Point2[]): RoundHole | Ring {
  const corners = tidyOutline(outline, true);
  const n = corners.length;
  const centre: Flat = [mean(corners.map(([u]) => u)), mean(corners.map(([, v]) => v))];
  const radii = corners.map(([u, v]) => Math.hypot(u - centre[0], v - centre[1]));
  const radius = mean(radii);
  const side = 2 * radius * Math.sin(Math.PI / n);
  const isRound =
    n >= FEWEST_CORNERS &&
    radii.every((r) => Math.abs(r - radius) <= ROUND_WITHIN_mm) &&
    corners.every((_, i) => Math.abs(sideOf(corners, i) - side) <= 3 * ROUND_WITHIN_mm);
  if (!isRound) return ringOf(outline);
  return {
    kind: "circle",
    centre: [round(centre[0]), round(centre[1])],
    diameter_mm: round(2 * radius),
    flats_mm: round(2 * radius * Math.cos(Math.PI / n)),
  };
}

/** How far a corner of sides of this length, turning so, stands off the arc that they touch. */
function standsOff(side_mm: number, turn_rad: number): number {
  const t = Math.tan(Math.abs(turn_rad) / 2);
  if (t === 0) return Infinity;
  return (side_mm / 2 / t) * (1 / Math.cos(turn_rad / 2) - 1);
}

function sideOf(corners: readonly Flat[], i: number): number {
  const [a, b] = [corners[i]!, corners[(i + 1) % corners.length]!];
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}

function turnAt(corners: readonly Flat[], i: number): number {
  const n = corners.length;
  const [a, b, c] = [corners[(i + n - 1) % n]!, corners[i]!, corners[(i + 1) % n]!];
  const [inU, inV, outU, outV] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
  return Math.atan2(inU * outV - inV * outU, inU * outU + inV * outV);
}

function towards(from: Flat, to: Flat, by_mm: number): Flat {
  const run = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return [from[0] + ((to[0] - from[0]) * by_mm) / run, from[1] + ((to[1] - from[1]) * by_mm) / run];
}

/** An arc that ends where the next begins leaves two corners in one place. */
function withoutDoubles(corners: readonly Corner[]): Corner[] {
  return corners.filter(({ at, bulge }, i) => {
    const next = corners[(i + 1) % corners.length]!.at;
    return bulge !== 0 || Math.hypot(at[0] - next[0], at[1] - next[1]) > SAME_LENGTH_mm;
  });
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** To a hundredth: what is drawn is no finer. */
function round(mm: number): number {
  return Math.round(mm * 100) / 100 + 0;
}
