import type { Vec3 } from "../maths/vec3.ts";
import { ballOctant, type Place } from "./ballOctant.ts";
import { type Frame, pointIn } from "./frame.ts";
import { MeshBuilder } from "./meshBuilder.ts";
import type { Solid } from "./solid.ts";

/**
 * Everything within `radius_mm` of a block of the given half sizes (zero allowed) about the frame's origin: a sphere, a
 * capsule, a box with rounded edges. The eight octants of a ball sit at the block's corners; strips join them along the
 * edges and rectangles over the faces, and those of no width vanish. Convex.
 */
export function roundedBlock(frame: Frame, halfSizes_mm: Vec3, radius_mm: number, tessellation_mm: number): Solid {
  const octant = ballOctant(tessellation_mm / radius_mm);
  const cornerRadius_mm = radius_mm * octant.cornerRatio;
  const mesh = new MeshBuilder();
  const known = new Map<string, number>();

  const vertex = (signs: Vec3, [row, place]: Place): number => {
    const unit = octant.rows[row]![place]!;
    // where octants touch, the sign no longer tells them apart
    const side = (axis: 0 | 1 | 2) => (unit[axis] === 0 && halfSizes_mm[axis] === 0 ? 0 : signs[axis]);
    const key = `${row},${place},${side(0)},${side(1)},${side(2)}`;
    let index = known.get(key);
    if (index === undefined) {
      const along = (axis: 0 | 1 | 2) => side(axis) * (halfSizes_mm[axis] + cornerRadius_mm * unit[axis]);
      index = mesh.vertex(pointIn(frame, along(0), along(1), along(2)));
      known.set(key, index);
    }
    return index;
  };

  const last = octant.rows.length - 1;
  const equator = octant.rows[last]!.map((_, place): Place => [last, place]);
  const inXZ = octant.rows.map((_, row): Place => [row, 0]);
  const inYZ = octant.rows.map((row, k): Place => [k, row.length - 1]);
  /** The strip along `axis` between an octant and its mirror image; `border` runs clockwise about +axis for + + +. */
  const strip = (axis: 0 | 1 | 2, border: readonly Place[], signs: Vec3): void => {
    const other = flipped(signs, axis);
    for (let i = 1; i < border.length; i++) {
      const [a, b] = [border[i - 1]!, border[i]!];
      oriented(mesh, signs, [vertex(signs, a), vertex(other, a), vertex(other, b), vertex(signs, b)]);
    }
  };
  const face = (axis: 0 | 1 | 2, tip: Place, sign: number): void => {
    const [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
    const corner = (su: number, sv: number) => {
      const signs: [number, number, number] = [0, 0, 0];
      signs[axis] = sign;
      signs[u] = su;
      signs[v] = sv;
      return vertex(signs, tip);
    };
    const corners: Quad = [corner(1, 1), corner(-1, 1), corner(-1, -1), corner(1, -1)];
    oriented(mesh, [sign, 1, 1], corners);
  };

  for (const signs of OCTANTS) {
    for (const [a, b, c] of octant.triangles) {
      const corners = [vertex(signs, a), vertex(signs, b), vertex(signs, c)] as const;
      if (handed(signs)) mesh.triangle(corners[0], corners[1], corners[2]);
      else mesh.triangle(corners[0], corners[2], corners[1]);
    }
    // each strip once, from its octant on the positive side
    if (signs[2] > 0) strip(2, equator, signs);
    if (signs[1] > 0) strip(1, inXZ, signs);
    if (signs[0] > 0) strip(0, [...inYZ].reverse(), signs);
  }
  for (const sign of [1, -1]) {
    face(0, equator[0]!, sign);
    face(1, equator.at(-1)!, sign);
    face(2, [0, 0], sign);
  }
  return mesh.convexSolid();
}

type Quad = [number, number, number, number];

const OCTANTS: readonly Vec3[] = [1, -1].flatMap((x) => [1, -1].flatMap((y) => [1, -1].map((z): Vec3 => [x, y, z])));

/** Whether an octant keeps the winding of + + +. */
function handed(signs: Vec3): boolean {
  return signs[0] * signs[1] * signs[2] > 0;
}

function flipped(signs: Vec3, axis: 0 | 1 | 2): Vec3 {
  return signs.map((sign, i) => (i === axis ? -sign : sign)) as [number, number, number];
}

function oriented(mesh: MeshBuilder, signs: Vec3, [a, b, c, d]: Quad): void {
  if (handed(signs)) mesh.quad(a, b, c, d);
  else mesh.quad(a, d, c, b);
}
