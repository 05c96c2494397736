import { applyPose, type Pose } from "../maths/pose.ts";
import { add, cross, dot, length, normalise, scale, squareTo, subtract, type Vec3 } from "../maths/vec3.ts";
import type { ModelBody } from "./model.ts";

/** One coil spring, drawn between the outer ends of its two envelope halves. */
export interface CoilLook {
  readonly upper: ModelBody;
  readonly lower: ModelBody;
  /** Seats on the axis, each in the design position of its own half. */
  readonly topInUpper: Vec3;
  readonly bottomInLower: Vec3;
  readonly radius_mm: number;
  readonly wire_mm: number;
  readonly turns: number;
}

/** Wire and free turns of a coil-over spring for a road car: about a ninth of the outer diameter; common practice, no source. */
const WIRE_SHARE = 1 / 8.5;
const PITCH_IN_WIRES = 2.9;

type CoilSize = Omit<CoilLook, "upper" | "lower">;

/** Sizes of coils by what their halves are, so that they are measured once. */
export type CoilSizes = Map<string, CoilSize>;

/**
 * Pairs the halves: `spring#upper@left` with `spring#lower@left`. A half without its other is left to be drawn as it is.
 * `sizes` is what the last list had, and has what this one has afterwards.
 */
export function pairCoils(bodies: readonly ModelBody[], sizes: CoilSizes = new Map()): CoilLook[] {
  const coils: CoilLook[] = [];
  const known = new Map(sizes);
  sizes.clear();
  const byKey = new Map(bodies.map((body) => [body.key, body]));
  for (const upper of bodies) {
    if (upper.look !== "coil" || !upper.key.includes("#upper")) continue;
    const lower = byKey.get(upper.key.replace("#upper", "#lower"));
    if (lower === undefined) continue;
    const name = `${upper.content}|${lower.content}`;
    const size = known.get(name) ?? measure(upper, lower);
    sizes.set(name, size);
    coils.push({ upper, lower, ...size });
  }
  return coils;
}

function measure(upper: ModelBody, lower: ModelBody): CoilSize {
  const a = middle(upper.solid.positions);
  const axis = normalise(subtract(a, middle(lower.solid.positions)));
  const [, top, radius] = extent(upper.solid.positions, a, axis);
  const [bottom] = extent(lower.solid.positions, a, axis);
  const wire = radius * 2 * WIRE_SHARE;
  const turns = Math.min(11, Math.max(3.5, Math.round((top - bottom) / (wire * PITCH_IN_WIRES)) + 1.5));
  return {
    topInUpper: add(a, scale(axis, top)),
    bottomInLower: add(a, scale(axis, bottom)),
    radius_mm: radius - wire / 2,
    wire_mm: wire,
    turns,
  };
}

/** Column-major matrix of a frame with its origin on the bottom seat and Z towards the top seat, and the length between. */
export function placeCoil(coil: CoilLook, upper: Pose, lower: Pose, out: Float32Array | number[]): number {
  const top = applyPose(upper, coil.topInUpper);
  const bottom = applyPose(lower, coil.bottomInLower);
  const along = subtract(top, bottom);
  const z = normalise(along);
  // the coil does not spin as the axis tilts: X stays as near to the car's X as it can
  const ahead = subtract([1, 0, 0], scale(z, z[0]));
  const x = length(ahead) > 0.1 ? normalise(ahead) : squareTo(z);
  const y = cross(z, x);
  const columns = [x, y, z, bottom];
  for (let c = 0; c < 4; c++) {
    for (let r = 0; r < 3; r++) out[c * 4 + r] = columns[c]![r]!;
    out[c * 4 + 3] = c === 3 ? 1 : 0;
  }
  return length(along);
}

function middle(positions: Float32Array): Vec3 {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i++) {
    low[i % 3] = Math.min(low[i % 3]!, positions[i]!);
    high[i % 3] = Math.max(high[i % 3]!, positions[i]!);
  }
  return [(low[0]! + high[0]!) / 2, (low[1]! + high[1]!) / 2, (low[2]! + high[2]!) / 2];
}

/** Reach of the vertices along the axis through `origin`, and their largest distance from it. */
function extent(positions: Float32Array, origin: Vec3, axis: Vec3): [low: number, high: number, radius: number] {
  let [low, high, radius] = [Infinity, -Infinity, 0];
  for (let i = 0; i < positions.length; i += 3) {
    const d = subtract([positions[i]!, positions[i + 1]!, positions[i + 2]!], origin);
    const along = dot(d, axis);
    low = Math.min(low, along);
    high = Math.max(high, along);
    radius = Math.max(radius, length(subtract(d, scale(axis, along))));
  }
  return [low, high, radius];
}
