import { applyPose, type Pose } from "../maths/pose.ts";
import { mix, type Vec3 } from "../maths/vec3.ts";
import { chainSegments } from "./crossingChain.ts";
import { type CollisionTree, createPairQuery, type Poll } from "./kernel.ts";
import type { Surface } from "./surface.ts";

/**
 * The curves in which two surfaces cross, in car coordinates: one array of 3·k coordinates a curve; a closed curve ends
 * where it begins. `relative` brings b into a's design position, `poseOfA` brings that to where it is in the car.
 * Empty if the surfaces do not cross.
 *
 * Two triangles cross in a segment whose ends are where an edge of the one pierces the other. An end is named by that edge
 * and that triangle, so that neighbours agree on it exactly and segments chain without any tolerance. A corner just in
 * a plane, or an edge just through an edge, is taken to lie on one set side. Where two surfaces lie in one plane they
 * have no crossing curve.
 */
export function crossingCurves(a: Surface, b: Surface, relative: Pose, poseOfA: Pose, poll?: Poll): Float32Array[] {
  const trianglesOfA = new NamedTriangles(null);
  const trianglesOfB = new NamedTriangles(relative);
  const ends = new Map<string, Vec3>();
  const segments: [string, string][] = [];
  for (const treeA of a) {
    for (const treeB of b) {
      createPairQuery(treeA, treeB, poll).forEachPairWithin(relative, 0, (triangleA, triangleB) => {
        const t = trianglesOfA.at(treeA, triangleA);
        const u = trianglesOfB.at(treeB, triangleB);
        const found = [
          ...piercings("a", t, u, (p, q, r, s) => volume(p, q, r, s), ends),
          ...piercings("b", u, t, (p, q, r, s) => volume(r, s, p, q), ends),
        ];
        if (found.length === 2) segments.push([found[0]!, found[1]!]);
        return false;
      });
    }
  }
  return chainSegments(segments).map((names) =>
    Float32Array.from(names.flatMap((name) => applyPose(poseOfA, ends.get(name)!))),
  );
}

interface Corner {
  readonly vertex: number;
  readonly at: Vec3;
}

interface NamedTriangle {
  /** Unique in its surface. */
  readonly triangle: number;
  readonly corners: readonly [Corner, Corner, Corner];
}

/** Triangles of a surface in a's design axes, with equal numbers for corners in equal places. */
class NamedTriangles {
  private readonly pose: Pose | null;
  private readonly corners = new Map<string, Corner>();
  private readonly known = new Map<CollisionTree, Map<number, NamedTriangle>>();
  private count = 0;

  constructor(pose: Pose | null) {
    this.pose = pose;
  }

  at(tree: CollisionTree, triangle: number): NamedTriangle {
    const known = this.known.get(tree) ?? new Map<number, NamedTriangle>();
    this.known.set(tree, known);
    let named = known.get(triangle);
    if (named === undefined) {
      const { triangles } = tree;
      const corners = [0, 3, 6].map((k) => this.cornerAt(triangles, 9 * triangle + k));
      named = { triangle: this.count++, corners: corners as unknown as NamedTriangle["corners"] };
      known.set(triangle, named);
    }
    return named;
  }

  private cornerAt(triangles: Float64Array, at: number): Corner {
    // −0 and 0 are one place
    const place: Vec3 = [triangles[at]! + 0, triangles[at + 1]! + 0, triangles[at + 2]! + 0];
    const name = place.join();
    let corner = this.corners.get(name);
    if (corner === undefined) {
      corner = { vertex: this.corners.size, at: this.pose === null ? place : applyPose(this.pose, place) };
      this.corners.set(name, corner);
    }
    return corner;
  }
}

/**
 * Names of the points where edges of t pierce u, whose places are noted in `ends`. `lineVolume` takes an edge of t and one
 * of u and must give the same number, whichever of the two bodies t belongs to.
 */
function piercings(
  body: "a" | "b",
  t: NamedTriangle,
  u: NamedTriangle,
  lineVolume: (p: Vec3, q: Vec3, r: Vec3, s: Vec3) => number,
  ends: Map<string, Vec3>,
): string[] {
  const [u0, u1, u2] = u.corners;
  const heights = t.corners.map((corner) => volume(u0.at, u1.at, u2.at, corner.at));
  const found: string[] = [];
  for (let i = 0; i < 3; i++) {
    const j = (i + 1) % 3;
    if (heights[i]! >= 0 === heights[j]! >= 0) continue;
    // the edge always in the same sense, whichever of its triangles asks
    const turn = t.corners[i]!.vertex > t.corners[j]!.vertex;
    const from = turn ? j : i;
    const to = turn ? i : j;
    const p = t.corners[from]!;
    const q = t.corners[to]!;
    const side = passes(p, q, u0, u1, lineVolume);
    if (passes(p, q, u1, u2, lineVolume) !== side || passes(p, q, u2, u0, lineVolume) !== side) continue;
    const name = `${body}${p.vertex},${q.vertex},${u.triangle}`;
    if (!ends.has(name)) ends.set(name, mix(p.at, q.at, heights[from]! / (heights[from]! - heights[to]!)));
    found.push(name);
  }
  return found;
}

/** On which side the line p-q passes the edge r-s; exactly through it counts as one set side of the edge. */
function passes(
  p: Corner,
  q: Corner,
  r: Corner,
  s: Corner,
  lineVolume: (p: Vec3, q: Vec3, r: Vec3, s: Vec3) => number,
): boolean {
  return r.vertex < s.vertex ? lineVolume(p.at, q.at, r.at, s.at) >= 0 : lineVolume(p.at, q.at, s.at, r.at) < 0;
}

/** Six times the signed volume of the tetrahedron p, q, r, s. */
function volume(p: Vec3, q: Vec3, r: Vec3, s: Vec3): number {
  const ax = q[0] - p[0];
  const ay = q[1] - p[1];
  const az = q[2] - p[2];
  const bx = r[0] - p[0];
  const by = r[1] - p[1];
  const bz = r[2] - p[2];
  return (
    (ay * bz - az * by) * (s[0] - p[0]) + (az * bx - ax * bz) * (s[1] - p[1]) + (ax * by - ay * bx) * (s[2] - p[2])
  );
}
