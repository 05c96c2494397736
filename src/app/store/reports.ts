import { InputError } from "../../scene/error.ts";
import type { Job } from "../../work/protocol.ts";
import type { App } from "./actions.ts";
import { isAbort } from "./engine.ts";
import type { AppStore } from "./store.ts";

/** What the workshop told last of something that it works out over the whole travel. */
export interface Told<Report> {
  readonly report: Report | null;
  /** `report` is from before a change. */
  readonly stale: boolean;
  /** Why the newest scene has no report. */
  readonly error: InputError | null;
}

interface Kept<Want, Report> {
  /** What is wanted as things stand; null: nothing. Equal field by field is the same. */
  wanted(): Want | null;
  ask(want: Want): Job<Report>;
  /** Where it is told. */
  readonly told: { getState(): Told<Report>; setState(part: Partial<Told<Report>>): void };
  /** How long the car must stand still before it is asked: a long report lets the verdicts come first. */
  readonly settle_ms?: number;
  /** Stores besides the app's whose changes may change what is wanted. */
  readonly others: readonly { subscribe(listener: () => void): () => void }[];
}

/** Between two reports while a point is pulled: they follow at a distance and leave the workers to the check. */
const REST_ms = 300;

/**
 * Keeps a report in step with what is wanted: one request at a time, each for what is newest when it begins. What was told
 * last stays, marked as from before the change.
 */
export function keepReport<Want extends object, Report>(store: AppStore, kept: Kept<Want, Report>): () => void {
  const { wanted, told, settle_ms = 0 } = kept;
  let changed_ms = Number.NEGATIVE_INFINITY;
  let last: Want | null = null;
  let busy = false;
  let ended = false;
  let job: Job<Report> | null = null;
  const isTold = (want: Want | null): boolean => want === null || (last !== null && areEqual(want, last));

  const round = async (want: Want): Promise<void> => {
    try {
      job = kept.ask(want);
      const report = await job.done;
      last = want;
      told.setState({ report, stale: !isTold(wanted()), error: null });
    } catch (error) {
      if (isAbort(error)) return;
      last = want;
      if (error instanceof InputError) told.setState({ error, stale: true });
      else store.setState({ workTrouble: error instanceof Error ? error.message : String(error) });
    }
  };
  const run = async (): Promise<void> => {
    busy = true;
    for (let want = wanted(); want && !isTold(want) && !ended; want = wanted()) {
      const settles_ms = changed_ms + settle_ms - performance.now();
      if (settles_ms > 0) {
        await pause(settles_ms);
        continue;
      }
      await round(want);
      await pause(REST_ms);
    }
    busy = false;
  };
  const look = (): void => {
    if (isTold(wanted())) return;
    const { report, stale } = told.getState();
    if (report && !stale) told.setState({ stale: true });
    if (!busy) void run();
  };
  const ends = [
    store.subscribe((state, before) => {
      if (isSameCar(state, before)) return;
      changed_ms = performance.now();
      look();
    }),
    ...kept.others.map((other) => other.subscribe(look)),
  ];
  look();
  return () => {
    ended = true;
    for (const end of ends) end();
    job?.stop();
  };
}

function isSameCar(state: App, before: App): boolean {
  return (
    state.document === before.document &&
    state.tried === before.tried &&
    state.triedEdit === before.triedEdit &&
    state.pose === before.pose
  );
}

function pause(length_ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, length_ms));
}

function areEqual<T extends object>(one: T, other: T): boolean {
  return (Object.keys(one) as (keyof T)[]).every((key) => one[key] === other[key]);
}
