import { BufferAttribute, BufferGeometry, Vector3 } from "three";
import { MeshBVH } from "three-mesh-bvh";
import type { Solid } from "../../src/geometry/solid.ts";
import { applyPose, type Pose } from "../../src/maths/pose.ts";
import { distance, mix, type Vec3 } from "../../src/maths/vec3.ts";

/** How little may stay unknown of the least distance, mm. */
const UNKNOWN_mm = 0.02;

/** Distances from points to a mesh by three-mesh-bvh, of which our own trees take no more than the order of triangles. */
export class MeshOracle {
  private readonly bvh: MeshBVH;

  constructor({ positions, indices }: Solid) {
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(positions.slice(), 3));
    geometry.setIndex(new BufferAttribute(indices.slice(), 1));
    this.bvh = new MeshBVH(geometry);
  }

  distanceTo(point: Vec3): number {
    return this.bvh.closestPointToPoint(new Vector3(...point))!.distance;
  }

  /**
   * The least distance found at points of a part that is brought into the mesh's axes, where that may be below `below_mm`:
   * triangles are halved until none, by the distance of its middle less its radius, can be nearer than that less 0.02 mm.
   * So nothing is nearer than the smaller of what is answered and `below_mm` − 0.02 mm.
   */
  leastTo({ positions, indices }: Solid, pose: Pose, below_mm: number): number {
    let found = Number.POSITIVE_INFINITY;
    const corner = (vertex: number): Vec3 =>
      applyPose(pose, [positions[3 * vertex]!, positions[3 * vertex + 1]!, positions[3 * vertex + 2]!]);
    const open: [Vec3, Vec3, Vec3][] = [];
    for (let i = 0; i < indices.length; i += 3) {
      open.push([corner(indices[i]!), corner(indices[i + 1]!), corner(indices[i + 2]!)]);
    }
    for (let triangle = open.pop(); triangle !== undefined; triangle = open.pop()) {
      const [a, b, c] = triangle;
      const middle = mix(mix(a, b, 0.5), c, 1 / 3);
      const radius = Math.max(distance(middle, a), distance(middle, b), distance(middle, c));
      const at = this.distanceTo(middle);
      found = Math.min(found, at);
      // too near already: no need to know how much
      if (found < below_mm - UNKNOWN_mm) return found;
      if (at - radius >= below_mm - UNKNOWN_mm) continue;
      const [p, q, r] = longestFirst(a, b, c);
      const half = mix(p, q, 0.5);
      open.push([p, half, r], [half, q, r]);
    }
    return found;
  }
}

function longestFirst(a: Vec3, b: Vec3, c: Vec3): [Vec3, Vec3, Vec3] {
  const [ab, bc, ca] = [distance(a, b), distance(b, c), distance(c, a)];
  if (ab >= bc && ab >= ca) return [a, b, c];
  return bc >= ca ? [b, c, a] : [c, a, b];
}
