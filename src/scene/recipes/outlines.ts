import { fineNumber } from "./recipe.ts";

/** Flat outlines of plates, mm, counter-clockwise. */
export type Flat = readonly [number, number];

/** Arcs stand outside the true circle by at most this much, holes inside it: what is drawn is never less than the steel. */
const SAG_MM = 0.05;

/** Corners around the outside of an arc from angle `from` to `to` (rad, either sense), its ends on the arc itself. */
export function arcAround([u, v]: Flat, radius_mm: number, from: number, to: number): Flat[] {
  const at = (angle: number, r: number): Flat => flat(u + r * Math.cos(angle), v + r * Math.sin(angle));
  const widest = 2 * Math.acos(radius_mm / (radius_mm + SAG_MM));
  const steps = Math.max(2, Math.ceil(Math.abs(to - from) / widest));
  const step = (to - from) / steps;
  const out_mm = radius_mm / Math.cos(step / 2);
  return [
    at(from, radius_mm),
    ...Array.from({ length: steps }, (_, i) => at(from + (i + 0.5) * step, out_mm)),
    at(to, radius_mm),
  ];
}

/** Corners on a round hole's own circle. */
export function roundHole([u, v]: Flat, diameter_mm: number): Flat[] {
  const radius_mm = diameter_mm / 2;
  const sides = Math.max(8, Math.ceil(Math.PI / Math.acos(Math.max(0, 1 - SAG_MM / radius_mm))));
  return Array.from({ length: sides }, (_, i) => {
    const angle = (2 * Math.PI * i) / sides;
    return flat(u + radius_mm * Math.cos(angle), v + radius_mm * Math.sin(angle));
  });
}

export function rectangle(uFrom: number, vFrom: number, uTo: number, vTo: number): Flat[] {
  return [flat(uFrom, vFrom), flat(uTo, vFrom), flat(uTo, vTo), flat(uFrom, vTo)];
}

/** About the origin; `inside` puts the corners' points on the arcs (for a hole) instead of around them. */
export function roundedRectangle(width_mm: number, height_mm: number, radius_mm: number, inside = false): Flat[] {
  const [u, v] = [width_mm / 2, height_mm / 2];
  if (radius_mm <= 0) return rectangle(-u, -v, u, v);
  const corners: readonly (readonly [number, number, number])[] = [
    [u - radius_mm, v - radius_mm, 0],
    [-u + radius_mm, v - radius_mm, Math.PI / 2],
    [-u + radius_mm, -v + radius_mm, Math.PI],
    [u - radius_mm, -v + radius_mm, 1.5 * Math.PI],
  ];
  const points = corners.flatMap(([cu, cv, from]) =>
    inside ? arcOn([cu, cv], radius_mm, from) : arcAround([cu, cv], radius_mm, from, from + Math.PI / 2),
  );
  return withoutRepeats(points);
}

/** A lug: round about the origin, straight along +u up to `reach_mm`. */
export function lug(width_mm: number, reach_mm: number): Flat[] {
  const half = width_mm / 2;
  return [flat(reach_mm, -half), flat(reach_mm, half), ...arcAround([0, 0], half, Math.PI / 2, 1.5 * Math.PI)];
}

/** A quarter circle by points on it. */
function arcOn([u, v]: Flat, radius_mm: number, from: number): Flat[] {
  const steps = Math.max(2, Math.ceil(Math.PI / 4 / Math.acos(Math.max(0, 1 - SAG_MM / radius_mm))));
  return Array.from({ length: steps + 1 }, (_, i) => {
    const angle = from + (i * Math.PI) / 2 / steps;
    return flat(u + radius_mm * Math.cos(angle), v + radius_mm * Math.sin(angle));
  });
}

function withoutRepeats(points: readonly Flat[]): Flat[] {
  return points.filter((point, i) => {
    const next = points[(i + 1) % points.length]!;
    return Math.hypot(point[0] - next[0], point[1] - next[1]) > 1e-6;
  });
}

function flat(u: number, v: number): Flat {
  return [fineNumber(u), fineNumber(v)];
}
