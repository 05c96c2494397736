import type { Motion, Rock, SweepBody, SweepPair, SweepVariant } from "../../../src/clearance/types.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { composePoses, identityPose, POSE_SIZE, type Pose, rotationPose } from "../../../src/maths/pose.ts";
import { add, cross, length, normalise, scale, squareTo, subtract, type Vec3 } from "../../../src/maths/vec3.ts";

/** Corners lie on the sphere, 2n meridians; it is thinner than the sphere by r·(1 − cos(π/2n)) or so. */
export function ball(radius: number, centre: Vec3 = [0, 0, 0], n = 24): Solid {
  const points: Vec3[] = [];
  const put = (theta: number, phi: number) => {
    const out: Vec3 = [Math.sin(theta) * Math.cos(phi), Math.sin(theta) * Math.sin(phi), Math.cos(theta)];
    points.push(add(centre, scale(out, radius)));
  };
  put(0, 0);
  for (let i = 1; i < n; i++) for (let j = 0; j < 2 * n; j++) put((Math.PI * i) / n, (Math.PI * j) / n);
  put(Math.PI, 0);
  const last = points.length - 1;
  const at = (i: number, j: number) => (i === 0 ? 0 : i === n ? last : 1 + (i - 1) * 2 * n + (j % (2 * n)));
  const triangles: number[] = [];
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < 2 * n; j++) {
      if (i > 0) triangles.push(at(i, j), at(i + 1, j), at(i, j + 1));
      if (i < n - 1) triangles.push(at(i + 1, j), at(i + 1, j + 1), at(i, j + 1));
    }
  }
  return convexSolid(points, triangles);
}

/** A round bar with flat ends; corners lie on the cylinder. */
export function bar(from: Vec3, to: Vec3, radius: number, n = 48): Solid {
  const axis = normalise(subtract(to, from));
  const u = squareTo(axis);
  const v = cross(axis, u);
  const points: Vec3[] = [from, to];
  for (let i = 0; i < n; i++) {
    const angle = (2 * Math.PI * i) / n;
    const out = add(scale(u, radius * Math.cos(angle)), scale(v, radius * Math.sin(angle)));
    points.push(add(from, out), add(to, out));
  }
  const triangles: number[] = [];
  for (let i = 0; i < n; i++) {
    const [a, b] = [2 + 2 * i, 3 + 2 * i];
    const [c, d] = [2 + 2 * ((i + 1) % n), 3 + 2 * ((i + 1) % n)];
    triangles.push(0, c, a, 1, b, d, a, c, b, b, c, d);
  }
  return convexSolid(points, triangles);
}

export function brick(size: Vec3, centre: Vec3 = [0, 0, 0]): Solid {
  const points: Vec3[] = [];
  for (let corner = 0; corner < 8; corner++) {
    const half = (axis: 0 | 1 | 2) => (corner & (1 << axis) ? 0.5 : -0.5) * size[axis];
    points.push(add(centre, [half(0), half(1), half(2)]));
  }
  const sides = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ];
  return convexSolid(
    points,
    sides.flatMap(([a, b, c, d]) => [a!, b!, c!, a!, c!, d!]),
  );
}

function convexSolid(points: readonly Vec3[], indices: readonly number[]): Solid {
  const positions = Float32Array.from(points.flat());
  return {
    positions,
    indices: Uint32Array.from(indices),
    shells: [{ firstTriangle: 0, triangleCount: indices.length / 3, closed: true }],
    convexPieces: [positions],
  };
}

/** Several solids as one. */
export function joined(...solids: readonly Solid[]): Solid {
  const positions: number[] = [];
  const indices: number[] = [];
  const shells: Solid["shells"][number][] = [];
  for (const solid of solids) {
    const firstVertex = positions.length / 3;
    const firstTriangle = indices.length / 3;
    for (const shell of solid.shells) shells.push({ ...shell, firstTriangle: firstTriangle + shell.firstTriangle });
    positions.push(...solid.positions);
    for (const vertex of solid.indices) indices.push(firstVertex + vertex);
  }
  const pieces = solids.map((solid) => solid.convexPieces);
  return {
    positions: Float32Array.from(positions),
    indices: Uint32Array.from(indices),
    shells,
    convexPieces: pieces.some((piece) => piece === null) ? null : pieces.flatMap((piece) => piece!),
  };
}

