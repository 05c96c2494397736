import { create } from "zustand";
import type { SceneDocument } from "../../scene/document.ts";
import type { Side } from "../../scene/scene.ts";
import type { StateName } from "../../studies/service/car.ts";
import type { JobReport, ServiceReport } from "../../studies/service/service.ts";
import { app } from "../store/useApp.ts";
import { askedStudy } from "../studies/askedStudy.ts";

export interface ServiceQuestion {
  readonly document: SceneDocument;
  readonly jobs: null;
  /** What is asked besides the parts: a change of it makes what was told old. */
  readonly service: SceneDocument["service"];
}

export const serviceStudy = askedStudy<ServiceQuestion, ServiceReport>();

interface ServiceLook {
  /** Id of the job whose card stands open. */
  readonly job: string | null;
  readonly side: Side;
  readonly state: StateName;
  /** Number of the tool that is shown. */
  readonly tool: number;
  /** How far along the path, or through its swing, 0 to 1. */
  readonly along: number;
}

const LOOK: ServiceLook = { job: null, side: "left", state: "ride", tool: 0, along: 1 };

/** Neither saved nor undone. */
export const useServiceLook = create<ServiceLook>()(() => LOOK);

app.subscribe((state, before) => {
  if (state.fileName !== before.fileName) useServiceLook.setState(LOOK);
});

export function serviceQuestion(document: SceneDocument): ServiceQuestion | null {
  return document.service?.jobs?.length ? { document, jobs: null, service: document.service } : null;
}

/** What was told of the open job on the chosen side, or on the one that it has. */
export function shownReport(reports: readonly JobReport[], { job, side }: Pick<ServiceLook, "job" | "side">) {
  const mine = reports.filter((report) => report.job === job);
  return mine.find((report) => report.side === side) ?? mine[0] ?? null;
}

/** Opens a job's card, or closes it; the car is taken to where it is shown. */
export function openJob(job: string | null): void {
  useServiceLook.setState({ job, tool: 0, along: 1 });
  if (job !== null) showHere();
}

export function chooseState(state: StateName): void {
  useServiceLook.setState({ state, along: 1 });
  showHere();
}

/** Takes wheels and engine to where the shown state has them. */
export function showHere(): void {
  const { state, ...look } = useServiceLook.getState();
  const told = serviceStudy.use.getState().told;
  const report = told && shownReport(told.result.jobs, look);
  if (!report) return;
  const states = report.kind === "out" ? report.states : (report.tools[0]?.states ?? []);
  const travel_mm = states.find((each) => each.state === state)?.travel_mm;
  if (travel_mm === undefined) return;
  const { scene, choosePair, setPose, setTravel } = app.getState();
  choosePair(null);
  setPose("rest");
  for (const side of scene?.sides ?? []) setTravel(side, travel_mm);
}
