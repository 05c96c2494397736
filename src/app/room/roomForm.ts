import { limitHolders, limitName } from "../../check/limits.ts";
import { memberLengths } from "../../kinematics/joints.ts";
import { normalise, subtract, type Vec3 } from "../../maths/vec3.ts";
import { drawnPart } from "../../scene/aside.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { usersOfPoint } from "../../scene/points.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Fit } from "../../studies/places/move.ts";
import type { PlaceLimits, Range } from "../../studies/places/placeLimits.ts";
import { PlaceGrid, type Region, type Span } from "../../studies/room/region.ts";
import type { RoomRequest } from "../../studies/room/room.ts";
import type { Question } from "../../work/protocol.ts";
import { type PointInfo, pointInfos } from "../points/pointInfo.ts";
import { liveCorner, liveCurve } from "../store/corners.ts";

export const AXES = ["forward", "out", "up"] as const;
export type Axis = (typeof AXES)[number];
/** Along an axis, or from the point to the other end of its part. */
export type Way = Axis | "part";
export const SHAPES = ["box", "plane", "line"] as const;
export type RoomShape = (typeof SHAPES)[number];

/** A way to both sides of where the point is, both 0 or more. */
export interface Reach {
  readonly less_mm: number;
  readonly more_mm: number;
}

export interface AskedMost {
  readonly on: boolean;
  readonly most: number;
}

export interface AskedRange {
  readonly on: boolean;
  readonly least: number;
  readonly most: number;
}

/** What the builder asks: where to look, and what must hold there. */
export interface RoomForm {
  readonly point: string;
  /** Moves together with it. */
  readonly second: string | null;
  readonly fit: Fit;
  readonly shape: RoomShape;
  /** Which axis a plane lies across. */
  readonly across: Axis;
  /** Along what a line lies. */
  readonly along: Way;
  readonly reach: Readonly<Record<Way, Reach>>;
  readonly step_mm: number;
  /** Places are asked at travels so far apart. */
  readonly travelStep_mm: number;
  readonly toe: AskedMost;
  readonly camber: AskedRange;
  readonly halfTrack: AskedMost;
  readonly ratio: AskedRange;
  /** By member, of those that have a length between two joints. */
  readonly lengths: Readonly<Record<string, AskedRange>>;
  /** Limits by name and pairs "a/b" that do not count. */
  readonly leaveOut: readonly string[];
}

/** Margins of this and more are not told apart. */
export const MARGIN_UP_TO_mm = 10;
/** More places than the view is to be drawn of. */
export const MOST_SHOWN = 100_000;

const AXIS_WAYS: Readonly<Record<Axis, Vec3>> = { forward: [1, 0, 0], out: [0, 1, 0], up: [0, 0, 1] };
const USUAL_REACH: Reach = { less_mm: 20, more_mm: 20 };
const USUAL_STEP_mm = 4;
const USUAL_TRAVEL_STEP_mm = 10;

/** The hard points whose place can be asked for: all at which a part ends, but the wheel's centre, from which all is told. */
export function askablePoints(document: SceneDocument): readonly PointInfo[] {
  return pointInfos(document).filter(
    (info) =>
      fitsOf(info).length > 0 &&
      (info.carries.length > 0 || info.followers.length > 0) &&
      !usersOfPoint(document, info.name).some(({ path }) => path === "wheel.centre"),
  );
}

/** How parts on the point can be made to fit. */
export function fitsOf({ refusals }: Pick<PointInfo, "refusals">): readonly Fit[] {
  const fits: Fit[] = [];
  if (refusals.cut === null) fits.push("cut");
  if (refusals.bolt === null) fits.push("bolted");
  return fits;
}

/**
 * What is asked of a point unless the builder says otherwise: 20 mm round it, and wheel angles and half track a little worse than
 * they are now, if need be. Null where the scene has no such point.
 */
