import type { ModelBody } from "../../check/model.ts";
import { type TravelInterval, uniteIntervals } from "../../clearance/intervals.ts";
import type { JointExcuse, SweepBody } from "../../clearance/types.ts";
import { applyPose, type Pose, turnByPose } from "../../maths/pose.ts";
import { dot, mirror, type Vec3 } from "../../maths/vec3.ts";
import type { Side } from "../../scene/scene.ts";
import type { Fastener, ReachJob, ServiceTool } from "../../scene/serviceRecords.ts";
import { type Mounted, type ServiceCar, STATES, type StateName } from "./car.ts";
import { angleOnLeg, type Leg, legLength_mm, motionOnLeg, standing } from "./legs.ts";
import { freeOf, type Going, type Sweeps } from "./sweeps.ts";
import { handleOf, reachOf, seatRadius_mm, toolBody } from "./tools.ts";
import { ALONG_AXES, LATTICE } from "./ways.ts";

/** A part near a tool that is in place. */
export interface NearPart {
  readonly part: string;
  readonly key: string;
  /** Negative: how deep it lies in the tool. */
  readonly clearance_mm: number;
  readonly where: Vec3;
}

/** A spanner about the fastener; angles are degrees from `handleOf`, right hand about the facing direction. */
export interface Swing {
  readonly needs_deg: number;
  /** The widest free stretch, of all the way round. */
  readonly widest_deg: number;
  readonly from_deg: number;
  readonly to_deg: number;
  /** The handle in the middle of it, as the fastener's own directions are written; where nothing is free, before it swings. */
  readonly handle: Vec3;
}

export interface ToolState {
  readonly state: StateName;
  readonly travel_mm: number;
  readonly fits: boolean;
  /** Of a spanner, in the middle of its widest free swing. Null: nothing within 25 mm. */
  readonly clearance_mm: number | null;
  /** What overlaps and what is near, the deepest first; of a spanner that does not swing far enough, what ends its swing. */
  readonly near: readonly NearPart[];
  readonly swing: Swing | null;
}

/** The smallest move of the fastener along a direction that lets the tool on at every state. */
export interface Shift {
  /** Unit vector, as the fastener's own directions are written. */
  readonly way: Vec3;
  readonly mm: number;
}

export interface ToolFreeing {
  /** Forward, back, out, in, up or down; and of all directions that were tried the smallest. Null: none within 60 mm. */
  readonly along: Shift | null;
  readonly freely: Shift | null;
  /** Parts that must be off, all of them, for the tool to fit at every state. */
  readonly takeOff: readonly string[];
  /** Of a spanner: parts of which any one suffices. */
  readonly anyOf: readonly string[];
  /** The thickest tool of that length and the longest of that thickness that fit at every state; null: none does. */
  readonly thinner_mm: number | null;
  readonly shorter_mm: number | null;
}

export interface ToolReach {
  readonly tool: string;
  readonly kind: ServiceTool["kind"];
  readonly states: readonly ToolState[];
  /** Stretches of travel in which it fits, proved for every travel between; of a spanner null, which is asked where the wheel hangs or stands. */
  readonly fitsTravel_mm: readonly TravelInterval[] | null;
  /** Null where it fits at every state. */
  readonly free: ToolFreeing | null;
}

const NEAR_mm = 25;
const MOST_SHIFT_mm = 60;
const LEAST_SIZE_mm = 4;
const SIZE_END_mm = 0.1;

/** Whether a tool gets onto a fastener at ride height and at full droop. Throws StudyStopped. */
export function tryReach(
  car: ServiceCar,
  { fastener, removed }: Pick<ReachJob, "fastener" | "removed">,
  tool: ServiceTool,
  side: Side,
  sweeps: Sweeps,
): ToolReach {
  const place = placeOf(car, fastener, removed, tool, side);
  const states = STATES.map((state) => {
    const travel_mm = car.travelOf(state);
    return tool.kind === "spanner"
      ? swingState(place, tool, state, travel_mm, sweeps)
      : stillState(place, state, travel_mm, sweeps);
  });
  const fitsTravel_mm = tool.kind === "spanner" ? null : travelThatFits(place, sweeps);
  const fits = states.every((state) => state.fits);
  return {
    tool: tool.id,
    kind: tool.kind,
    states,
    fitsTravel_mm,
    free: fits ? null : freeing(place, tool, sweeps),
  };
}

