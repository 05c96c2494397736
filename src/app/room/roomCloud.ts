import { applyPose, type Pose } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { PlaceGrid } from "../../studies/room/region.ts";
import type { Sight } from "../viewport/sight.ts";
import { type ComingMap, FIRST_ROOM, markOf } from "./roomTold.ts";

/** The places of a map that are told, as points in the car. */
export interface RoomCloud {
  /** The map's numbers of the places. */
  readonly places: Uint32Array;
  /** Car coordinates of the left side, 3 a place, mm. */
  readonly positions: Float32Array;
  /** Numbers of MARKS. */
  readonly marks: Float32Array;
}

/** `base`: where the point is. Those with room come last, so that they lie over the others. */
export function cloudOf(map: ComingMap, grid: PlaceGrid, base: Vec3, showsRefused: boolean): RoomCloud {
  const refused: number[] = [];
  const free: number[] = [];
  for (let place = 0; place < map.reason.length; place++) {
    const mark = markOf(map, place);
    if (mark >= FIRST_ROOM) free.push(place);
    else if (mark > 0 && showsRefused) refused.push(place);
  }
  const places = Uint32Array.from([...refused, ...free]);
  const positions = new Float32Array(3 * places.length);
  const marks = new Float32Array(places.length);
  for (const [i, place] of places.entries()) {
    const offset = grid.offsetOf(place);
    for (let k = 0; k < 3; k++) positions[3 * i + k] = base[k]! + offset[k]!;
    marks[i] = markOf(map, place);
  }
  return { places, positions, marks };
}

/** The place nearest to a spot of the picture, px; of those as near the one nearer to the eye. Null: none within reach. */
export function nearestTo(
  { places, positions }: RoomCloud,
  pose: Pose,
  sight: Sight,
  at: { readonly x: number; readonly y: number },
  reach_px: number,
): number | null {
  const spots = new Float32Array(2 * places.length);
  sight.projectAll(positions, pose, spots);
  let best = -1;
  let least = reach_px + AS_NEAR_px;
  let depth = -Infinity;
  for (let i = 0; i < places.length; i++) {
    const away = Math.hypot(spots[2 * i]! - at.x, spots[2 * i + 1]! - at.y);
    if (!(away <= reach_px) || away > least + AS_NEAR_px) continue;
    const p = applyPose(pose, [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!]);
    const towards = sight.back[0] * p[0] + sight.back[1] * p[1] + sight.back[2] * p[2];
    if (away > least - AS_NEAR_px && towards <= depth) continue;
    [best, least, depth] = [i, away, towards];
  }
  return best < 0 ? null : places[best]!;
}

/** Places this near to each other in the picture are the same spot to a pointer. */
const AS_NEAR_px = 2;
