import { assembleModel } from "../../check/assemble.ts";
import type { ModelBody } from "../../check/model.ts";
import { meetingRule, rigidCluster } from "../../check/pairRules.ts";
import { excuser } from "../../check/plan.ts";
import { CheckShelf } from "../../check/shelf.ts";
import { ridingTracks, runSides, type SideRun, type Tracks, tracksOf } from "../../check/tracks.ts";
import { poseOfMotion } from "../../clearance/motion.ts";
import type { JointExcuse, Motion } from "../../clearance/types.ts";
import type { Solid } from "../../geometry/solid.ts";
import { identityPose, type Pose } from "../../maths/pose.ts";
import { bodiesOf } from "../../scene/parts/remove.ts";
import type { Scene, Side } from "../../scene/scene.ts";

/** The states that a builder works in. */
export const STATES = ["ride", "droop"] as const;
export type StateName = (typeof STATES)[number];

export interface Mounted {
  readonly mount: string;
  readonly side: Side | "both";
}

/** Tells the bodies of these parts, and those that ride on them: an eye on its damper, a boot on its driveshaft. */
export function bodyOfParts(parts: readonly string[]): (body: Pick<ModelBody, "id" | "mount">) => boolean {
  const ids = new Set(parts.flatMap((part) => bodiesOf(part)));
  return ({ id, mount }) => ids.has(id) || ids.has(mount);
}

/** Every body of the car with the engine at rest, both wheels at one travel. */
export class ServiceCar {
  readonly scene: Scene;
  readonly meshFiles: ReadonlyMap<string, Solid>;
  readonly bodies: readonly ModelBody[];
  readonly from_mm: number;
  readonly to_mm: number;
  readonly clusterOf: (mount: string) => string;
  readonly #canMeet: (a: ModelBody, b: ModelBody) => boolean;
  readonly #runs: readonly SideRun[];
  readonly #tracks: ReadonlyMap<Side, Tracks>;
  readonly #excusers: ReadonlyMap<Side, (first: string, second: string) => JointExcuse[]>;

  /** Throws InputError for a scene whose parts cannot be made or whose corner cannot be solved. */
  constructor(scene: Scene, meshFiles: ReadonlyMap<string, Solid>) {
    const shelf = new CheckShelf();
    this.scene = scene;
    this.meshFiles = meshFiles;
    this.#runs = runSides(scene);
    this.bodies = assembleModel(scene, meshFiles, shelf.solids);
    const riding = ridingTracks(this.#runs, shelf);
    this.#tracks = new Map(
      this.#runs.map((run) => [run.side, tracksOf(run, riding.get(run.side)!, "rest", shelf)] as const),
    );
    this.#excusers = new Map(scene.sides.map((side) => [side, excuser(scene, side)] as const));
    this.clusterOf = rigidCluster(scene);
    this.#canMeet = meetingRule(scene);
    const { travel_mm } = this.#runs[0]!.run;
    this.from_mm = travel_mm[0]!;
    this.to_mm = travel_mm[travel_mm.length - 1]!;
  }

  /** The travel of a state: droop as far as the corner reaches. */
  travelOf(state: StateName): number {
    return state === "ride" ? 0 : this.from_mm;
  }

  motionOf({ mount, side }: Mounted): Motion {
    const tracks = this.#tracks.get(side === "both" ? this.scene.sides[0]! : side);
    const motion = tracks?.get(mount);
    if (!motion) throw new Error(`nothing rides on ${mount}`);
    return motion;
  }

  poseOf(mounted: Mounted, travel_mm: number): Pose {
    return poseOfMotion(this.motionOf(mounted), travel_mm, identityPose());
  }

  /** Where the surfaces of two bodies do not count: near the joints that they share. */
  excusesOf(a: Mounted, b: Mounted): JointExcuse[] {
    if (a.side !== "both" && b.side !== "both" && a.side !== b.side) return [];
    const side = a.side !== "both" ? a.side : b.side !== "both" ? b.side : this.scene.sides[0]!;
    return this.#excusers.get(side)?.(a.mount, b.mount) ?? [];
  }

  /** Whether one is meant to slide in the other, as a damper's rod in its tube: the check holds them against each other nowhere. */
  slideInEachOther(a: ModelBody, b: ModelBody): boolean {
    const isStanding = ({ mount }: ModelBody): boolean => mount === "chassis" || mount === "powertrain";
    if (this.clusterOf(a.mount) === this.clusterOf(b.mount) || (isStanding(a) && isStanding(b))) return false;
    return !this.#canMeet(a, b);
  }

  /** The bodies of these parts with what rides on them, of one side and of what stands in the car once. */
  bodiesOf(parts: readonly string[], side: Side): ModelBody[] {
    const isOf = bodyOfParts(parts);
    return this.bodies.filter((body) => isOf(body) && (body.side === side || body.side === "both"));
  }

  /** Bodies that are there once these are off; of both sides, since a job is done on either. */
  without(removed: readonly string[]): ModelBody[] {
    const isOff = bodyOfParts(removed);
    return this.bodies.filter((body) => !isOff(body));
  }
}