/** A tool on a fastener, with everything that may be in its way. */
interface ToolPlace {
  readonly car: ServiceCar;
  readonly side: Side;
  readonly fastener: Fastener;
  readonly tool: ServiceTool;
  readonly body: SweepBody;
  readonly mounted: Mounted;
  readonly others: readonly ModelBody[];
}

function placeOf(
  car: ServiceCar,
  fastener: Fastener,
  removed: readonly string[],
  tool: ServiceTool,
  side: Side,
): ToolPlace {
  return {
    car,
    side,
    fastener,
    tool,
    body: toolBody(car.scene, fastener, tool, side),
    mounted: { mount: fastener.mount, side },
    others: car.without(removed),
  };
}

/** Where the surface around the fastener does not count: in the part that it sits in alone. */
function excusesOf({ fastener, tool, side }: ToolPlace, other: ModelBody): JointExcuse[] {
  if (other.id !== fastener.part || (other.side !== side && other.side !== "both")) return [];
  const at = side === "right" && fastener.isMirrored ? mirror(fastener.at) : fastener.at;
  return [{ centreInA: at, centreInB: at, radius_mm: seatRadius_mm(tool) }];
}

function within(other: ModelBody): number {
  return other.within_mm ?? 0;
}

function nearAt(place: ToolPlace, pose: Pose, travel_mm: number, cap_mm: number, sweeps: Sweeps): NearPart[] {
  const a: Going = { body: place.body, motion: standing(pose) };
  const near = place.others.flatMap((other): NearPart[] => {
    const b: Going = { body: other, motion: standing(place.car.poseOf(other, travel_mm)) };
    const excuses = excusesOf(place, other);
    const sweep = sweeps.below({ a, b, excuses }, 0, 0, cap_mm + within(other));
    // the part that a tool sits on is near it by design
    if (sweep === null || (excuses.length > 0 && sweep.clearance_mm >= 0)) return [];
    const clearance_mm = sweep.clearance_mm - within(other);
    return [{ part: other.id, key: other.key, clearance_mm, where: sweep.pointA }];
  });
  return near.sort((p, q) => p.clearance_mm - q.clearance_mm || (p.key < q.key ? -1 : 1));
}

function stillState(place: ToolPlace, state: StateName, travel_mm: number, sweeps: Sweeps): ToolState {
  const near = nearAt(place, place.car.poseOf(place.mounted, travel_mm), travel_mm, NEAR_mm, sweeps);
  const clearance_mm = near[0]?.clearance_mm ?? null;
  return { state, travel_mm, fits: clearance_mm === null || clearance_mm >= 0, clearance_mm, near, swing: null };
}

function travelThatFits(place: ToolPlace, sweeps: Sweeps): TravelInterval[] {
  const { car, body, mounted, others } = place;
  const a: Going = { body, motion: car.motionOf(mounted) };
  const blocked = others.flatMap((other) => {
    const b: Going = { body: other, motion: car.motionOf(other) };
    return sweeps.blocked({ a, b, excuses: excusesOf(place, other) }, car.from_mm, car.to_mm, within(other));
  });
  return freeOf(blocked, car.from_mm, car.to_mm);
}

type Spanner = Extract<ServiceTool, { kind: "spanner" }>;

interface Ring {
  readonly leg: Extract<Leg, { kind: "turn" }>;
  readonly pose: Pose;
  /** Of each part, in degrees. */
  readonly blocked: ReadonlyMap<ModelBody, readonly TravelInterval[]>;
}

