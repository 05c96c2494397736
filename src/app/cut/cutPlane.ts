import { gripsOfBody } from "../../check/bodyGrips.ts";
import { lineNow, type MeasuredState, spotNow } from "../../check/measures.ts";
import type { ModelBody } from "../../check/model.ts";
import { triangleRuns } from "../../geometry/triangleRuns.ts";
import { add, cross, dot, normalise, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { MeasuredLine } from "../../scene/measures.ts";
import { nameOfBody } from "../measure/pickUnder.ts";
import type { CutWay } from "./cutStore.ts";

/** A section plane as it lies in the car, mm. */
export interface CutPlane {
  /** In the middle of the plane's frame. */
  readonly at: Vec3;
  /** Unit vectors; what lies on the side of `normal` is cut away. */
  readonly normal: Vec3;
  readonly right: Vec3;
  readonly up: Vec3;
  /** Half the frame's size. */
  readonly half_mm: readonly [right: number, up: number];
  /** Where the plane stands along `axis`, and how far it may go. */
  readonly axis: Vec3;
  readonly offset_mm: number;
  readonly range_mm: readonly [number, number];
}

interface Box {
  readonly low: Vec3;
  readonly high: Vec3;
}

const boxes = new WeakMap<readonly ModelBody[], Box>();
/** Room round the car for the frame, and for the wheels to move in. */
const MARGIN_mm = 90;

/** The box of all bodies in design position, with room. */
function boxOf(bodies: readonly ModelBody[]): Box {
  let box = boxes.get(bodies);
  if (!box) {
    const [low, high] = [
      [Infinity, Infinity, Infinity],
      [-Infinity, -Infinity, -Infinity],
    ];
    for (const { solid } of bodies) {
      const runs = triangleRuns(solid);
      for (let i = 0; i < runs.length; i++) {
        const k = i % 6;
        if (k < 3) low[k] = Math.min(low[k]!, runs[i]! - MARGIN_mm);
        else high[k - 3] = Math.max(high[k - 3]!, runs[i]! + MARGIN_mm);
      }
    }
    box = { low: low as unknown as Vec3, high: high as unknown as Vec3 };
    boxes.set(bodies, box);
  }
  return box;
}

/** Of each plane: what it stands along, which half is cut away at first, and its own axes. */
const WAYS: Readonly<Record<Exclude<CutWay, "axis">, { axis: Vec3; normal: Vec3; right: Vec3; up: Vec3 }>> = {
  across: { axis: [1, 0, 0], normal: [-1, 0, 0], right: [0, -1, 0], up: [0, 0, 1] },
  along: { axis: [0, 1, 0], normal: [0, 1, 0], right: [-1, 0, 0], up: [0, 0, 1] },
  level: { axis: [0, 0, 1], normal: [0, 0, 1], right: [1, 0, 0], up: [0, 1, 0] },
};
/** Half the frame of a plane along a part, and how far it may leave its axis. */
const REACH_mm = 420;
/** A part whose axis stands up by more than this gets a plane along the car. */
const UPRIGHT = 0.95;

export interface CutWish {
  readonly way: CutWay | null;
  readonly offset_mm: number;
  readonly point: string | null;
  readonly body: string | null;
  readonly isFlipped: boolean;
}

/** The plane that is wished for where things stand; null where there is none, or what it goes by is not there. */
export function cutPlane(wish: CutWish, bodies: readonly ModelBody[], state: MeasuredState): CutPlane | null {
  if (wish.way === null || bodies.length === 0) return null;
  const sign = wish.isFlipped ? -1 : 1;
  if (wish.way === "axis") {
    const body = bodies.find(({ key }) => key === wish.body);
    const line = body && axisOf(body, state);
    const now = line && lineNow(line, state);
    if (!now) return null;
    const wanted: Vec3 = Math.abs(now.way[2]) > UPRIGHT ? [1, 0, 0] : [0, 0, 1];
    const right = now.way;
    const normal = normalise(cross(right, wanted));
    const at = add(now.at, scale(normal, wish.offset_mm));
    return {
      at,
      normal: scale(normal, sign),
      right,
      up: cross(normal, right),
      half_mm: [REACH_mm, REACH_mm],
      axis: normal,
      offset_mm: wish.offset_mm,
      range_mm: [-REACH_mm, REACH_mm],
    };
  }
  const { axis, normal, right, up } = WAYS[wish.way];
  const { low, high } = boxOf(bodies);
  const point = wish.point === null ? null : spotNow({ point: wish.point }, state);
  const range_mm = [dot(low, axis), dot(high, axis)] as const;
  const offset_mm = point ? dot(point, axis) : Math.min(Math.max(wish.offset_mm, range_mm[0]), range_mm[1]);
  const middle = scale(add(low, high), 0.5);
  const size = subtract(high, low);
  const halfAlong = (way: Vec3) => Math.abs(dot(size, way)) / 2;
  return {
    at: add(middle, scale(axis, offset_mm - dot(middle, axis))),
    normal: scale(normal, sign),
    right,
    up,
    half_mm: [halfAlong(right), halfAlong(up)],
    axis,
    offset_mm,
    range_mm,
  };
}

/** The axis of the body's longest round piece; null where nothing of it is round. */
export function axisOf(body: ModelBody, { scene }: Pick<MeasuredState, "scene">): MeasuredLine | null {
  const name = nameOfBody(body);
  let best = -1;
  let most = 0;
  const grips = gripsOfBody(scene, name.part, name.piece, name.side);
  for (const [i, { form, size_mm, low, high }] of grips.entries()) {
    const long_mm = (high[2] - low[2]) * size_mm[2];
    if (form === "rod" && long_mm > most) [best, most] = [i, long_mm];
  }
  return best < 0 ? null : { ...name, grip: best, at: [0, 0, 0.5], way: [0, 0, 1], is: "axis" };
}

/** The four corners of the plane's frame, in turn. */
export function cornersOf({ at, right, up, half_mm }: CutPlane): Vec3[] {
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([u, v]) => add(at, add(scale(right, u! * half_mm[0]), scale(up, v! * half_mm[1]))));
}
