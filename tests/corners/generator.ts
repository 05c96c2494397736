import type { Solid } from "../../src/geometry/solid.ts";
import { add, mix, type Vec3 } from "../../src/maths/vec3.ts";
import type { MemberDocument, PointDocument, PointEntryDocument, SceneDocument } from "../../src/scene/document.ts";
import { isEntryRecord } from "../../src/scene/pointResolver.ts";
import { blob } from "../clearance/kernel/meshes.ts";
import { drawBodies, SCAN_FILE } from "./bodies.ts";
import { type Dice, diceOf } from "./dice.ts";
import { drawMembers, MIXES, type PutPoint } from "./members.ts";

type Triple = [number, number, number];
type Part<Key extends keyof SceneDocument> = NonNullable<SceneDocument[Key]>;
const three = (p: Vec3): Triple => [p[0], p[1], p[2]];

const TYRES = ["205/55R16", "195/50R15", "225/45R17", "185/70R14"] as const;
/** Most corners are as a builder would draw them; some are pulled about until many of them lock. */
const USUAL_SPREAD_mm = 25;
const WILD_SPREAD_mm = 90;

export interface RandomCorner {
  readonly number: number;
  readonly mix: string;
  readonly document: SceneDocument;
  readonly meshFiles: ReadonlyMap<string, Solid>;
}

/**
 * The plausible corner of a number, the same on every machine: every mix of member kinds in turn, at usual proportions of a
 * car's rear corner, with whatever else a scene may hold drawn by lot.
 */
export function randomCorner(number: number): RandomCorner {
  const dice = diceOf(number);
  const kinds = MIXES[number % MIXES.length]!;
  const points: Record<string, PointEntryDocument> = {};
  const put: PutPoint = (name, at) => {
    const form = dice.below(5);
    if (form === 0) {
      const by = dice.near([0, 0, 0], 20);
      points[`${name}.bolt`] = three(add(at, by));
      return { from: `${name}.bolt`, by: [-by[0], -by[1], -by[2]] };
    }
    points[name] = form === 1 ? { at: three(at), tolerance_mm: 1, how: "tape" } : three(at);
    return name;
  };
  const spread = dice.chance(0.15) ? WILD_SPREAD_mm : USUAL_SPREAD_mm;
  const { members, mounts, lines } = drawMembers(kinds, spread, dice, put);
  const centre = dice.near([0, 740, 305], 25);
  points["wheel.centre"] = three(centre);

  const damper = dice.chance(0.8) ? drawDamper(members, lines, dice, put) : undefined;
  const antiRollBar = dice.chance(0.5) ? drawBar(members, lines, dice, put) : undefined;
  const driveshaft = dice.chance(0.8) ? drawShaft(centre, dice, put) : undefined;
  const powertrain = dice.chance(0.75) ? drawPowertrain(dice) : undefined;

  const bodyMounts = [
    "carrier",
    ...members.map(({ id }) => id),
    ...(damper ? ["damper-upper", "damper-lower"] : []),
    ...(driveshaft ? ["driveshaft"] : []),
  ];
  const near: (readonly [Vec3, Vec3])[] = [
    ...lines,
    [add(centre, [-250, -130, 0]), add(centre, [250, -130, 100])],
    ...(damper ? [[damper.from, damper.to] as const] : []),
    ...(driveshaft ? [[driveshaft.from, driveshaft.to] as const] : []),
  ];
  const hasScan = dice.chance(0.2);
  const bodies = drawBodies(bodyMounts, near, dice, hasScan);
  const moved = dice.chance(0.15) ? mounts.filter((name) => points[name] !== undefined) : [];
  const movedName = moved.length > 0 ? dice.pick(moved) : null;
  const document: SceneDocument = {
    format: "elbowroom.scene",
    version: 1,
    title: `Corner ${number}`,
    notes: "Drawn by lot.",
    sides: dice.pick(["both", "both", "left", "right"]),
    points,
    ...(movedName ? { boltedUp: { [movedName]: three(dice.near(placeOf(points[movedName]!), 8)) } } : {}),
    wheel: {
      centre: "wheel.centre",
      tyre: dice.pick(TYRES),
      rimWidth_in: dice.pick([6, 6.5, 7, 8]),
      rimOffset_mm: dice.between(20, 45),
      toe_deg: dice.between(-0.5, 1),
      camber_deg: dice.between(-3, 0.5),
    },
    travel: { bump_mm: dice.between(30, 85), droop_mm: dice.between(30, 85), step_mm: dice.pick([0.5, 2, 5, 10]) },
    members,
    ...(damper ? { damper: damper.part } : {}),
    ...(antiRollBar ? { antiRollBar } : {}),
    ...(driveshaft ? { driveshaft: driveshaft.part } : {}),
    ...(powertrain ? { powertrain } : {}),
    ...(dice.chance(0.3) ? { joints: drawJoints(members, dice) } : {}),
    bodies,
    tessellation_mm: dice.between(0.8, 2.5),
    clearances: {
      default_mm: dice.between(3, 15),
      ...(dice.chance(0.7) ? { jointRadius_mm: dice.between(0, 60) } : {}),
      ...(dice.chance(0.5) ? { rules: [{ a: "tyre", b: "*", mm: dice.between(5, 25) }] } : {}),
      ...(dice.chance(0.2) ? { accept: [{ a: "part-1", b: "part-2", why: "rubs by design" }] } : {}),
    },
    ...(dice.chance(0.2)
      ? { allowances: { tyreGrowth_mm: dice.between(0, 6), give: [{ on: "carrier", mm: dice.between(0, 3) }] } }
      : {}),
  };
  return {
    number,
    mix: kinds.join(" "),
    document,
    meshFiles: hasScan ? new Map([[SCAN_FILE, scanOf(number)]]) : new Map(),
  };
}

