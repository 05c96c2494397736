import { Matrix4, Quaternion, Vector3 } from "three";
import { type Corner, compileCorner } from "../../src/kinematics/corner.ts";
import { mountPoses } from "../../src/kinematics/mounts.ts";
import { shaftDesign } from "../../src/kinematics/shaft.ts";
import { runTravel, type TravelRun } from "../../src/kinematics/travel.ts";
import { applyPose, type Pose, poseOfTrack, turnByPose } from "../../src/maths/pose.ts";
import { add, cross, distance, dot, length, normalise, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import { InputError } from "../../src/scene/error.ts";
import type { AntiRollBar, Scene } from "../../src/scene/scene.ts";
import { SecondSolver } from "./secondSolver.ts";

/** What is asked of a place of the hub against the second solver, mm. */
const AGREED_mm = 1e-6;
const SHORT_OF_LOCK_mm = 2;
/** The wheel's rise along the way that the members leave (SecondSolver.rise): 0.5 where all of the hub just goes up. */
const SURE_RISE = 0.06;
/** At a lock hardly anything of what the hub moves is rise, nor is so much further on. */
const LOCKED_RISE = 0.02;
const FURTHER_mm = 2;
const LOCKED_SHARE = 0.002;
/** A lock stands where it stands, whatever the travel is asked for in. */
const SAME_LOCK_mm = 0.01;
const RESIDUAL_mm = 1e-9;
/** Of a mount's points, after a few turns of rounding. */
const POINT_mm = 1e-8;
/** Of the hub's four points about the wheel centre: what a pose does to them it does to all of it. */
const ABOUT: readonly Vec3[] = [
  [0, 0, 0],
  [200, 0, 0],
  [0, 200, 0],
  [0, 0, 200],
];

export interface MotionTally {
  /** Travels whose places the two solvers were compared at. */
  compared: number;
  /** Of these, where the hub is held so feebly that what both leave in their equations may come to more than is asked for. */
  vague: number;
  /** The farthest that they were from each other, mm. */
  farthest_mm: number;
  /** The largest residual of the raw equations, mm. */
  residual_mm: number;
  /** Ends of travel at which members lock, and at which the bar's drop link does. */
  memberLocks: number;
  barLocks: number;
  /** Corners that are refused, by code. */
  refused: Record<string, number>;
}

export const noMotion = (): MotionTally => ({
  compared: 0,
  vague: 0,
  farthest_mm: 0,
  residual_mm: 0,
  memberLocks: 0,
  barLocks: 0,
  refused: {},
});

export interface RunCorner {
  readonly corner: Corner;
  readonly run: TravelRun;
}

/** The corner run through its travel; null where it is refused with a typed error, which is counted. */
export function runCorner(scene: Scene, refused: Record<string, number>): RunCorner | null {
  try {
    const corner = compileCorner(scene, "left");
    return { corner, run: runTravel(corner, { ...scene.travel, step_mm: Math.min(5, scene.travel.step_mm) }) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    refused[error.code] = (refused[error.code] ?? 0) + 1;
    return null;
  }
}

/** Holds both ends of the travel and ride height to the second solver, and each lock to what a lock is. Tells what is wrong. */
export function faultsOfMotion({ corner, run }: RunCorner, tally: MotionTally): string[] {
  const { scene } = corner;
  const faults: string[] = [];
  for (const [way, wanted_mm] of [
    [1, scene.travel.bump_mm],
    [-1, -scene.travel.droop_mm],
  ] as const) {
    const index = way === 1 ? run.travel_mm.length - 1 : 0;
    const end_mm = run.travel_mm[index]!;
    const endPose = poseOfTrack(run.carrier, index);
    const second = new SecondSolver(scene);
    second.boltUp();
    const isWhole = end_mm === wanted_mm;
    const compared_mm = sureTravel(corner, end_mm, way);
    if (!second.moveTo(compared_mm))
      faults.push(`the second solver does not get to ${compared_mm} mm, only to ${second.travel_mm}`);
    const pose = placed(corner, second.travel_mm);
    const apart_mm = farthestApart(corner, pose, second);
    const perMisfit = second.perMisfit();
    const vague_mm = perMisfit * (second.misfit_mm + second.standAt(pose));
    if (vague_mm > AGREED_mm) tally.vague++;
    if (!(apart_mm <= AGREED_mm + vague_mm))
      faults.push(`the second solver has the hub ${apart_mm} mm off at ${second.travel_mm} mm`);
    tally.compared++;
    tally.farthest_mm = Math.max(tally.farthest_mm, apart_mm);
    const atOnce_mm = reachedAtOnce(corner, wanted_mm);
    if (!((atOnce_mm - end_mm) * way > -SAME_LOCK_mm))
      faults.push(`asked for ${wanted_mm} mm at once it gets to ${atOnce_mm} mm, step by step to ${end_mm} mm`);
    if (isWhole) continue;
    const residual_mm = second.standAt(endPose);
    if (!(residual_mm < POINT_mm)) faults.push(`raw equations leave ${residual_mm} mm at the lock, ${end_mm} mm`);
    if (risesNoMore(second, way)) {
      tally.memberLocks++;
      if (!(Math.abs(atOnce_mm - end_mm) < SAME_LOCK_mm))
        faults.push(`asked for ${wanted_mm} mm at once it locks at ${atOnce_mm} mm, step by step at ${end_mm} mm`);
    } else if (scene.antiRollBar && isBarLock(corner, scene.antiRollBar, end_mm, way)) tally.barLocks++;
    else faults.push(`told to lock at ${end_mm} mm, where nothing locks`);
  }
  return faults;
}

/** Raw statements of every mount through the travel and in every powertrain pose. Tells what is wrong. */
export function faultsOfMounts({ corner, run }: RunCorner, tally: MotionTally): string[] {
  const { scene } = corner;
  const faults: string[] = [];
  const count = run.travel_mm.length;
  const knots = [0, Math.floor(count / 4), Math.floor(count / 2), Math.floor((3 * count) / 4), count - 1];
  const second = new SecondSolver(scene);
  second.boltUp();
  for (const knot of new Set(knots)) {
    const carrier = poseOfTrack(run.carrier, knot);
    const told = `at ${run.travel_mm[knot]} mm`;
    const residual_mm = Math.max(second.standAt(carrier), Math.abs(second.travel_mm - run.travel_mm[knot]!));
    tally.residual_mm = Math.max(tally.residual_mm, residual_mm);
    if (!(residual_mm < RESIDUAL_mm)) faults.push(`the members' equations leave ${residual_mm} mm ${told}`);
    for (const { id } of scene.powertrain.poses) {
      for (const [what, off_mm] of misfitsOf(corner, carrier, id)) {
        if (!(off_mm < POINT_mm)) faults.push(`${what} is ${off_mm} mm off ${told}, ${id}`);
      }
    }
  }
  return faults;
}

/**
 * The travel nearest to the end at which a place can be told: towards a turning point, which may lie just beyond the end too,
 * it hangs on the travel more and more, and at the point itself on the root of rounding.
 */
function sureTravel(corner: Corner, end_mm: number, way: 1 | -1): number {
  if (Math.abs(end_mm) < 1) return 0;
  const probe = new SecondSolver(corner.scene);
  probe.boltUp();
  for (let short_mm = 0; short_mm < Math.abs(end_mm) / 2; short_mm += SHORT_OF_LOCK_mm) {
    const travel_mm = end_mm - way * short_mm;
    probe.standAt(placed(corner, travel_mm));
    if (Math.abs(probe.rise()) >= SURE_RISE) return travel_mm;
  }
  return end_mm / 2;
}

function placed({ solver }: Corner, travel_mm: number): Pose {
  const pose = new Float64Array(12);
  solver.reset();
  solver.moveTo(travel_mm);
  solver.writePose(pose);
  return pose;
}

function reachedAtOnce({ solver }: Corner, travel_mm: number): number {
  solver.reset();
  solver.moveTo(travel_mm);
  return solver.travel_mm;
}

function farthestApart({ scene }: Corner, pose: Pose, second: SecondSolver): number {
  const points = ABOUT.map((by) => add(scene.wheel.centre, by));
  return Math.max(...points.map((p) => distance(applyPose(pose, p), second.at(p))));
}

/**
 * Along what the members leave, the wheel goes back the way it came on both sides of a turning point; or it stands still while the hub
 * goes on, which no more lifts it.
 */
function risesNoMore(second: SecondSolver, way: 1 | -1): boolean {
  const here_mm = second.travel_mm;
  return (
    Math.abs(second.rise()) < LOCKED_RISE &&
    second.beside(FURTHER_mm).every((there_mm) => (there_mm - here_mm) * way < LOCKED_SHARE * FURTHER_mm)
  );
}

/** Whether the drop link reaches here and no longer a little farther on: by trial of the arm's whole turn. */
function isBarLock(corner: Corner, bar: AntiRollBar, end_mm: number, way: 1 | -1): boolean {
  return reaches(corner, bar, end_mm) && !reaches(corner, bar, end_mm + way * 0.05);
}

function reaches(corner: Corner, bar: AntiRollBar, travel_mm: number): boolean {
  const carrier = placed(corner, travel_mm);
  if (corner.solver.travel_mm !== travel_mm) return false;
  const pickup = applyPose(corner.rider(bar.on).pose(carrier, new Float64Array(12)), bar.pickup);
  const drop_mm = distance(bar.arm, bar.pickup);
  const misses = Array.from({ length: 7200 }, (_, i) => {
    const turn = new Quaternion().setFromAxisAngle(new Vector3(...bar.axis), (i * Math.PI) / 3600);
    const arm = new Vector3(...subtract(bar.arm, bar.pivot)).applyQuaternion(turn);
    return arm.add(new Vector3(...bar.pivotMounted)).distanceTo(new Vector3(...pickup)) - drop_mm;
  });
  // a hair more than between two of these turns
  const slack_mm = 1e-4;
  return Math.min(...misses) <= slack_mm && Math.max(...misses) >= -slack_mm;
}

/** Where each mount's points are against where what holds them is, mm. */
function misfitsOf(corner: Corner, carrier: Pose, poseId: string): [string, number][] {
  const { scene } = corner;
  const poses = mountPoses(corner, carrier, poseId);
  const of = (mount: string): Pose => poses.get(mount)!;
  const found: [string, number][] = [];
  const meets = (what: string, one: Vec3, other: Vec3) => found.push([what, distance(one, other)]);
  const onLine = (what: string, p: Vec3, from: Vec3, to: Vec3) =>
    found.push([what, length(cross(subtract(p, from), normalise(subtract(to, from))))]);
  for (const [mount, pose] of poses) found.push([`${mount} as a rigid body`, 100 * skewOf(pose)]);

  for (const member of scene.members) {
    const pose = of(member.id);
    if (member.kind === "link") {
      meets(`${member.id} inboard`, applyPose(pose, member.inboard), member.inboardMounted);
      meets(`${member.id} outboard`, applyPose(pose, member.outboard), applyPose(carrier, member.outboard));
    } else if (member.kind === "wishbone") {
      meets(`${member.id} outboard`, applyPose(pose, member.outboard), applyPose(carrier, member.outboard));
      const [front, rear] = [applyPose(pose, member.front), applyPose(pose, member.rear)];
      onLine(`${member.id} front`, front, member.frontMounted, member.rearMounted);
      onLine(`${member.id} rear`, rear, member.frontMounted, member.rearMounted);
    } else found.push([`${member.id} on the hub`, Math.max(...carrier.map((value, i) => Math.abs(value - pose[i]!)))]);
  }
  const { damper, driveshaft, antiRollBar: bar } = scene;
  if (damper) {
    const bottom = applyPose(of(damper.on), damper.bottom);
    meets("damper top", applyPose(of("damper-upper"), damper.top), damper.topMounted);
    meets("damper bottom", applyPose(of("damper-lower"), damper.bottom), bottom);
    onLine("damper rod", applyPose(of("damper-upper"), damper.bottom), damper.topMounted, bottom);
    onLine("damper tube", applyPose(of("damper-lower"), damper.top), damper.topMounted, bottom);
  }
  const engine = enginePlace(scene, poseId);
  const probe: Vec3 = [150, 200, 300];
  meets("powertrain", applyPose(of("powertrain"), probe), engine(probe));
  if (driveshaft) {
    const outer = applyPose(carrier, driveshaft.outer);
    meets("shaft outboard", applyPose(of("driveshaft"), driveshaft.outer), outer);
    onLine(
      "shaft inboard",
      applyPose(of("driveshaft"), shaftDesign(scene, "left")!.inner),
      outer,
      engine(driveshaft.inner.left.at),
    );
  }
  if (bar && poses.has("bar")) {
    const arm = applyPose(of("bar"), bar.arm);
    meets("bar pivot", applyPose(of("bar"), bar.pivot), bar.pivotMounted);
    found.push(["bar axis", 100 * length(subtract(turnByPose(of("bar"), bar.axis), bar.axis))]);
    meets("drop link at the arm", applyPose(of("bar-link"), bar.arm), arm);
    // at a right angle to a lock a length to rounding is a place to its root
    found.push([
      "drop link",
      Math.abs(distance(arm, applyPose(of(bar.on), bar.pickup)) - distance(bar.arm, bar.pickup)),
    ]);
  }
  return found;
}

/** p → about + R(p − about) + shift, first for the place, then for the pose; turns by three. */
function enginePlace(scene: Scene, poseId: string): (p: Vec3) => Vec3 {
  const { place, poses } = scene.powertrain;
  const rock = poses.find(({ id }) => id === poseId)!;
  const go = (p: Vec3, turn: Matrix4, about: Vec3, by: Vec3): Vec3 => {
    const turned = new Vector3(...subtract(p, about)).applyMatrix4(turn);
    return add(add(turned.toArray() as [number, number, number], about), by);
  };
  const DEGREES = Math.PI / 180;
  const placing = new Matrix4();
  if (place) {
    const [x, y, z] = scale(place.turn_deg, DEGREES);
    for (const [axis, angle] of [
      [new Vector3(1, 0, 0), x],
      [new Vector3(0, 1, 0), y],
      [new Vector3(0, 0, 1), z],
    ] as const)
      placing.multiply(new Matrix4().makeRotationAxis(axis, angle!));
  }
  const rocking = new Matrix4().makeRotationAxis(new Vector3(...rock.axis), rock.angle_deg * DEGREES);
  return (p) => {
    const stood = place ? go(p, placing, place.about, place.shift_mm) : p;
    return go(stood, rocking, rock.about, rock.shift_mm);
  };
}

/** How far a pose's columns are from being unit vectors square to each other, right-handed. */
function skewOf(pose: Pose): number {
  const [x, y, z] = [0, 1, 2].map((k): Vec3 => [pose[k]!, pose[4 + k]!, pose[8 + k]!]) as [Vec3, Vec3, Vec3];
  const off = [length(x) - 1, length(y) - 1, dot(x, y)].map(Math.abs);
  return Math.max(...off, length(subtract(cross(x, y), z)));
}
