import { type EdgeTable, nextHalfEdge } from "../geometry/edgeTable.ts";
import { triangulateOutline } from "../geometry/outline.ts";
import { cross, distance, dot, length, squareTo, subtract, type Vec3 } from "../maths/vec3.ts";
import { fitPlane } from "./fitPlane.ts";
import type { BareMesh } from "./weldNear.ts";

/** An open border of a mesh: a hole, or the rim of what was scanned from one side only. */
export interface Hole {
  /** Vertices in order, against the way the triangles at its edge run: as a triangle that closes it would. Empty where borders meet in a point. */
  readonly ring: readonly number[];
  readonly edges: number;
  /** Diagonal of the box round it. */
  readonly across_mm: number;
  readonly round_mm: number;
  readonly middle: Vec3;
  /** Greatest distance of its edge from a plane. */
  readonly unevenness_mm: number;
}

/** A hole may be this uneven for its size and still be closed by a flat lid. */
const FLAT_SHARE = 0.05;
/** Longer rings are whole missing sides, and take long to close. */
const LONGEST_RING = 3000;

/** All open borders, the largest first. Expects triangles wound alike. */
export function holesOf({ positions, indices }: BareMesh, { uses, first, edgeCount }: EdgeTable): Hole[] {
  const at = (vertex: number): Vec3 => [positions[3 * vertex]!, positions[3 * vertex + 1]!, positions[3 * vertex + 2]!];
  /** Against the triangles' way: from the end of each open half-edge to its start. */
  const onward = new Map<number, number[]>();
  for (let edge = 0; edge < edgeCount; edge++) {
    if (uses[edge] !== 1) continue;
    const h = first[edge]!;
    const [start, end] = [indices[h]!, indices[nextHalfEdge(h)]!];
    const list = onward.get(end);
    if (list) list.push(start);
    else onward.set(end, [start]);
  }
  const holes: Hole[] = [];
  for (const start of onward.keys()) {
    for (;;) {
      const ring = takeRing(onward, start);
      if (ring === null) break;
      holes.push(holeOf(ring, at));
    }
  }
  return holes.sort((a, b) => b.across_mm - a.across_mm);
}

/** Follows the border from `start` until it comes back or ends, and takes its edges out. */
function takeRing(onward: Map<number, number[]>, start: number): { ring: number[]; isSimple: boolean } | null {
  if (!onward.get(start)?.length) return null;
  const ring = [start];
  let isSimple = true;
  for (let at = start; ; ) {
    const ways = onward.get(at);
    if (!ways || ways.length === 0) return { ring, isSimple: false };
    if (ways.length > 1) isSimple = false;
    at = ways.pop()!;
    if (at === start) return { ring, isSimple };
    ring.push(at);
  }
}

function holeOf({ ring, isSimple }: { ring: number[]; isSimple: boolean }, at: (vertex: number) => Vec3): Hole {
  const points = ring.map(at);
  const low = [0, 1, 2].map((k) => points.reduce((least, p) => Math.min(least, p[k]!), Number.POSITIVE_INFINITY));
  const high = [0, 1, 2].map((k) => points.reduce((most, p) => Math.max(most, p[k]!), Number.NEGATIVE_INFINITY));
  const plane = fitPlane(points);
  return {
    ring: isSimple && ring.length >= 3 ? ring : [],
    edges: ring.length,
    across_mm: Math.hypot(high[0]! - low[0]!, high[1]! - low[1]!, high[2]! - low[2]!),
    round_mm: points.reduce((sum, p, i) => sum + distance(p, points[(i + 1) % points.length]!), 0),
    middle: [0, 1, 2].map((k) => (low[k]! + high[k]!) / 2) as unknown as Vec3,
    unevenness_mm: points.reduce((most, p) => Math.max(most, Math.abs(dot(subtract(p, plane.at), plane.normal))), 0),
  };
}

/** Whether a lid can be put on it: one ring, nearly flat. */
export function canBeClosed({ ring, across_mm, unevenness_mm }: Hole): boolean {
  return ring.length >= 3 && ring.length <= LONGEST_RING && unevenness_mm <= FLAT_SHARE * across_mm;
}

/** Triangles (three vertices each) of a flat lid by ear clipping of the ring seen along its plane's normal; null where it crosses itself. */
export function lidOf({ ring }: Hole, { positions }: BareMesh): number[] | null {
  const points = ring.map((v): Vec3 => [positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!]);
  const turning = points.reduce<Vec3>(
    (sum, p, i) => {
      const [a, b] = [subtract(p, points[0]!), subtract(points[(i + 1) % points.length]!, points[0]!)];
      const area = cross(a, b);
      return [sum[0] + area[0], sum[1] + area[1], sum[2] + area[2]];
    },
    [0, 0, 0],
  );
  const size = length(turning);
  if (size === 0) return null;
  const normal: Vec3 = [turning[0] / size, turning[1] / size, turning[2] / size];
  const u = squareTo(normal);
  const v = cross(normal, u);
  const flat = points.map((p): [number, number] => [dot(p, u), dot(p, v)]);
  const triangles = triangulateOutline(flat, []);
  return triangles?.flatMap(([a, b, c]) => [ring[a]!, ring[b]!, ring[c]!]) ?? null;
}
