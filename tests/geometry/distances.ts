import { add, cross, distance, dot, length, mix, normalise, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";

/** Signed distances to true surfaces in closed form: negative inside. */
export type SignedDistance = (p: Vec3) => number;

export function ball(centre: Vec3, radius: number): SignedDistance {
  return (p) => distance(p, centre) - radius;
}

export function aroundSegment(from: Vec3, to: Vec3, radius: number): SignedDistance {
  const along = subtract(to, from);
  return (p) => {
    const t = Math.min(1, Math.max(0, dot(subtract(p, from), along) / dot(along, along)));
    return distance(p, mix(from, to, t)) - radius;
  };
}

/** A polygon (counter-clockwise) in the half plane (radial, axial) turned about the line from `origin` along `axis`. */
export function turnedPolygon(
  origin: Vec3,
  axis: Vec3,
  polygon: readonly (readonly [number, number])[],
): SignedDistance {
  return (p) => {
    const offset = subtract(p, origin);
    const z = dot(offset, axis);
    const r = length(subtract(offset, scale(axis, z)));
    let nearest = Infinity;
    let inside = false;
    for (const [i, [ar, az]] of polygon.entries()) {
      const [br, bz] = polygon[(i + 1) % polygon.length]!;
      const [er, ez] = [br - ar, bz - az];
      const onAxis = ar === 0 && br === 0;
      const t = Math.min(1, Math.max(0, ((r - ar) * er + (z - az) * ez) / (er * er + ez * ez)));
      // a side on the axis is no surface
      if (!onAxis) nearest = Math.min(nearest, Math.hypot(r - ar - er * t, z - az - ez * t));
      if (az > z !== bz > z && r < ar + ((z - az) / ez) * er) inside = !inside;
    }
    return inside ? -nearest : nearest;
  };
}

export function frustum(from: Vec3, to: Vec3, fromRadius: number, toRadius: number): SignedDistance {
  const height = distance(from, to);
  return turnedPolygon(from, normalise(subtract(to, from)), [
    [0, 0],
    [fromRadius, 0],
    [toRadius, height],
    [0, height],
  ]);
}

/** A box about the origin with rounded edges (radius 0: sharp). */
export function block(size: Vec3, edge: number): SignedDistance {
  return (p) => {
    const q = [0, 1, 2].map((k) => Math.abs(p[k]!) - (size[k]! / 2 - edge)) as [number, number, number];
    const outside = Math.hypot(...q.map((value) => Math.max(value, 0)));
    return outside + Math.min(Math.max(...q), 0) - edge;
  };
}

/** Axis Y about the origin. */
export function ring(centreRadius: number, sectionRadius: number): SignedDistance {
  return ([x, y, z]) => Math.hypot(Math.hypot(x, z) - centreRadius, y) - sectionRadius;
}

/**
 * A bent tube's signed distance by its centre line of straights and arcs. Points beyond an end's plane are measured from
 * the flat end.
 */
export function bentTube(path: readonly Vec3[], radius: number, bend: number): SignedDistance {
  const parts: SignedDistance[] = [];
  let start = path[0]!;
  for (let i = 1; i < path.length; i++) {
    const corner = path[i]!;
    const next = path[i + 1];
    if (!next) {
      parts.push(frustum(start, corner, radius, radius));
      break;
    }
    const into = normalise(subtract(corner, path[i - 1]!));
    const out = normalise(subtract(next, corner));
    const turn = Math.acos(Math.min(1, Math.max(-1, dot(into, out))));
    const takes = bend * Math.tan(turn / 2);
    const begin = subtract(corner, scale(into, takes));
    if (distance(start, begin) > 1e-9) parts.push(frustum(start, begin, radius, radius));
    parts.push(elbow(begin, into, out, radius, bend));
    start = add(corner, scale(out, takes));
  }
  return (p) => Math.min(...parts.map((part) => part(p)));
}

/** Within the wedge of an arc: the torus; beyond it, large (its neighbours measure there). */
function elbow(begin: Vec3, into: Vec3, out: Vec3, radius: number, bend: number): SignedDistance {
  const axis = normalise(cross(into, out));
  const centre = add(begin, scale(cross(axis, into), bend));
  const leave = cross(axis, out);
  const towardBegin = scale(cross(axis, into), -1);
  return (p) => {
    const offset = subtract(p, centre);
    if (dot(offset, into) < -1e-9 || dot(offset, out) > 1e-9 || dot(offset, subtract(towardBegin, leave)) < 0)
      return Infinity;
    const z = dot(offset, axis);
    const r = length(subtract(offset, scale(axis, z)));
    return Math.hypot(r - bend, z) - radius;
  };
}
