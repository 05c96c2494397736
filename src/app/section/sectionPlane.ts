import type { Solid } from "../../geometry/solid.ts";
import { applyPose, type Pose } from "../../maths/pose.ts";
import { add, cross, dot, length, mix, normalise, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { SectionPlane } from "./sliceSolid.ts";

/** Vertices further from the touch than this do not say which way a part runs there. */
const NEAR_mm = 150;
/** A part whose vertices spread this much more along it than across is taken as straight. */
const STRAIGHT = 12;
/** Fewer vertices than this say nothing. */
const ENOUGH = 12;
/** The main axis of anything slender has settled by then; of anything else it hardly matters. */
const ROUNDS = 24;

export interface PlacedSolid {
  readonly solid: Solid;
  readonly pose: Pose;
}

/**
 * The plane in which a touch is drawn: it holds the way the two part, and cuts across the more slender of them, so that a
 * tube shows its round. `parting` is a unit vector; up in the drawing is up in the car wherever the plane allows.
 */
export function sectionPlane(
  pointA: Vec3,
  pointB: Vec3,
  parting: Vec3,
  two: readonly [PlacedSolid, PlacedSolid],
): SectionPlane {
  const at = mix(pointA, pointB, 0.5);
  const runs = two.map((part) => runOf(part, at)).sort((a, b) => b.slenderness - a.slenderness);
  const normal = runs.map(({ along }) => squared(along, parting)).find((way) => way !== null) ?? squareWay(parting);
  const upWish: Vec3 = Math.abs(normal[2]) > 0.9 ? [1, 0, 0] : [0, 0, 1];
  const up = normalise(subtract(upWish, scale(normal, dot(upWish, normal))));
  return { at, normal, up, right: cross(up, normal) };
}

/** `way` made square to `to`; null where the two run nearly alike. */
function squared(way: Vec3, to: Vec3): Vec3 | null {
  const rest = subtract(way, scale(to, dot(way, to)));
  return length(rest) < 0.3 ? null : normalise(rest);
}

function squareWay(parting: Vec3): Vec3 {
  return squared([1, 0, 0], parting) ?? squared([0, 1, 0], parting)!;
}

interface Run {
  readonly along: Vec3;
  /** Spread along the run over spread across it. */
  readonly slenderness: number;
}

/** Which way a part runs at the touch: as a whole where it is a straight slender one, or else as it lies near the touch. */
function runOf({ solid, pose }: PlacedSolid, touch: Vec3): Run {
  const places: Vec3[] = [];
  for (let i = 0; i < solid.positions.length; i += 3) {
    const place = applyPose(pose, [solid.positions[i]!, solid.positions[i + 1]!, solid.positions[i + 2]!]);
    places.push(subtract(place, touch));
  }
  const whole = mainRun(places);
  if (whole.slenderness > STRAIGHT) return whole;
  const near = places.filter((place) => length(place) < NEAR_mm);
  return near.length < ENOUGH ? whole : mainRun(near);
}

/** The main axis of the places' spread about their middle, by power iteration. */
function mainRun(places: readonly Vec3[]): Run {
  const middle = scale(places.reduce(add), 1 / places.length);
  const spread = places.map((place) => subtract(place, middle));
  const apply = (way: Vec3): Vec3 =>
    spread.reduce<Vec3>((sum, place) => add(sum, scale(place, dot(place, way))), [0, 0, 0]);
  let along: Vec3 = normalise([0.6, 0.5, 0.62]);
  for (let i = 0; i < ROUNDS; i++) along = normalise(apply(along));
  const total = spread.reduce((sum, place) => sum + dot(place, place), 0);
  const main = length(apply(along));
  return { along, slenderness: main / Math.max(total - main, 1e-9) };
}
