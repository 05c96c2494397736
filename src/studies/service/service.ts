import type { Solid } from "../../geometry/solid.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Side } from "../../scene/scene.ts";
import type { ServiceJob } from "../../scene/serviceRecords.ts";
import { ServiceCar, STATES, type StateName } from "./car.ts";
import { type OutState, tryOut } from "./out.ts";
import { type ToolReach, tryReach } from "./reach.ts";
import { Sweeps } from "./sweeps.ts";

export interface ServiceQuestion {
  readonly document: SceneDocument;
  readonly meshFiles: ReadonlyMap<string, Solid>;
  /** Ids of the jobs to try; null: all. */
  readonly jobs: readonly string[] | null;
}

/** One job on one side. */
export type JobReport = {
  readonly job: string;
  readonly side: Side;
  /** States at which all of it can be done. */
  readonly fitsAt: readonly StateName[];
} & (
  | { readonly kind: "reach"; readonly tools: readonly ToolReach[] }
  | { readonly kind: "out"; readonly states: readonly OutState[] }
);

export interface ServiceReport {
  readonly jobs: readonly JobReport[];
}

/**
 * Tries the service jobs of a scene: tools on fasteners and parts out, at ride height and at full droop, the engine at rest. Every
 * path and swing is proved by the check's own sweep: no overlap deeper than 0.1 mm goes unseen on it. Throws InputError, and
 * StudyStopped when cancelled.
 */
export function tryService(
  { document, meshFiles, jobs }: ServiceQuestion,
  onProgress: (done: number, total: number) => void = () => {},
  isCancelled: () => boolean = () => false,
): ServiceReport {
  const scene = resolveScene(document);
  const chosen = jobs === null ? scene.service.jobs : jobs.map((id) => jobOf(scene.service.jobs, id));
  const sweeps = new Sweeps(isCancelled);
  sweeps.poll();
  const car = new ServiceCar(scene, meshFiles);
  const todo = chosen.flatMap((job) => sidesOf(car, job).map((side) => [job, side] as const));
  onProgress(0, todo.length);
  const reports = todo.map(([job, side], i): JobReport => {
    const report = tryJob(car, job, side, sweeps);
    onProgress(i + 1, todo.length);
    return report;
  });
  return { jobs: reports };
}

function jobOf(jobs: readonly ServiceJob[], id: string): ServiceJob {
  const job = jobs.find((each) => each.id === id);
  if (job) return job;
  const known = jobs.map((each) => each.id).join(", ");
  throw new InputError(
    "missing-id",
    { path: "service.jobs" },
    `there is no job "${id}"`,
    known ? `one of ${known}` : "a job",
  );
}

/** A job on a part that the car has once is asked once. */
function sidesOf(car: ServiceCar, job: ServiceJob): readonly Side[] {
  const { sides } = car.scene;
  if (job.side !== null) return [job.side];
  const isOfCorner =
    job.kind === "reach"
      ? job.fastener.isMirrored
      : job.steps.some(({ kind }) => kind === "swing") ||
        car.bodiesOf(job.parts, sides[0]!).some(({ side }) => side !== "both");
  return isOfCorner ? sides : sides.slice(0, 1);
}

function tryJob(car: ServiceCar, job: ServiceJob, side: Side, sweeps: Sweeps): JobReport {
  const base = { job: job.id, side };
  if (job.kind === "out") {
    const states = tryOut(car, job, side, sweeps);
    const fitsAt = states.filter(({ fits }) => fits).map(({ state }) => state);
    return { ...base, kind: "out", fitsAt, states };
  }
  const tools = job.tools.map((tool) => tryReach(car, job, tool, side, sweeps));
  const fitsAt = STATES.filter((state) =>
    tools.every(({ states }) => states.some((each) => each.state === state && each.fits)),
  );
  return { ...base, kind: "reach", fitsAt, tools };
}
