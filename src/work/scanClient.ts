import { wrap } from "comlink";
import type { Solid } from "../geometry/solid.ts";
import type { Vec3 } from "../maths/vec3.ts";
import type { PickedPatch } from "../scans/patch.ts";
import type { ScanLook, ScanRead, ScanStage, ScanThinned } from "../scans/scanRoom.ts";
import type { LengthUnit } from "../scene/meshFiles.ts";
import type { MeshRepair, MeshThinning } from "../scene/scene.ts";
import { endWorker } from "./endWorker.ts";
import { nameOfLife, whenLifeEnds } from "./life.ts";
import { Line } from "./lines.ts";
import { type Outcome, stoppedError, unwrap, WorkError } from "./outcome.ts";
import type { ScanShell } from "./scan.worker.ts";
import { canShareMemory } from "./sharedMemory.ts";

/** One scan that is being brought in, in a worker of its own. Every promise rejects with an AbortError once it is closed. */
export interface ScanDesk {
  read(bytes: Uint8Array, file: string): Promise<ScanRead>;
  look(unit: LengthUnit, repair: MeshRepair | null): Promise<ScanLook>;
  /** Thinning can be stopped without losing what was read. */
  thin(within_mm: number): { readonly done: Promise<ScanThinned | null>; stop(): void };
  /** What the pool would make of the file, for Workshop.keepMesh; null where it is not at hand. */
  ready(thinned: MeshThinning | null): Promise<Solid | null>;
  hit(from: Vec3, way: Vec3): Promise<Vec3 | null>;
  patch(at: Vec3, kind: "plane" | "cylinder", reach_mm: number): Promise<Pick<PickedPatch, "fitted" | "points"> | null>;
  /** Ends the worker, whatever it does. */
  close(): void;
}

/** `share`: how much of the stage is done, 0 to 1; null: not known. */
export function openScanDesk(onStage: (stage: ScanStage, share: number | null) => void): ScanDesk {
  const worker = new Worker(new URL("./scan.worker.ts", import.meta.url), { type: "module" });
  const shell = wrap<ScanShell>(worker) as unknown as ScanShell;
  const flag = canShareMemory() ? new Int32Array(new SharedArrayBuffer(4)) : null;
  let end: (error: unknown) => void = () => {};
  const ended = new Promise<never>((_, reject) => {
    end = reject;
  });
  ended.catch(() => {});
  worker.onerror = (event) => {
    event.preventDefault();
    worker.terminate();
    end(new WorkError(event.message || "the worker stopped"));
  };
  let running = 0;
  let isClosed = false;
  // stages come by another line than answers, and may come after them
  const life = nameOfLife();
  const stages = new Line((stage: ScanStage, share: number | null) => {
    if (running > 0) onStage(stage, share);
  });
  const begun = shell.begin(flag, stages.far, life);
  void Promise.resolve(begun).then(() => whenLifeEnds(life, () => end(new WorkError("the worker stopped"))));
  const asked = async <T>(ask: () => Promise<Outcome<T>>): Promise<T> => {
    running++;
    try {
      return unwrap(await Promise.race([isClosed ? ended : ask(), ended]));
    } finally {
      running--;
    }
  };
  return {
    read: (bytes, file) => asked(() => shell.read(bytes, file)),
    look: (unit, repair) => asked(() => shell.look(unit, repair)),
    thin(within_mm) {
      if (flag) Atomics.store(flag, 0, 0);
      let stop = (): void => {};
      const stopping = new Promise<never>((_, reject) => {
        stop = () => {
          if (flag) Atomics.store(flag, 0, 1);
          reject(stoppedError());
        };
      });
      return { done: Promise.race([asked(() => shell.thin(within_mm)), stopping]), stop: () => stop() };
    },
    ready: (thinned) => asked(() => shell.ready(thinned)),
    hit: (from, way) => asked(() => shell.hit(from, way)),
    patch: (at, kind, reach_mm) => asked(() => shell.patch(at, kind, reach_mm)),
    close() {
      if (isClosed) return;
      isClosed = true;
      endWorker(worker, shell);
      stages.close();
      end(stoppedError());
    },
  };
}
