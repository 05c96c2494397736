import type { Manifold, ManifoldToplevel } from "manifold-3d";
import { BufferAttribute, BufferGeometry, DoubleSide, Matrix4, Ray, Vector3 } from "three";
import { ExtendedTriangle, type HitPointInfo, MeshBVH } from "three-mesh-bvh";
import { clipOutside } from "../../src/clearance/excuse.ts";
import { ballsOf } from "../../src/clearance/sweep.ts";
import type { JointExcuse } from "../../src/clearance/types.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { applyPose, type Pose } from "../../src/maths/pose.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import { soupOf } from "../clearance/kernel/bruteForce.ts";

/** The surface of one body of a pair that counts, and what tells whether a point lies in the whole body, by three-mesh-bvh alone. */
interface Side {
  /** Null: joints excuse all of it. */
  readonly counted: MeshBVH | null;
  readonly whole: MeshBVH;
  /** A corner of each piece of what counts. */
  readonly corners: readonly Vec3[];
}

const NEAREST: HitPointInfo = { point: new Vector3(), distance: 0, faceIndex: 0 };
/** Along no edge of anything. */
const ASKANCE = new Vector3(0.3728, 0.5113, 0.7743).normalize();

/** Distance and overlap of a pair of bodies by a general library (three-mesh-bvh), the surface near shared joints left out. */
export class SecondGauge {
  readonly #a: Side;
  readonly #b: Side;
  readonly #matrix = new Matrix4();

  constructor(a: Solid, b: Solid, excuses: readonly JointExcuse[]) {
    this.#a = sideOf(a, excuses, "centreInA");
    this.#b = sideOf(b, excuses, "centreInB");
  }

  get isEmpty(): boolean {
    return this.#a.counted === null || this.#b.counted === null;
  }

  /**
   * Of the surfaces that count, mm; 0 where they cross. `relative`: b's design position into a's. `below_mm`: it is known to be
   * less, which saves most of the search; Infinity where it is not.
   */
  distance_mm(relative: Pose, below_mm = Number.POSITIVE_INFINITY): number {
    const matrix = matrixOf(relative, this.#matrix);
    const [of, from] = [this.#b.counted!.geometry, this.#a.counted!];
    // asked first: of surfaces that cross, needles left by cutting joints out among them, the library's distance is not always 0
    if (from.intersectsGeometry(of, matrix)) return 0;
    const found = from.closestPointToGeometry(of, matrix, NEAREST, undefined, 0, below_mm);
    return found?.distance ?? Number.POSITIVE_INFINITY;
  }

  /** Whether a piece of the one's surface that counts begins inside the other. */
  isInside(relative: Pose, inverse: Pose): boolean {
    return (
      this.#b.corners.some((p) => holds(this.#a.whole, applyPose(relative, p))) ||
      this.#a.corners.some((p) => holds(this.#b.whole, applyPose(inverse, p)))
    );
  }
}

function sideOf(solid: Solid, excuses: readonly JointExcuse[], centre: "centreInA" | "centreInB"): Side {
  const whole = treeOf(solid)!;
  const left = excuses.length === 0 ? null : clipOutside(solid, ballsOf(excuses, centre));
  if (left === null) return { counted: whole, whole, corners: firstCorners(solid) };
  const corners: Vec3[] = [];
  for (let i = 0; i < left.farthest.length; i += 3)
    corners.push([left.farthest[i]!, left.farthest[i + 1]!, left.farthest[i + 2]!]);
  return { counted: treeOf(left.solid), whole, corners };
}

function treeOf({ positions, indices }: Solid): MeshBVH | null {
  if (indices.length === 0) return null;
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(positions, 3));
  geometry.setIndex(new BufferAttribute(indices.slice(), 1));
  // a tree that is one leaf is asked with the box of whatever was asked last (three-mesh-bvh 0.9.17, closestPointToGeometry)
  const tree = new MeshBVH(geometry, { targetLeafSize: 2 });
  (geometry as BufferGeometry & { boundsTree?: MeshBVH }).boundsTree = tree;
  return tree;
}

function firstCorners({ positions, indices, shells }: Solid): Vec3[] {
  return shells.map(({ firstTriangle }) => {
    const at = 3 * indices[3 * firstTriangle]!;
    return [positions[at]!, positions[at + 1]!, positions[at + 2]!];
  });
}

/** Whether a ray from the point leaves the surface more often than it comes in: shells of one solid may overlap. */
function holds(tree: MeshBVH, p: Vec3): boolean {
  const hits = tree.raycast(new Ray(new Vector3(...p), ASKANCE), DoubleSide);
  return hits.reduce((sum, { face }) => sum + Math.sign(face!.normal.dot(ASKANCE)), 0) > 0;
}

function matrixOf(pose: Pose, out: Matrix4): Matrix4 {
  const [a, b, c, x, d, e, f, y, g, h, i, z] = pose as unknown as number[];
  return out.set(a!, b!, c!, x!, d!, e!, f!, y!, g!, h!, i!, z!, 0, 0, 0, 1);
}

/** A solid as manifold-3d has it, its shells made one; null where it is open. The caller deletes it. */
export function manifoldOf({ Manifold, Mesh }: ManifoldToplevel, solid: Solid): Manifold | null {
  if (!solid.shells.every(({ closed }) => closed)) return null;
  const shells = solid.shells.map(({ firstTriangle, triangleCount }) => {
    const indices = solid.indices.subarray(3 * firstTriangle, 3 * (firstTriangle + triangleCount));
    const numbers = new Map<number, number>();
    const triVerts = Uint32Array.from(indices, (vertex) => {
      const known = numbers.get(vertex) ?? numbers.size;
      numbers.set(vertex, known);
      return known;
    });
    const vertProperties = Float32Array.from(
      [...numbers.keys()].flatMap((vertex) => [...solid.positions.subarray(3 * vertex, 3 * vertex + 3)]),
    );
    return Manifold.ofMesh(new Mesh({ numProp: 3, vertProperties, triVerts }));
  });
  if (shells.length === 1) return shells[0]!;
  const all = Manifold.union(shells);
  for (const shell of shells) shell.delete();
  return all;
}

/** The same body elsewhere. The caller deletes it. */
export function movedManifold(body: Manifold, pose: Pose): Manifold {
  const [a, b, c, x, d, e, f, y, g, h, i, z] = pose as unknown as number[];
  return body.transform([a!, d!, g!, 0, b!, e!, h!, 0, c!, f!, i!, 0, x!, y!, z!, 1]);
}

/** The least distance of any triangle of the one from any of the other, each pair by three-mesh-bvh's own triangles, mm. */
export function bruteDistance_mm(a: Solid, b: Solid, relative: Pose): number {
  const [ofA, ofB] = [trianglesOf(soupOf(a)), trianglesOf(soupOf(b, relative))];
  let least = Number.POSITIVE_INFINITY;
  for (const one of ofA) for (const other of ofB) least = Math.min(least, one.distanceToTriangle(other));
  return least;
}

function trianglesOf(soup: Float64Array): ExtendedTriangle[] {
  return Array.from({ length: soup.length / 9 }, (_, i) => {
    const [p, q, r] = [0, 3, 6].map((at) => new Vector3().fromArray(soup, 9 * i + at)) as [Vector3, Vector3, Vector3];
    const triangle = new ExtendedTriangle(p, q, r);
    triangle.needsUpdate = true;
    return triangle;
  });
}
