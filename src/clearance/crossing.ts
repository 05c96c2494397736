import { applyPose, type Pose } from "../maths/pose.ts";
import { cross, dot, mix, subtract, type Vec3 } from "../maths/vec3.ts";
import { chainSegments } from "./crossingChain.ts";
import { type CollisionTree, createPairQuery, type Poll } from "./kernel.ts";

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
export function crossingCurves(
  a: CollisionTree,
  b: CollisionTree,
  relative: Pose,
  poseOfA: Pose,
  poll?: Poll,
): Float32Array[] {
  const trianglesOfA = new NamedTriangles(a, null);
  const trianglesOfB = new NamedTriangles(b, relative);
  const ends = new Map<string, Vec3>();
  const segments: [string, string][] = [];
  createPairQuery(a, b, poll).forEachPairWithin(relative, 0, (triangleA, triangleB) => {
    const t = trianglesOfA.at(triangleA);
    const u = trianglesOfB.at(triangleB);
    const found = [
      ...piercings("a", t, u, (p, q, r, s) => volume(p, q, r, s), ends),
      ...piercings("b", u, t, (p, q, r, s) => volume(r, s, p, q), ends),
    ];
    if (found.length === 2) segments.push([found[0]!, found[1]!]);
    return false;
  });
  return chainSegments(segments).map((names) =>
    Float32Array.from(names.flatMap((name) => applyPose(poseOfA, ends.get(name)!))),
  );
}

interface Corner {
  readonly vertex: number;
  readonly at: Vec3;
}

interface NamedTriangle {
  readonly triangle: number;
  readonly corners: readonly [Corner, Corner, Corner];
}

/** Triangles of a tree in a's design axes, with equal numbers for corners in equal places. */
class NamedTriangles {
  private readonly tree: CollisionTree;
  private readonly pose: Pose | null;
  private readonly corners = new Map<string, Corner>();
  private readonly known = new Map<number, NamedTriangle>();

  constructor(tree: CollisionTree, pose: Pose | null) {
    this.tree = tree;
    this.pose = pose;
  }

  at(triangle: number): NamedTriangle {
    let named = this.known.get(triangle);
    if (named === undefined) {
      const at = 9 * triangle;
      named = { triangle, corners: [this.cornerAt(at), this.cornerAt(at + 3), this.cornerAt(at + 6)] };
      this.known.set(triangle, named);
    }
    return named;
  }

  private cornerAt(at: number): Corner {
    const { triangles } = this.tree;
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
  return dot(cross(subtract(q, p), subtract(r, p)), subtract(s, p));
}
