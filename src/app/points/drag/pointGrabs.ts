import { applyPose, invertPose, turnByPose } from "../../../maths/pose.ts";
import { add, mirror, scale, type Vec3 } from "../../../maths/vec3.ts";
import { measuredPoint } from "../../../scene/measured.ts";
import { usersOfPoint } from "../../../scene/points.ts";
import { namesBehind } from "../../../scene/pointUses.ts";
import { livePoses } from "../../store/livePoses.ts";
import { pace } from "../../store/pace.ts";
import { app } from "../../store/useApp.ts";
import { t } from "../../text/text.ts";
import type { Grab, GrabPlace } from "../../viewport/gestures.ts";
import type { Sight } from "../../viewport/sight.ts";
import { usePointsLook } from "../pointsStore.ts";
import { DIRECTIONS, type Direction, datumOf, holdPointOf, meaningFor, tryPlace } from "../usePointMove.ts";
import { type Axes, axesOf, type Free, pointedAt } from "./constrain.ts";
import { GRIDS_mm, useDrag } from "./dragStore.ts";
import type { PointMark } from "./pointMarks.ts";
import { onGrid, type SnapSurroundings, type SnapTarget, snapped } from "./snap.ts";

/** Length of the arms that stand out of the held point, CSS px where they are seen square on. */
export const ARM_PX = 74;
/** An arm seen shorter than this is end on: it cannot be pulled. */
export const LEAST_ARM_PX = 30;
const REACH_PX = { mouse: 14, touch: 26 } as const;
const SNAP_PX = { mouse: 10, touch: 18 } as const;
/** Moves finer than the grid, with Shift. */
const FINE_mm = 0.1;

/** The ends of the held point's arms, car coordinates now, mm. */
export function armsOf(mark: PointMark, sight: Sight): Readonly<Record<Direction, Vec3>> {
  const axes = axesNow(mark);
  const arm_mm = ARM_PX * sight.mmPerPx(mark.at);
  const end = (direction: Direction) => add(mark.at, scale(axes[direction], arm_mm));
  return { forward: end("forward"), out: end("out"), up: end("up") };
}

/** A tap on a point's mark holds it. */
export function tapPoint(at: GrabPlace, marks: readonly PointMark[], sight: Sight): boolean {
  let best: PointMark | null = null;
  let least: number = REACH_PX[at.isTouch ? "touch" : "mouse"];
  for (const mark of marks) {
    const away = awayFrom(at, mark.at, sight);
    if (away <= least) [best, least] = [mark, away];
  }
  if (best) holdPointOf(best.info);
  return best !== null;
}

/** Takes hold of the held point, or of one of its arms; null where the pointer is on neither, or another move is being tried. */
export function grabPoint(at: GrabPlace, marks: readonly PointMark[], sight: Sight): Grab | null {
  const { heldPoint, tried, triedEdit } = app.getState();
  const mark = marks.find(({ info }) => info.name === heldPoint);
  if (!mark || triedEdit || (tried && tried.point !== heldPoint)) return null;
  const free = grabbedFree(at, mark, sight);
  return free && dragging(at, mark, marks, free, sight);
}

function grabbedFree(at: GrabPlace, mark: PointMark, sight: Sight): Free | null {
  const reach = REACH_PX[at.isTouch ? "touch" : "mouse"];
  const middle = awayFrom(at, mark.at, sight);
  const ends = armsOf(mark, sight);
  const arms = DIRECTIONS.filter((direction) => isPullable(mark, ends[direction], sight))
    .map((direction) => ({ direction, away: awayFrom(at, ends[direction], sight) }))
    .sort((a, b) => a.away - b.away);
  const [arm] = arms;
  if (arm && arm.away <= reach && arm.away < middle) return new Set([arm.direction]);
  return middle <= reach ? useDrag.getState().free : null;
}

export function isPullable(mark: PointMark, end: Vec3, sight: Sight): boolean {
  const [from, to] = [sight.project(mark.at), sight.project(end)];
  return Math.hypot(to.x - from.x, to.y - from.y) >= LEAST_ARM_PX;
}

function awayFrom(at: GrabPlace, p: Vec3, sight: Sight): number {
  const spot = sight.project(p);
  return Math.hypot(spot.x - at.x, spot.y - at.y);
}

/** The datum's directions, turned as the point's part stands now. */
function axesNow({ pose }: PointMark): Axes {
  const axes = axesOf(datumOf(app.getState().scene, usePointsLook.getState().datumId));
  return {
    forward: turnByPose(pose, axes.forward),
    out: turnByPose(pose, axes.out),
    up: turnByPose(pose, axes.up),
  };
}

