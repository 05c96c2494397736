import { credibleRange } from "../../check/tracks.ts";
import { type Corner, compileCorner } from "../../kinematics/corner.ts";
import { mountWriter } from "../../kinematics/mounts.ts";
import { powertrainPose } from "../../kinematics/powertrain.ts";
import { innerJoint, writeShaftPose } from "../../kinematics/shaft.ts";
import { TravelStates } from "../../kinematics/travelStates.ts";
import { mirrorPose, POSE_SIZE, type Pose, poseOfTrack } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import type { MovedPoints } from "./move.ts";

/** A travel and a powertrain pose at which places are asked. */
export interface PlaceState {
  readonly travel: number;
  readonly travel_mm: number;
  readonly pose: string;
}

/** The corner with the points in one place, at every travel that is asked. */
export interface SolvedPlace {
  readonly scene: Scene;
  readonly corners: readonly Corner[];
  /** 12 numbers a travel, left frame; written again for the next place. */
  readonly carrier: Float64Array;
}

/** Why there is no corner in a place. drawn: a part cannot be made so; reach: parts lock or leave the wheel loose; binds: it locks at a travel. */
export interface Unsolved {
  readonly why: "drawn" | "reach" | "binds";
  /** Travel that it reaches, mm; 0 unless it binds. */
  readonly travel_mm: number;
}

/** Travels at which places are asked: whole steps from ride height, both ends, and where powertrain poses begin and end. */
export function askedTravels({ travel, powertrain }: Scene, step_mm: number): number[] {
  const { bump_mm, droop_mm } = travel;
  const travels = new Set([0, bump_mm, -droop_mm]);
  for (let k = 1; k * step_mm < Math.max(bump_mm, droop_mm); k++) {
    if (k * step_mm < bump_mm) travels.add(k * step_mm);
    if (k * step_mm < droop_mm) travels.add(-k * step_mm);
  }
  for (const pose of powertrain.poses) {
    for (const end of credibleRange(pose, -droop_mm, bump_mm) ?? []) travels.add(end);
  }
  // −0 and 0 are one travel
  return [...travels].map((value) => value + 0).sort((a, b) => a - b);
}

/** Every travel at rest, then of each other pose the travels in which it is credible. */
export function askedStates({ travel, powertrain }: Scene, travels: readonly number[]): PlaceState[] {
  return powertrain.poses.flatMap((pose) => {
    const range = credibleRange(pose, -travel.droop_mm, travel.bump_mm);
    return travels.flatMap((travel_mm, index): PlaceState[] => {
      const isCredible = range !== null && travel_mm >= range[0] && travel_mm <= range[1];
      return isCredible ? [{ travel: index, travel_mm, pose: pose.id }] : [];
    });
  });
}

/** Solves one place after another, each from where the last one stood (TravelStates). */
export class PlaceCorner {
  readonly travels: readonly number[];
  readonly states: readonly PlaceState[];
  /** How many of the states are at rest; they come first. */
  readonly restCount: number;
  readonly sides: readonly Side[];
  private readonly moved: MovedPoints;
  private readonly reduced: SceneDocument;
  private run: TravelStates;

  constructor(moved: MovedPoints, scene: Scene, step_mm: number) {
    this.moved = moved;
    this.reduced = moved.reduced();
    this.travels = askedTravels(scene, step_mm);
    this.states = askedStates(scene, this.travels);
    this.restCount = this.states.filter(({ pose }) => pose === "rest").length;
    this.sides = scene.sides;
    this.run = new TravelStates(this.travels);
  }

  /** The next place is solved as if it were the first. */
  forget(): void {
    this.run = new TravelStates(this.travels);
  }

  /** The parts that follow the points, drawn for them to be there. Throws InputError where one cannot be made so. */
  sceneAt(offsets: readonly Vec3[]): Scene {
    return resolveScene(this.moved.at(offsets, this.reduced));
  }

