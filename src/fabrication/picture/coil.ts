import { type CoilLook, placeCoil } from "../../check/coilLook.ts";
import type { ShadedMesh } from "../../geometry/creaseNormals.ts";
import type { Pose } from "../../maths/pose.ts";
import { add, cross, normalise, scale, type Vec3 } from "../../maths/vec3.ts";

const PER_TURN = 36;
const ROUND = 12;
/** Of the wire's length, in turns, what lies closed at either end. */
const CLOSED_TURNS = 0.8;

/**
 * The wire of a coil spring where its halves stand, car coordinates: closed turns lie against each other, the turns between share what is
 * left of the length, as the view draws it.
 */
export function coilMesh(coil: CoilLook, upper: Pose, lower: Pose): ShadedMesh {
  const matrix: number[] = new Array(16).fill(0);
  const length_mm = placeCoil(coil, upper, lower, matrix);
  const column = (c: number): Vec3 => [matrix[4 * c]!, matrix[4 * c + 1]!, matrix[4 * c + 2]!];
  const [x, y, z, origin] = [column(0), column(1), column(2), column(3)];
  const inCar = (p: Vec3): Vec3 => add(add(scale(x, p[0]), scale(y, p[1])), scale(z, p[2]));
  const wire = wireOf(coil, length_mm);
  const along = Math.ceil(coil.turns * PER_TURN);
  const positions = new Float32Array(3 * (along + 1) * ROUND);
  const normals = new Float32Array(positions.length);
  const indices: number[] = [];
  for (let i = 0; i <= along; i++) {
    const { middle, outward, side } = wire(i / along);
    for (let j = 0; j < ROUND; j++) {
      const phi = (2 * Math.PI * j) / ROUND;
      const normal = add(scale(outward, Math.cos(phi)), scale(side, Math.sin(phi)));
      const at = 3 * (i * ROUND + j);
      positions.set(add(origin, inCar(add(middle, scale(normal, coil.wire_mm / 2)))), at);
      normals.set(inCar(normal), at);
      if (i === along) continue;
      const a = i * ROUND + j;
      const b = i * ROUND + ((j + 1) % ROUND);
      indices.push(a, b, a + ROUND, b, b + ROUND, a + ROUND);
    }
  }
  return { positions, normals, indices: Uint32Array.from(indices) };
}

/** Middle of the wire and the axes of its section at a share of its length; Z along the spring from the lower seat. */
function wireOf({ radius_mm, wire_mm, turns }: CoilLook, length_mm: number) {
  const half = wire_mm / 2;
  const closed = CLOSED_TURNS / turns;
  const rest = length_mm - wire_mm;
  const endRise = Math.min(closed * wire_mm * turns, 0.25 * rest);
  const slope = (rest - 2 * endRise) / (1 - 2 * closed);
  return (share: number) => {
    const isLow = share < closed;
    const isHigh = share > 1 - closed;
    const height = isLow
      ? (endRise * share) / closed
      : isHigh
        ? rest - (endRise * (1 - share)) / closed
        : endRise + (share - closed) * slope;
    const rise = isLow || isHigh ? endRise / closed : slope;
    const angle = 2 * Math.PI * turns * share;
    const outward: Vec3 = [Math.cos(angle), Math.sin(angle), 0];
    const way = 2 * Math.PI * turns * radius_mm;
    const tangent = normalise([-Math.sin(angle) * way, Math.cos(angle) * way, rise]);
    return { middle: add(scale(outward, radius_mm), [0, 0, height + half]), outward, side: cross(tangent, outward) };
  };
}