function dragging(at: GrabPlace, mark: PointMark, marks: readonly PointMark[], free: Free, sight: Sight): Grab {
  const { info, pose, at: start } = mark;
  const before = app.getState().tried;
  const spot = sight.project(start);
  const [off_x, off_y] = [at.x - spot.x, at.y - spot.y];
  const back = invertPose(pose);
  const axes = axesNow(mark);
  const around = surroundings(mark, marks, axes, sight, at.isTouch);
  let wanted: GrabPlace | null = null;
  let isBrokenOff = false;

  const follow = () => {
    const place = wanted;
    wanted = null;
    if (!place || isBrokenOff) return;
    const [x, y] = [place.x - off_x, place.y - off_y];
    const pointed = pointedAt(sight.rayAt(x, y), start, free, axes, sight.back);
    if (pointed === null) {
      useDrag.setState({ live: { free, by: t("points.drag.endOn") } });
      return;
    }
    const { at: shown, by } = place.shiftKey ? { at: pointed, by: null } : snapped(pointed, start, free, x, y, around);
    const { unit } = app.getState();
    const step_mm = place.shiftKey ? FINE_mm : GRIDS_mm[unit][useDrag.getState().grid]!;
    const drawn = applyPose(back, shown);
    tryPlace(info, by === null && step_mm > 0 ? onGrid(drawn, free, around.datum, step_mm) : drawn);
    const { live } = useDrag.getState();
    if (live?.by !== by || live?.free !== free) useDrag.setState({ live: { free, by } });
  };
  const putBack = () => {
    if (before) app.getState().tryMove(before);
    else app.getState().putBack();
  };
  const breakOff = (event: KeyboardEvent) => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    isBrokenOff = true;
    useDrag.setState({ live: null });
    putBack();
  };
  window.addEventListener("keydown", breakOff, { capture: true });
  return {
    move(place) {
      pace.beginPull();
      wanted = place;
      // one answer to a task, however often the pointer tells its place, and none in the task that draws
      pace.soon(follow);
    },
    end(isKept) {
      if (isKept) follow();
      wanted = null;
      if (!isKept && useDrag.getState().live && !isBrokenOff) putBack();
      useDrag.setState({ live: null });
      window.removeEventListener("keydown", breakOff, { capture: true });
    },
  };
}

function surroundings(
  mark: PointMark,
  marks: readonly PointMark[],
  axes: Axes,
  sight: Sight,
  isTouch: boolean,
): SnapSurroundings {
  const { document, scene, bodies, travel_mm, pose, share, show } = app.getState();
  const { name } = mark.info;
  const moving = new Set(document ? usersOfPoint(document, name).map(({ id }) => id) : []);
  for (const unit of ["damper", "antiRollBar"] as const) {
    if (moving.has(unit)) for (const id of OWN_BODIES[unit]) moving.add(id);
  }
  const isBolted = meaningFor(mark.info, usePointsLook.getState().meaning) === "bolt";
  return {
    targets: marks.flatMap((other) => targetsOf(other, name)),
    bodies: bodies.filter(
      (body) =>
        show[body.group] !== "off" &&
        !moving.has(body.id) &&
        !(isBolted && body.mount !== "chassis" && body.mount !== "powertrain"),
    ),
    poses: scene ? livePoses(scene, bodies, { travel_mm, pose, share }) : new Map(),
    kinds: useDrag.getState().kinds,
    datum: datumOf(scene, usePointsLook.getState().datumId),
    axes,
    sight,
    reach_px: SNAP_PX[isTouch ? "touch" : "mouse"],
  };
}

const OWN_BODIES = {
  damper: ["damper-upper", "damper-lower", "spring"],
  antiRollBar: ["bar", "bar-link"],
} as const;

/** Another point, its image on the right, and the image of what was measured there; none of what hangs on the dragged one. */
function targetsOf({ info, at }: PointMark, dragged: string): SnapTarget[] {
  const { document } = app.getState();
  if (!document) return [];
  const measured = measuredPoint(document, "right", info.name);
  const image: SnapTarget[] = measured
    ? [{ kind: "mirror", name: t("points.drag.onRight", { point: info.name }), at: mirror(measured.at) }]
    : [];
  if (info.name === dragged || namesBehind(document, info.name).includes(dragged)) return image;
  return [{ kind: "points", name: info.name, at }, { kind: "mirror", name: info.name, at: mirror(at) }, ...image];
}
