import { dot, normalise, type Vec3 } from "../../maths/vec3.ts";

/** Forward, back, out, in, up, down and what lies between two or three of them. */
export const LATTICE: readonly Vec3[] = [-1, 0, 1].flatMap((x) =>
  [-1, 0, 1].flatMap((y) =>
    [-1, 0, 1].flatMap((z): Vec3[] => (x === 0 && y === 0 && z === 0 ? [] : [normalise([x, y, z])])),
  ),
);

export const ALONG_AXES: readonly Vec3[] = LATTICE.filter((way) => way.filter((share) => share !== 0).length === 1);

/** The angle between two unit vectors, degrees. */
export function between_deg(a: Vec3, b: Vec3): number {
  return (Math.acos(Math.max(-1, Math.min(1, dot(a, b)))) * 180) / Math.PI;
}

const SAME_WAY_deg = 0.5;

/** The lattice, and the way itself leant by 5, 10 and 15° to each of its directions; the nearest to the way first. */
export function waysAround(way: Vec3): Vec3[] {
  const leant = LATTICE.flatMap((to) =>
    [5, 10, 15].flatMap((deg): Vec3[] => {
      const side: Vec3 = [to[0] - dot(to, way) * way[0], to[1] - dot(to, way) * way[1], to[2] - dot(to, way) * way[2]];
      if (Math.hypot(...side) < 1e-6) return [];
      const square = normalise(side);
      const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
      return [[0, 1, 2].map((k) => c * way[k]! + s * square[k]!) as unknown as Vec3];
    }),
  );
  const all = [...leant, ...LATTICE]
    .map((each) => ({ each, off: between_deg(each, way) }))
    .filter(({ off }) => off > 0.5);
  all.sort((a, b) => a.off - b.off || compare(a.each, b.each));
  return all
    .filter(({ each }, i) => all.slice(0, i).every((earlier) => between_deg(each, earlier.each) > SAME_WAY_deg))
    .map(({ each }) => each);
}

function compare(a: Vec3, b: Vec3): number {
  return a[0] - b[0] || a[1] - b[1] || a[2] - b[2];
}