export function usualForm(document: SceneDocument, scene: Scene, wanted: string | null): RoomForm | null {
  const points = askablePoints(document);
  const info = points.find(({ name }) => name === wanted) ?? points.find(isMadeMount) ?? points[0];
  if (!info) return null;
  const curve = liveCurve(scene, scene.sides[0]!);
  const atRide = curve.reduce((best, each) => (Math.abs(each.travel_mm) < Math.abs(best.travel_mm) ? each : best));
  const most = (of: (point: (typeof curve)[number]) => number): number =>
    Math.max(...curve.map((each) => Math.abs(of(each) - of(atRide))));
  const camber = curve.map(({ camber_deg }) => camber_deg);
  const ratios = curve.flatMap(({ damperRatio }) => (damperRatio === null ? [] : [damperRatio]));
  return {
    point: info.name,
    second: null,
    fit: fitsOf(info)[0]!,
    shape: "box",
    across: "out",
    along: "up",
    reach: { forward: USUAL_REACH, out: USUAL_REACH, up: USUAL_REACH, part: USUAL_REACH },
    step_mm: USUAL_STEP_mm,
    travelStep_mm: USUAL_TRAVEL_STEP_mm,
    toe: { on: true, most: roundUp(most(({ toe_deg }) => toe_deg) + MORE_TOE_deg, 0.05) },
    camber: {
      on: true,
      least: -roundUp(-Math.min(...camber) + MORE_CAMBER_deg, 0.1),
      most: roundUp(Math.max(...camber) + MORE_CAMBER_deg, 0.1),
    },
    halfTrack: { on: true, most: roundUp(most(({ halfTrack_mm }) => halfTrack_mm) + MORE_TRACK_mm, 1) },
    ratio: {
      on: false,
      least: ratios.length > 0 ? -roundUp(-Math.min(...ratios), 0.05) : 0,
      most: ratios.length > 0 ? roundUp(Math.max(...ratios), 0.05) : 0,
    },
    lengths: Object.fromEntries(
      memberLengths(scene)
        .filter(({ lengths }) => lengths.length > 0)
        .map(({ id, lengths }) => {
          const all = lengths.map(({ mm }) => mm);
          return [id, { on: false, least: Math.floor(Math.min(...all)) - 20, most: Math.ceil(Math.max(...all)) + 20 }];
        }),
    ),
    leaveOut: [],
  };
}

/** By how much wheel angles and half track may be worse than now; common practice, no source. */
const MORE_TOE_deg = 0.2;
const MORE_CAMBER_deg = 0.5;
const MORE_TRACK_mm = 3;

function roundUp(value: number, step: number): number {
  return Number((Math.ceil(value / step - 1e-9) * step).toFixed(6));
}

function isMadeMount({ side, refusals }: PointInfo): boolean {
  return side === "chassis" && refusals.cut === null;
}

/** The form for another point: what must hold stays. */
export function withPoint(form: RoomForm, document: SceneDocument, name: string): RoomForm {
  const info = askablePoints(document).find((point) => point.name === name);
  if (!info) return form;
  const second = form.second === name ? null : form.second;
  const along = form.along === "part" && !info.memberId ? "up" : form.along;
  return { ...form, point: name, second, along, fit: fitFor(document, [name, second], form.fit) };
}

export function withSecond(form: RoomForm, document: SceneDocument, second: string | null): RoomForm {
  return { ...form, second, fit: fitFor(document, [form.point, second], form.fit) };
}

/** Ways in which all these points can be made to fit. */
export function commonFits(document: SceneDocument, names: readonly (string | null)[]): readonly Fit[] {
  const infos = pointInfos(document).filter(({ name }) => names.includes(name));
  return (["cut", "bolted"] as const).filter((fit) => infos.every((info) => fitsOf(info).includes(fit)));
}

function fitFor(document: SceneDocument, names: readonly (string | null)[], wanted: Fit): Fit {
  const fits = commonFits(document, names);
  return fits.includes(wanted) ? wanted : (fits[0] ?? wanted);
}

