import { expose } from "comlink";
import type { Solid } from "../geometry/solid.ts";
import type { Vec3 } from "../maths/vec3.ts";
import type { PickedPatch } from "../scans/patch.ts";
import { type ScanLook, type ScanRead, ScanRoom, type ScanStage, type ScanThinned } from "../scans/scanRoom.ts";
import type { LengthUnit } from "../scene/meshFiles.ts";
import type { MeshRepair, MeshThinning } from "../scene/scene.ts";
import { holdLife } from "./life.ts";
import "./lines.ts";
import { type Outcome, outcomeOf, StoppedError } from "./outcome.ts";
import { inSharedMemory } from "./sharedMemory.ts";

let stopFlag: Int32Array | null = null;
let tellStage: (stage: ScanStage, share: number | null) => void = () => {};
let told_ms = 0;
/** A bar that moves more often than this is no smoother. */
const TELL_EVERY_MS = 50;

const room = new ScanRoom({
  onStage(stage, share) {
    const now = performance.now();
    if (share !== undefined && now - told_ms < TELL_EVERY_MS) return;
    told_ms = now;
    tellStage(stage, share ?? null);
  },
  poll() {
    if (stopFlag && Atomics.load(stopFlag, 0) !== 0) throw new StoppedError();
  },
});

/** The worker's side of bringing in a scan: a thin shell over ScanRoom, one worker to a scan. It is ended to stop it. */
const shell = {
  /**
   * `flag`: shared memory that is not 0 while what runs is not wanted any more; null where memory is not shared. `life`: name of the
   * lock that is held as long as the worker lives.
   */
  begin(flag: Int32Array | null, onStage: typeof tellStage, life: string | null): Promise<void> {
    stopFlag = flag;
    tellStage = onStage;
    return holdLife(life);
  },
  read: (bytes: Uint8Array, file: string): Promise<Outcome<ScanRead>> => outcomeOf(() => room.read(bytes, file)),
  look: (unit: LengthUnit, repair: MeshRepair | null): Promise<Outcome<ScanLook>> =>
    outcomeOf(() => room.look(unit, repair)),
  thin: (within_mm: number): Promise<Outcome<ScanThinned | null>> => outcomeOf(() => room.thin(within_mm)),
  /** In shared memory; null where there is none, or where it would have to be made first. */
  ready: (thinned: MeshThinning | null): Promise<Outcome<Solid | null>> =>
    outcomeOf(() => {
      const solid = stopFlag && room.ready(thinned);
      return solid && inSharedMemory(solid);
    }),
  hit: (from: Vec3, way: Vec3): Promise<Outcome<Vec3 | null>> => outcomeOf(() => room.hit(from, way)),
  patch: (
    at: Vec3,
    kind: "plane" | "cylinder",
    reach_mm: number,
  ): Promise<Outcome<Pick<PickedPatch, "fitted" | "points"> | null>> => outcomeOf(() => room.patch(at, kind, reach_mm)),
};

export type ScanShell = typeof shell;

expose(shell);
