import type { Shell, Solid } from "../../src/geometry/solid.ts";
import { add, cross, length, mix, normalise, scale, squareTo, subtract, type Vec3 } from "../../src/maths/vec3.ts";

/**
 * Closed, outward-facing meshes whose number of triangles is asked for, not their closeness: what a benchmark needs to run
 * the same part coarse and fine.
 */
export interface Mesh {
  readonly points: Vec3[];
  readonly triangles: number[];
}

/** The solid of closed meshes, one shell each; `convex` says that each of them is a convex piece. */
export function solidOf(meshes: readonly Mesh[], convex = false): Solid {
  const shells: Shell[] = [];
  const indices: number[] = [];
  let firstVertex = 0;
  for (const { points, triangles } of meshes) {
    shells.push({ firstTriangle: indices.length / 3, triangleCount: triangles.length / 3, closed: true });
    for (const index of triangles) indices.push(firstVertex + index);
    firstVertex += points.length;
  }
  return {
    positions: Float32Array.from(meshes.flatMap(({ points }) => points).flat()),
    indices: Uint32Array.from(indices),
    shells,
    convexPieces: convex ? meshes.map(({ points }) => Float32Array.from(points.flat())) : null,
  };
}

/**
 * The surface of a cube of counts[0] × counts[1] × counts[2] cells, each point of it (coordinates −1 to 1) put where `place`
 * says, which must not turn it inside out: 4·(ab + bc + ca) triangles.
 */
export function cubeMesh(counts: readonly [number, number, number], place: (p: Vec3) => Vec3): Mesh {
  const points: Vec3[] = [];
  const triangles: number[] = [];
  const known = new Map<number, number>();
  const [countX, countY, countZ] = counts;
  const vertex = (cell: readonly number[]): number => {
    const key = (cell[0]! * (countY + 1) + cell[1]!) * (countZ + 1) + cell[2]!;
    let index = known.get(key);
    if (index === undefined) {
      index = points.push(place(cell.map((c, k) => (2 * c) / counts[k]! - 1) as unknown as Vec3)) - 1;
      known.set(key, index);
    }
    return index;
  };
  for (let axis = 0; axis < 3; axis++) {
    const u = (axis + 1) % 3;
    const v = (axis + 2) % 3;
    for (const end of [0, [countX, countY, countZ][axis]!]) {
      for (let i = 0; i < counts[u]!; i++) {
        for (let j = 0; j < counts[v]!; j++) {
          const corner = (di: number, dj: number): number => {
            const cell = [0, 0, 0];
            cell[axis] = end;
            cell[u] = i + di;
            cell[v] = j + dj;
            return vertex(cell);
          };
          const ring = [corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)];
          if (end === 0) ring.reverse();
          triangles.push(ring[0]!, ring[1]!, ring[2]!, ring[0]!, ring[2]!, ring[3]!);
        }
      }
    }
  }
  return { points, triangles };
}

export function boxMesh(centre: Vec3, half: Vec3, counts: readonly [number, number, number]): Mesh {
  return cubeMesh(counts, (p) => add(centre, [p[0] * half[0], p[1] * half[1], p[2] * half[2]]));
}

/** A casting as a scanner sees it: a rounded block under waves of some 10 to 100 mm length; 12·cells² triangles. */
export function bumpyMesh(centre: Vec3, half: Vec3, bump_mm: number, cells: number, random: () => number): Mesh {
  const waves = Array.from({ length: 12 }, (_, i) => {
    const direction = normalise([random() - 0.5, random() - 0.5, random() - 0.5]);
    const waveLength_mm = 90 / (1 + i * 0.7);
    return { direction, turns: (2 * Math.PI) / waveLength_mm, phase: 7 * random(), height_mm: bump_mm / (1 + i) };
  });
  return cubeMesh([cells, cells, cells], (p) => {
    // even cells on the sphere, then a superellipsoid of power 4
    const d = normalise(p.map((c) => Math.tan((c * Math.PI) / 4)) as unknown as Vec3);
    const reach = 1 / (d[0] ** 4 + d[1] ** 4 + d[2] ** 4) ** 0.25;
    const onBlock: Vec3 = [d[0] * reach * half[0], d[1] * reach * half[1], d[2] * reach * half[2]];
    let height_mm = 0;
    for (const wave of waves) {
      const along = onBlock[0] * wave.direction[0] + onBlock[1] * wave.direction[1] + onBlock[2] * wave.direction[2];
      height_mm += wave.height_mm * Math.sin(along * wave.turns + wave.phase);
    }
    return add(centre, scale(onBlock, 1 + height_mm / length(onBlock)));
  });
}