/** All the way round at one travel, each part with where it ends the swing. */
function ringOf(place: ToolPlace, tool: Spanner, travel_mm: number, sweeps: Sweeps): Ring {
  const { car, side, fastener, mounted, body, others } = place;
  const isMirrored = side === "right" && fastener.isMirrored;
  const seen = (p: Vec3): Vec3 => (isMirrored ? mirror(p) : p);
  const pose = car.poseOf(mounted, travel_mm);
  const leg: Ring["leg"] = {
    kind: "turn",
    about: applyPose(pose, seen(fastener.at)),
    axis: turnByPose(pose, seen(fastener.facing)),
    angle_deg: 360,
    reach_mm: reachOf(tool),
  };
  const length_mm = legLength_mm(leg);
  const a: Going = { body, motion: motionOnLeg(leg, pose) };
  const blocked = new Map<ModelBody, readonly TravelInterval[]>();
  for (const other of others) {
    const b: Going = { body: other, motion: standing(car.poseOf(other, travel_mm)) };
    const stretches = sweeps.blocked({ a, b, excuses: excusesOf(place, other) }, 0, length_mm, within(other));
    if (stretches.length === 0) continue;
    blocked.set(
      other,
      stretches.map(([from, to]) => [angleOnLeg(leg, from), angleOnLeg(leg, to)]),
    );
  }
  return { leg, pose, blocked };
}

/** The widest free stretch of a ring; it may run on past 360°. */
function widestFree(blocked: readonly TravelInterval[]): TravelInterval | null {
  const free = freeOf(blocked, 0, 360);
  const [first, last] = [free[0], free.at(-1)];
  if (!first || !last) return null;
  if (first[0] <= 0 && last[1] >= 360) {
    if (free.length === 1) return [0, 360];
    free.pop();
    free[0] = [last[0] - 360, first[1]];
  }
  return free.reduce((widest, each) => (each[1] - each[0] > widest[1] - widest[0] + 1e-9 ? each : widest));
}

function swingState(place: ToolPlace, tool: Spanner, state: StateName, travel_mm: number, sweeps: Sweeps): ToolState {
  const { leg, pose, blocked } = ringOf(place, tool, travel_mm, sweeps);
  const widest = widestFree([...blocked.values()].flat());
  const { facing, isMirrored } = place.fastener;
  const seen = (p: Vec3): Vec3 => (place.side === "right" && isMirrored ? mirror(p) : p);
  const start = turnByPose(pose, seen(handleOf(facing)));
  const middle = widest ? (widest[0] + widest[1]) / 2 : 0;
  const turned = motionOnLeg({ ...leg, angle_deg: middle || 1e-9 }, pose).poses.slice(-12);
  const handle = seen(widest ? turnByPose(turned, seen(handleOf(facing))) : start);
  const widest_deg = widest ? widest[1] - widest[0] : 0;
  const swing: Swing = {
    needs_deg: tool.swing_deg,
    widest_deg,
    from_deg: widest?.[0] ?? 0,
    to_deg: widest?.[1] ?? 0,
    handle,
  };
  const fits = widest_deg >= Math.min(360, tool.swing_deg) - 1e-9;
  if (fits) {
    const near = nearAt(place, turned, travel_mm, NEAR_mm, sweeps);
    return { state, travel_mm, fits, clearance_mm: near[0]?.clearance_mm ?? null, near, swing };
  }
  const ends = [...blocked].flatMap(([other, stretches]): NearPart[] => {
    const isEnd = stretches.some(([from, to]) => !widest || touches(from, widest[1]) || touches(to, widest[0]));
    if (!isEnd) return [];
    const [from, to] = stretches[0]!;
    const there = motionOnLeg({ ...leg, angle_deg: (from + to) / 2 || 1e-9 }, pose).poses.slice(-12);
    const deepest = nearAt({ ...place, others: [other] }, there, travel_mm, 0, sweeps)[0];
    return deepest ? [deepest] : [];
  });
  return { state, travel_mm, fits, clearance_mm: null, near: ends, swing };
}

function touches(one_deg: number, other_deg: number): boolean {
  const apart = (((one_deg - other_deg) % 360) + 360) % 360;
  return apart < 0.5 || apart > 359.5;
}