function placeOf(entry: PointEntryDocument): Vec3 {
  const at = isEntryRecord(entry) ? entry.at : entry;
  if (typeof at === "string" || "from" in at) throw new Error("these scenes give every named point its own numbers");
  return at;
}

/** A rough casting, as a scan has it: one closed lump that is not convex. */
function scanOf(number: number): Solid {
  const dice = diceOf(-number - 1);
  return blob(() => dice.between(0, 1), 6, dice.between(15, 45), [1, dice.between(0.5, 1.5), 1], 0.12, [0, 0, 0]);
}

interface OnLine<T> {
  readonly part: T;
  readonly from: Vec3;
  readonly to: Vec3;
}

/** On the hub, down a strut's leg where there is one, or standing on an arm or link. */
function drawDamper(
  members: readonly MemberDocument[],
  lines: readonly (readonly [Vec3, Vec3])[],
  dice: Dice,
  put: PutPoint,
): OnLine<Part<"damper">> {
  const strut = members.find(({ kind }) => kind === "strut");
  const arm = members.find(({ kind }) => kind === "wishbone" || kind === "link");
  let on = "carrier";
  let [from, to]: readonly [Vec3, Vec3] = [dice.near([-60, 545, 630], 25), dice.near([-60, 600, 240], 25)];
  let top: PointDocument = put("damper.top", from);
  if (strut?.kind === "strut" && dice.chance(0.7)) {
    [from, to] = lines[members.indexOf(strut)]!;
    top = strut.top;
  } else if (arm && dice.chance(0.3)) {
    on = arm.id;
    const [inside, outside] = lines[members.slice(0, members.indexOf(arm)).reduce(countLines, 0)]!;
    to = add(mix(inside, outside, dice.between(0.5, 0.85)), [0, 0, 20]);
  }
  const length = Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]);
  const hasSpring = dice.chance(0.7);
  const part: Part<"damper"> = {
    top,
    bottom: put("damper.bottom", to),
    on,
    closed_mm: length * dice.between(0.72, 0.82),
    open_mm: length * dice.between(1.12, 1.25),
    body_mm: dice.between(38, 56),
    ...(hasSpring ? { spring_mm: dice.between(70, 130), springRate_N_per_mm: dice.between(15, 80) } : {}),
    ...(dice.chance(0.4) ? { stopTouches_mm: length * 0.88, stopSolid_mm: length * 0.84 } : {}),
    ...(dice.chance(0.2) ? { strapTight_mm: length * 1.1 } : {}),
  };
  return { part, from, to };
}