/** Turned about the line from → to: [along, radius] from the first to the last, 0 to begin and end with, or closed upon itself. */
export function turnedMesh(
  from: Vec3,
  to: Vec3,
  profile: readonly (readonly [number, number])[],
  segments: number,
  closed = false,
): Mesh {
  const axis = normalise(subtract(to, from));
  const [u, v] = squareAxes(axis);
  const rings = profile.map(([along, radius]) => ringPoints(add(from, scale(axis, along)), u, v, radius, segments));
  return joinRings(closed ? [...rings, rings[0]!] : rings);
}

/** A round bar along a path of short straights, its ends rounded. */
export function barMesh(path: readonly Vec3[], radius_mm: number, segments: number): Mesh {
  const rings: Vec3[][] = [];
  const capRings = Math.max(2, Math.round(segments / 4));
  const first = path[0]!;
  const last = path[path.length - 1]!;
  let [u, v] = squareAxes(normalise(subtract(path[1]!, first)));
  const cap = (at: Vec3, outward: Vec3, index: number): void => {
    const angle = ((Math.PI / 2) * index) / capRings;
    rings.push(
      ringPoints(add(at, scale(outward, radius_mm * Math.cos(angle))), u, v, radius_mm * Math.sin(angle), segments),
    );
  };
  for (let i = 0; i < capRings; i++) cap(first, normalise(subtract(first, path[1]!)), i);
  path.forEach((at, i) => {
    const before = path[Math.max(0, i - 1)]!;
    const after = path[Math.min(path.length - 1, i + 1)]!;
    const axis = normalise(subtract(after, before));
    // carried along without a twist
    u = normalise(subtract(u, scale(axis, u[0] * axis[0] + u[1] * axis[1] + u[2] * axis[2])));
    v = cross(axis, u);
    rings.push(ringPoints(at, u, v, radius_mm, segments));
  });
  for (let i = capRings - 1; i >= 0; i--) cap(last, normalise(subtract(last, path[path.length - 2]!)), i);
  return joinRings(rings);
}

/** Straights of equal length through the corners, each corner rounded from `bend_mm` before it to as much behind it. */
export function roundedPath(corners: readonly Vec3[], bend_mm: number, straights: number): Vec3[] {
  const dense: Vec3[] = [corners[0]!];
  for (let i = 1; i < corners.length - 1; i++) {
    const at = corners[i]!;
    const enter = add(at, scale(normalise(subtract(corners[i - 1]!, at)), bend_mm));
    const leave = add(at, scale(normalise(subtract(corners[i + 1]!, at)), bend_mm));
    for (let k = 0; k <= 64; k++) dense.push(mix(mix(enter, at, k / 64), mix(at, leave, k / 64), k / 64));
  }
  dense.push(corners[corners.length - 1]!);
  const total = dense.reduce((sum, p, i) => (i === 0 ? 0 : sum + length(subtract(p, dense[i - 1]!))), 0);
  const path: Vec3[] = [dense[0]!];
  let gone = 0;
  for (let i = 1; i < dense.length; i++) {
    const step = length(subtract(dense[i]!, dense[i - 1]!));
    while (path.length < straights && (total * path.length) / straights <= gone + step) {
      path.push(mix(dense[i - 1]!, dense[i]!, ((total * path.length) / straights - gone) / step));
    }
    gone += step;
  }
  path.push(dense[dense.length - 1]!);
  return path;
}

function squareAxes(axis: Vec3): [Vec3, Vec3] {
  const u = squareTo(axis);
  return [u, cross(axis, u)];
}

/** Counter-clockwise about u × v; radius 0 makes one point. */
function ringPoints(centre: Vec3, u: Vec3, v: Vec3, radius: number, segments: number): Vec3[] {
  if (radius === 0) return [centre];
  return Array.from({ length: segments }, (_, i) => {
    const angle = (2 * Math.PI * i) / segments;
    return add(centre, add(scale(u, radius * Math.cos(angle)), scale(v, radius * Math.sin(angle))));
  });
}

/** Bands between rings that follow each other along their axis; a ring given twice is one. */
function joinRings(rings: readonly Vec3[][]): Mesh {
  const points: Vec3[] = [];
  const triangles: number[] = [];
  const starts = new Map<Vec3[], number>();
  for (const ring of rings) {
    if (starts.has(ring)) continue;
    starts.set(ring, points.length);
    points.push(...ring);
  }
  for (let k = 1; k < rings.length; k++) {
    const [low, high] = [rings[k - 1]!, rings[k]!];
    const [lowStart, highStart] = [starts.get(low)!, starts.get(high)!];
    const count = Math.max(low.length, high.length);
    for (let i = 0; i < count; i++) {
      const next = (i + 1) % count;
      const at = (ring: Vec3[], start: number, index: number) => start + (ring.length === 1 ? 0 : index);
      const [a, b] = [at(low, lowStart, i), at(low, lowStart, next)];
      const [c, d] = [at(high, highStart, next), at(high, highStart, i)];
      if (a !== b) triangles.push(a, b, c);
      if (c !== d) triangles.push(a, c, d);
    }
  }
  return { points, triangles };
}