/** From the point to the other end of the link or strut that ends there, unit length; null where it is none. */
export function partWay(scene: Scene, info: PointInfo): Vec3 | null {
  const member = scene.members.find(({ id }) => id === info.memberId);
  const ends =
    member?.kind === "link"
      ? ([member.inboard, member.outboard] as const)
      : member?.kind === "strut"
        ? ([member.top, member.bottom] as const)
        : null;
  if (!ends) return null;
  const [one, other] = ends;
  const isOne = far(info.place, one) < far(info.place, other);
  const way = subtract(isOne ? other : one, isOne ? one : other);
  return Math.hypot(...way) > 1e-6 ? normalise(way) : null;
}

function far(a: Vec3, b: Vec3): number {
  return Math.hypot(...subtract(a, b));
}

/** The ways along which the form's region runs, in the order of its spans. */
export function waysOf({ shape, across, along }: Pick<RoomForm, "shape" | "across" | "along">): readonly Way[] {
  if (shape === "line") return [along];
  return shape === "plane" ? AXES.filter((axis) => axis !== across) : AXES;
}

export function regionOf(form: RoomForm, scene: Scene, info: PointInfo): Region {
  const spans = waysOf(form).map((way): Span => {
    const { less_mm, more_mm } = form.reach[way];
    const along = way === "part" ? (partWay(scene, info) ?? AXIS_WAYS.up) : AXIS_WAYS[way];
    return { along, from_mm: -less_mm, to_mm: more_mm };
  });
  return { spans, step_mm: form.step_mm };
}

/** How many places the form's region has, worked out without refusing any; NaN for a step that is none. */
export function placesIn(form: RoomForm): number {
  return waysOf(form).reduce((product, way) => {
    const { less_mm, more_mm } = form.reach[way];
    return product * (Math.floor(more_mm / form.step_mm + 1e-9) + Math.floor(less_mm / form.step_mm + 1e-9) + 1);
  }, 1);
}

export function limitsOf({ toe, camber, halfTrack, ratio, lengths }: RoomForm): PlaceLimits {
  const range = ({ least, most }: AskedRange): Range => [least, most];
  const asked = Object.entries(lengths).filter(([, { on }]) => on);
  return {
    ...(toe.on ? { toeChange_deg: toe.most } : {}),
    ...(camber.on ? { camber_deg: range(camber) } : {}),
    ...(halfTrack.on ? { halfTrackChange_mm: halfTrack.most } : {}),
    ...(ratio.on ? { damperRatio: range(ratio) } : {}),
    ...(asked.length > 0 ? { memberLength_mm: Object.fromEntries(asked.map(([id, each]) => [id, range(each)])) } : {}),
  };
}

/** Throws InputError for a region that cannot be. */
export function questionOf(form: RoomForm, document: SceneDocument, scene: Scene): Question<RoomRequest> | null {
  const info = askablePoints(document).find(({ name }) => name === form.point);
  if (!info) return null;
  const region = regionOf(form, scene, info);
  new PlaceGrid(region);
  return {
    document: drawnPart(document),
    points: form.second === null ? [form.point] : [form.point, form.second],
    fit: form.fit,
    limits: limitsOf(form),
    leaveOut: form.leaveOut,
    travelStep_mm: form.travelStep_mm,
    marginUpTo_mm: MARGIN_UP_TO_mm,
    region,
  };
}

/** Names of the limits that the scene itself states, of any side. */
export function sceneLimits(scene: Scene): readonly string[] {
  const names = scene.sides.flatMap((side) => limitHolders(liveCorner(scene, side).corner).map(limitName));
  return [...new Set(names)];
}

/** Whether the form asks anything else than that question, of whatever car. */
export function asksElse(form: RoomForm, scene: Scene, document: SceneDocument, asked: Question<RoomRequest>): boolean {
  const info = askablePoints(document).find(({ name }) => name === form.point);
  if (!info) return true;
  const points = form.second === null ? [form.point] : [form.point, form.second];
  const wanted = [points, form.fit, limitsOf(form), form.leaveOut, form.travelStep_mm, regionOf(form, scene, info)];
  const { points: had, fit, limits, leaveOut, travelStep_mm, region } = asked;
  return JSON.stringify(wanted) !== JSON.stringify([had, fit, limits, leaveOut, travelStep_mm, region]);
}