/** A wishbone has two lines, a hinge too. */
function countLines(sum: number, { kind }: MemberDocument): number {
  return sum + (kind === "wishbone" || kind === "hinge" ? 2 : 1);
}

function drawBar(
  members: readonly MemberDocument[],
  lines: readonly (readonly [Vec3, Vec3])[],
  dice: Dice,
  put: PutPoint,
): Part<"antiRollBar"> {
  const holder = members.find(({ kind }) => kind === "wishbone");
  const isOnArm = holder !== undefined && dice.chance(0.5);
  const line = isOnArm ? lines[members.slice(0, members.indexOf(holder)).reduce(countLines, 0)]! : null;
  const pickup = line ? mix(line[0], line[1], dice.between(0.55, 0.8)) : dice.near([-60, 620, 240], 20);
  const drop = dice.between(45, 140);
  const arm = add(pickup, [dice.between(-15, 15), dice.between(-15, 15), drop]);
  return {
    pivot: put("bar.pivot", add(arm, [-dice.between(110, 230), -30, dice.between(-20, 20)])),
    axis: three(dice.leaning([0, 1, 0], 0.1)),
    arm: put("bar.arm", arm),
    pickup: put("bar.pickup", pickup),
    on: isOnArm ? holder.id : "carrier",
    diameter_mm: dice.between(14, 26),
  };
}

function drawShaft(centre: Vec3, dice: Dice, put: PutPoint): OnLine<Part<"driveshaft">> {
  const to = add(centre, [0, -70, 0]);
  const from = dice.near([15, 215, 320], 25);
  const joint = () => (dice.chance(0.2) ? ("universal" as const) : ("constant velocity" as const));
  const right = dice.near([15, -215, 320], 25);
  return {
    part: {
      inner: put("shaft.in", from),
      innerAxis: three(dice.leaning([0, 1, 0], 0.05)),
      outer: put("shaft.out", to),
      diameter_mm: dice.between(22, 34),
      ...(dice.chance(0.5) ? { shortest_mm: 380, longest_mm: 560, innerAngleLimit_deg: 23 } : {}),
      ...(dice.chance(0.5) ? { outerAngleLimit_deg: 45 } : {}),
      ...(dice.chance(0.5) ? { innerJoint: joint(), outerJoint: joint() } : {}),
      ...(dice.chance(0.4) ? { right: { inner: three(right), innerAxis: [0, -1, 0] } } : {}),
    },
    from,
    to,
  };
}

function drawPowertrain(dice: Dice): Part<"powertrain"> {
  const about = three(dice.near([180, 0, 430], 60));
  const axis = three(dice.leaning([0, 1, 0], 0.3));
  const poses = ["drive", "overrun", "kerb"].slice(0, dice.below(4)).map((id, i) => ({
    id,
    about,
    axis,
    angle_deg: i === 0 ? dice.between(1, 6) : dice.between(-5, -1),
    ...(dice.chance(0.3) ? { shift_mm: three(dice.near([0, 0, 0], 8)) } : {}),
    ...(dice.chance(0.2) ? { within_mm: [dice.between(-30, -5), dice.between(5, 30)] as [number, number] } : {}),
  }));
  return {
    ...(dice.chance(0.35)
      ? {
          place: {
            shift_mm: three(dice.near([0, 0, 0], 12)),
            turn_deg: three(dice.near([0, 0, 0], 2)),
            about: three(dice.near([0, 0, 300], 50)),
          },
        }
      : {}),
    poses,
  };
}

/** Rod ends and bushes at links and wishbones, with what they may tilt and turn. */
function drawJoints(members: readonly MemberDocument[], dice: Dice): Part<"joints"> {
  return members
    .filter(({ kind }) => kind === "link" || kind === "wishbone")
    .map(({ id }) => ({
      joint: `${id}.outboard`,
      kind: dice.pick(["rod end", "ball joint"] as const),
      axis: three(dice.leaning([1, 0, 0], 0.2)),
      tilt_deg: dice.between(8, 30),
      crooked_deg: dice.between(0, 2),
    }));
}
