import { Vector3 } from "three";
import { ConvexHull } from "three/examples/jsm/math/ConvexHull.js";
import { add, type Vec3 } from "../../maths/vec3.ts";
import { type ShapeBuilder, shapeError } from "../context.ts";
import { CAR_FRAME } from "../frame.ts";
import { MeshBuilder } from "../meshBuilder.ts";
import { roundedBlock } from "../roundedBlock.ts";

/** The convex hull of points and spheres. */
export const hull: ShapeBuilder<"hull"> = (shape, context) => {
  const cloud: Vec3[] = [...shape.points];
  for (const ball of shape.spheres) {
    const { positions } = roundedBlock(CAR_FRAME, [0, 0, 0], ball.diameter_mm / 2, context.tessellation_mm);
    for (let i = 0; i < positions.length; i += 3) {
      cloud.push(add(ball.at, [positions[i]!, positions[i + 1]!, positions[i + 2]!]));
    }
  }
  // rounded first: the hull is then convex in the very coordinates that are kept
  const corners = cloud.map((p) => new Vector3(Math.fround(p[0]), Math.fround(p[1]), Math.fround(p[2])));
  const { faces } = new ConvexHull().setFromPoints(corners);
  const mesh = new MeshBuilder();
  const known = new Map<Vector3, number>();
  const vertex = (p: Vector3): number => {
    let index = known.get(p);
    if (index === undefined) {
      index = mesh.vertex([p.x, p.y, p.z]);
      known.set(p, index);
    }
    return index;
  };
  for (const face of faces) {
    const { edge } = face;
    mesh.triangle(vertex(edge.head().point), vertex(edge.next.head().point), vertex(edge.prev.head().point));
  }
  const solid = mesh.convexSolid();
  if (known.size < 4 || isFlat(corners)) {
    throw shapeError(context, "", "the hull has no volume", "four points that do not lie in one plane, or a sphere");
  }
  return solid;
};

function isFlat(points: readonly Vector3[]): boolean {
  const [a] = points;
  if (!a) return true;
  const b = farthest(points, (p) => p.distanceTo(a));
  const along = new Vector3().subVectors(b, a).normalize();
  const offLine = (p: Vector3) => new Vector3().subVectors(p, a).cross(along).length();
  const c = farthest(points, offLine);
  const normal = new Vector3().subVectors(c, a).cross(along).normalize();
  const offPlane = (p: Vector3) => Math.abs(new Vector3().subVectors(p, a).dot(normal));
  return offPlane(farthest(points, offPlane)) < 1e-3;
}

function farthest(points: readonly Vector3[], size: (p: Vector3) => number): Vector3 {
  return points.reduce((best, p) => (size(p) > size(best) ? p : best));
}