  solve(offsets: readonly Vec3[]): SolvedPlace | Unsolved {
    const scene = orRefused(() => this.sceneAt(offsets));
    if (!scene) return { why: "drawn", travel_mm: 0 };
    const [side, ...others] = scene.sides as [Side, ...Side[]];
    const corner = orRefused(() => compileCorner(scene, side));
    if (!corner) return { why: "reach", travel_mm: 0 };
    const { run } = this;
    run.solve(corner);
    if (run.first > 0) return { why: "binds", travel_mm: this.travels[run.first]! };
    if (run.end < this.travels.length) return { why: "binds", travel_mm: this.travels[run.end - 1] ?? 0 };
    // it is solved in the left frame for either side
    const corners = [corner, ...others.map((other): Corner => ({ ...corner, side: other }))];
    return { scene, corners, carrier: run.carrier };
  }
}

export function isSolved(place: SolvedPlace | Unsolved): place is SolvedPlace {
  return "carrier" in place;
}

/** Null where what is asked for cannot be made so. */
export function orRefused<T>(make: () => T): T | null {
  try {
    return make();
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** Mounts of every side, one side after the other, in the order of mountWriter. */
export class MountFrames {
  readonly order: readonly string[];
  readonly count: number;
  private readonly sides: readonly Side[];

  constructor({ corners }: SolvedPlace) {
    this.order = mountWriter(corners[0]!, "rest").order;
    this.sides = corners.map(({ side }) => side);
    this.count = this.order.length * corners.length;
  }

  /** The frame of a mount; null: it stands. */
  frameOf(mount: string, side: Side): number | null {
    if (mount === "chassis") return null;
    return this.sides.indexOf(side) * this.order.length + this.order.indexOf(mount);
  }

  /** Writes every mount's pose at every state: `frameCount` poses a state, the mounts first. */
  write(place: SolvedPlace, states: readonly PlaceState[], frameCount: number, out: Float64Array): void {
    const { order } = this;
    const stride = POSE_SIZE * frameCount;
    place.corners.forEach((corner, s) => {
      const first = POSE_SIZE * s * order.length;
      const writeRest = s === 0 ? restMounts(corner) : mirroredMounts(corner, order);
      const shaft = order.indexOf("driveshaft");
      const { driveshaft } = place.scene;
      let pose = "";
      let powertrain = poseOfTrack(out, 0);
      let inner: Vec3 = [0, 0, 0];
      states.forEach((state, i) => {
        const at = i * stride + first;
        const carrier = poseOfTrack(place.carrier, state.travel);
        if (state.pose === "rest") {
          writeRest(carrier, out, at, i * stride);
          return;
        }
        // all but powertrain and driveshaft are where they are at rest, and rest comes first
        const rest = state.travel * stride + first;
        out.copyWithin(at, rest, rest + POSE_SIZE * order.length);
        if (state.pose !== pose) {
          pose = state.pose;
          powertrain = powertrainPose(place.scene, pose);
          if (driveshaft) inner = innerJoint(driveshaft, corner.side, powertrain).at;
        }
        out.set(powertrain, at + POSE_SIZE * order.indexOf("powertrain"));
        if (!driveshaft) return;
        const held = out.subarray(at + POSE_SIZE * shaft, at + POSE_SIZE * (shaft + 1));
        writeShaftPose(driveshaft, inner, carrier, held);
        if (corner.side === "right") mirrorPose(held, held);
      });
    });
  }
}

/** Writes the mounts of one side at rest; `first`: where those of the first side at that state begin. */
type WriteRest = (carrierLeft: Pose, out: Float64Array, at: number, first: number) => void;

function restMounts(corner: Corner): WriteRest {
  const writer = mountWriter(corner, "rest");
  return (carrierLeft, out, at) => {
    writer.write(carrierLeft, out, at);
  };
}

/** Of the other side: the image of those of the first, but for what hangs on the powertrain. */
function mirroredMounts({ scene, side }: Corner, order: readonly string[]): WriteRest {
  const { driveshaft } = scene;
  const inner: Vec3 = driveshaft ? innerJoint(driveshaft, side, powertrainPose(scene, "rest")).at : [0, 0, 0];
  return (carrierLeft, out, at, first) => {
    order.forEach((mount, i) => {
      const from = first + POSE_SIZE * i;
      const pose = out.subarray(at + POSE_SIZE * i, at + POSE_SIZE * (i + 1));
      if (mount === "driveshaft" && driveshaft) writeShaftPose(driveshaft, inner, carrierLeft, pose);
      else pose.set(out.subarray(from, from + POSE_SIZE));
      if (mount !== "chassis" && mount !== "powertrain") mirrorPose(pose, pose);
    });
  };
}