let made = 0;

export function body(key: string, solid: Solid): SweepBody {
  made++;
  return { key, solid, content: `${key} ${made}` };
}

export const STILL: Motion = { travel_mm: Float64Array.of(0), poses: identityPose() };

/** Knots `step` apart (the last one nearer), each with the pose that `poseAt` gives. */
export function motion(from: number, to: number, step: number, poseAt: (travel: number) => Pose): Motion {
  const count = Math.ceil((to - from) / step - 1e-9) + 1;
  const travel_mm = Float64Array.from({ length: count }, (_, i) => Math.min(to, from + i * step));
  const poses = new Float64Array(count * POSE_SIZE);
  travel_mm.forEach((travel, i) => {
    poses.set(poseAt(travel), i * POSE_SIZE);
  });
  return { travel_mm, poses };
}

export function shiftPose(by: Vec3): Pose {
  return Float64Array.of(1, 0, 0, by[0], 0, 1, 0, by[1], 0, 0, 1, by[2]);
}

/** The same motion as seen after all has been moved by `by`: by ∘ pose ∘ by⁻¹ would move the design too, so by ∘ pose. */
export function movedMotion(by: Pose, { travel_mm, poses }: Motion): Motion {
  const moved = new Float64Array(poses.length);
  for (let i = 0; i < travel_mm.length; i++) {
    moved.set(composePoses(by, poses.subarray(i * POSE_SIZE, (i + 1) * POSE_SIZE)), i * POSE_SIZE);
  }
  return { travel_mm, poses: moved };
}

export function variant(a: Motion, b: Motion, from_mm: number, to_mm: number, pose = "rest"): SweepVariant {
  return { pose, a, b, from_mm, to_mm };
}

export function pairOf(
  a: SweepBody,
  b: SweepBody,
  variants: readonly SweepVariant[],
  required_mm = 10,
  excuses: SweepPair["excuses"] = [],
): SweepPair {
  return { a: a.key, b: b.key, required_mm, excuses, variants };
}

/** A turn by up to `angle` about a line and a shift with it, from where a body is drawn. */
export interface Turn {
  readonly axis: Vec3;
  readonly about: Vec3;
  readonly angle: number;
  readonly shift: Vec3;
}

export function turned({ axis, about, angle, shift }: Turn, share: number): Motion {
  const pose = composePoses(shiftPose(scale(shift, share)), rotationPose(axis, share * angle, about));
  return { travel_mm: Float64Array.of(0), poses: pose };
}

/** The way of a pair whose body b takes the turn while a keeps its motion. Speed and bend of a point r from the axis: θ·r + |shift|, θ²·r. */
export function rockOfB(a: Motion, b: Solid, turn: Turn): Rock {
  let farthest = 0;
  for (let i = 0; i < b.positions.length; i += 3) {
    const p: Vec3 = [b.positions[i]!, b.positions[i + 1]!, b.positions[i + 2]!];
    farthest = Math.max(farthest, length(cross(turn.axis, subtract(p, turn.about))));
  }
  const angle = Math.abs(turn.angle);
  return {
    content: JSON.stringify(turn),
    a: { speed_mm: 0, bend_mm: 0 },
    b: { speed_mm: angle * farthest + length(turn.shift), bend_mm: angle * angle * farthest },
    motionsAt: (share) => ({ a, b: turned(turn, share) }),
  };
}

/** A wheel's arm: turns about the Y axis through `about`, which lifts a point 300 mm away by about the travel. */
export function armPose(travel: number, about: Vec3, reach = 300): Pose {
  return rotationPose([0, 1, 0], Math.asin(travel / reach), about);
}
