import { add, distance, scale, type Vec3 } from "../maths/vec3.ts";
import { frameBetween, pointIn } from "./frame.ts";
import { MeshBuilder } from "./meshBuilder.ts";
import type { Solid } from "./solid.ts";

export interface CoilSpring {
  /** Ends of the spring's axis: the planes on which it is seated. */
  readonly from: Vec3;
  readonly to: Vec3;
  /** Over the wire. */
  readonly outerDiameter_mm: number;
  readonly wireDiameter_mm: number;
  /** Turns that move; a closed turn of wire on wire lies at each end besides. */
  readonly freeTurns: number;
}

const WIRE_SIDES = 10;
const STEPS_PER_TURN = 32;
/** Turns over which the wire climbs from lying closed to the free pitch, so that it does not kink. */
const CLOSED_TURNS = 1;

/**
 * A cylindrical compression spring with closed, ground ends, for the eye: a wire along a helix of the mean diameter, cut
 * flat at both seats. Not drawn to the tessellation bound and without convex pieces: what clashes is its envelope.
 * A spring shorter than its wire (coil-bound) is drawn with the wire overlapping.
 */
export function coilSpring(spring: CoilSpring): Solid {
  const { from, to, wireDiameter_mm, freeTurns } = spring;
  const length_mm = distance(from, to);
  const frame = frameBetween(from, to);
  const radius_mm = (spring.outerDiameter_mm - wireDiameter_mm) / 2;
  const turns = freeTurns + 2 * CLOSED_TURNS;
  const steps = Math.max(8, Math.round(turns * STEPS_PER_TURN));

  const mesh = new MeshBuilder();
  const rings = Array.from({ length: steps + 1 }, (_, i) => {
    const turn = (i / steps) * turns;
    const angle = 2 * Math.PI * turn;
    const height_mm = wireHeight(turn, turns, wireDiameter_mm, length_mm);
    const outward: Vec3 = add(scale(frame.x, Math.cos(angle)), scale(frame.y, Math.sin(angle)));
    const centre = add(pointIn(frame, 0, 0, height_mm), scale(outward, radius_mm));
    return mesh.ring(
      Array.from({ length: WIRE_SIDES }, (_, k): Vec3 => {
        const round = (2 * Math.PI * (k + 0.5)) / WIRE_SIDES;
        const out_mm = (wireDiameter_mm / 2) * Math.cos(round);
        // ground flat: nothing stands beyond a seat
        const up_mm = (wireDiameter_mm / 2) * Math.sin(round);
        const ground_mm = Math.min(Math.max(height_mm + up_mm, 0), length_mm) - height_mm;
        return add(centre, add(scale(outward, out_mm), scale(frame.z, ground_mm)));
      }).reverse(),
    );
  });
  for (let i = 1; i < rings.length; i++) mesh.band(rings[i - 1]!, rings[i]!);
  mesh.cap([...rings[0]!].reverse());
  mesh.cap(rings.at(-1)!);
  return mesh.solid(null);
}

/** Height of the wire's centre: within the closed turn it climbs by one wire, over the free turns by an even pitch. */
function wireHeight(turn: number, turns: number, wire_mm: number, length_mm: number): number {
  const closed_mm = Math.min(wire_mm, length_mm / 2) * CLOSED_TURNS;
  if (turn < CLOSED_TURNS) return closed_mm * (0.25 + (0.75 * turn) / CLOSED_TURNS);
  if (turn > turns - CLOSED_TURNS) return length_mm - closed_mm * (0.25 + (0.75 * (turns - turn)) / CLOSED_TURNS);
  const share = (turn - CLOSED_TURNS) / Math.max(1e-9, turns - 2 * CLOSED_TURNS);
  return closed_mm + share * (length_mm - 2 * closed_mm);
}