function freeing(place: ToolPlace, tool: ServiceTool, sweeps: Sweeps): ToolFreeing {
  const { car, others } = place;
  const travels = STATES.map((state) => car.travelOf(state));
  if (tool.kind === "spanner") {
    const rings = travels.map((travel_mm) => ringOf(place, tool, travel_mm, sweeps));
    const swingsWithout = (gone: ReadonlySet<string>): boolean =>
      rings.every(({ blocked }) => {
        const left = [...blocked].filter(([other]) => !gone.has(other.id)).flatMap(([, stretches]) => stretches);
        const widest = widestFree(left);
        return widest !== null && widest[1] - widest[0] >= tool.swing_deg - 1e-9;
      });
    const inTheWay = [...new Set(rings.flatMap(({ blocked }) => [...blocked.keys()].map(({ id }) => id)))].sort();
    const anyOf = inTheWay.filter((id) => swingsWithout(new Set([id])));
    const takeOff = anyOf.length > 0 ? [] : inTheWay;
    return { along: null, freely: null, takeOff, anyOf, thinner_mm: null, shorter_mm: null };
  }
  const seen = (p: Vec3): Vec3 => (place.side === "right" && place.fastener.isMirrored ? mirror(p) : p);
  const inTheWay = new Map<string, Vec3[]>();
  for (const travel_mm of travels) {
    const a: Going = { body: place.body, motion: standing(car.poseOf(place.mounted, travel_mm)) };
    for (const other of others) {
      const b: Going = { body: other, motion: standing(car.poseOf(other, travel_mm)) };
      const sweep = sweeps.below({ a, b, excuses: excusesOf(place, other) }, 0, 0, within(other));
      if (sweep === null) continue;
      inTheWay.set(other.id, [...(inTheWay.get(other.id) ?? []), seen(sweep.partingOfA)]);
    }
  }
  const partings = [...inTheWay.values()].flat();
  const blockers = others.filter(({ id }) => inTheWay.has(id));
  const fitsAs = (other: ServiceTool): boolean => {
    const small: ToolPlace = {
      ...place,
      body: toolBody(car.scene, place.fastener, other, place.side),
      others: blockers,
    };
    return travels.every((travel_mm) => {
      const [deepest] = nearAt(small, car.poseOf(place.mounted, travel_mm), travel_mm, 0, sweeps);
      return !deepest || deepest.clearance_mm >= 0;
    });
  };
  return {
    along: smallest(ALONG_AXES.flatMap((way) => shiftAlong(place, way, travels, sweeps) ?? [])),
    freely: smallest([...LATTICE, ...partings].flatMap((way) => shiftAlong(place, way, travels, sweeps) ?? [])),
    takeOff: [...inTheWay.keys()].sort(),
    anyOf: [],
    thinner_mm: largest(tool.diameter_mm, (diameter_mm) => fitsAs({ ...tool, diameter_mm })),
    shorter_mm: tool.kind === "socket" ? largest(tool.length_mm, (length_mm) => fitsAs({ ...tool, length_mm })) : null,
  };
}

/** The first place along the way at which the tool is free of everything at all of the travels. */
function shiftAlong(place: ToolPlace, way: Vec3, travels: readonly number[], sweeps: Sweeps): Shift | null {
  const { car, fastener, side, body, mounted, others } = place;
  const isMirrored = side === "right" && fastener.isMirrored;
  // not into the part that it sits in
  if (dot(way, fastener.facing) < -0.5) return null;
  const leg: Leg = { kind: "straight", way: isMirrored ? mirror(way) : way, length_mm: MOST_SHIFT_mm };
  const blocked = travels.flatMap((travel_mm) => {
    const a: Going = { body, motion: motionOnLeg(leg, car.poseOf(mounted, travel_mm)) };
    return others.flatMap((other) => {
      const excuses = excusesOf(place, other);
      // what the fastener sits in goes along with it
      if (excuses.length > 0) return [];
      const b: Going = { body: other, motion: standing(car.poseOf(other, travel_mm)) };
      return sweeps.blocked({ a, b, excuses }, 0, MOST_SHIFT_mm, within(other));
    });
  });
  const [first] = freeOf(uniteIntervals(blocked, 0), 0, MOST_SHIFT_mm);
  if (!first) return null;
  return { way, mm: first[0] };
}

function smallest(shifts: readonly Shift[]): Shift | null {
  return shifts.reduce<Shift | null>(
    (least, each) => (least === null || each.mm < least.mm - 1e-6 ? each : least),
    null,
  );
}

/** The largest size below `now` at which it fits, given that what fits also fits smaller. */
function largest(now: number, fits: (size: number) => boolean): number | null {
  let [low, high] = [Math.min(LEAST_SIZE_mm, now / 2), now];
  if (!fits(low)) return null;
  while (high - low > SIZE_END_mm) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}
