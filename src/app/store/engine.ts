import type { CheckResult } from "../../check/result.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Job, Workshop } from "../../work/protocol.ts";
import type { App } from "./actions.ts";
import { liveCorner } from "./corners.ts";
import type { AppStore } from "./store.ts";
import { shownDocument } from "./tried.ts";

/** Gathers the steps of a drag before the workshop is asked. */
const GATHER_ms = 60;
/** Work shorter than this is not told. */
const QUIET_ms = 300;

/**
 * Keeps bodies and verdicts in step with the shown document: resolve at once, then build and check in the workshop,
 * stopping what a newer change has made pointless. What was good stays shown while an error tells why the newest is not.
 */
export function startEngine(
  store: AppStore,
  workshop: Workshop,
): { stop(): void; stopCheck(): void; checkAgain(): void } {
  /** Results by document: undoing, and putting a move back, cost nothing. */
  const known = new WeakMap<SceneDocument, CheckResult>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let jobs: Job<unknown>[] = [];
  let turn = 0;

  const stopJobs = (): void => {
    clearTimeout(timer);
    turn++;
    for (const job of jobs) job.stop();
    jobs = [];
    store.setState({ checking: null });
  };
  const run = <T>(job: Job<T>): Promise<T> => {
    jobs.push(job);
    return job.done.finally(() => {
      jobs = jobs.filter((other) => other !== job);
    });
  };

  const begin = (state: App): void => {
    stopJobs();
    let shown: SceneDocument | null;
    try {
      shown = shownDocument(state);
      if (!shown) return;
      const scene = resolveScene(shown, state.fileName);
      for (const side of scene.sides) liveCorner(scene, side);
      const poseIsThere = scene.powertrain.poses.some(({ id }) => id === state.pose);
      store.setState({
        scene,
        error: null,
        workTrouble: null,
        checkStopped: false,
        stale: state.result !== null,
        patches: new Map(),
        ...(poseIsThere ? {} : { pose: "rest" }),
      });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      store.setState({ error, stale: state.result !== null });
      return;
    }
    const [mine, wanted] = [turn, shown];
    timer = setTimeout(() => void work(wanted, mine), GATHER_ms);
  };

  const work = async (shown: SceneDocument, mine: number): Promise<void> => {
    const { files, document, tried } = store.getState();
    try {
      const bodies = await run(workshop.build(shown, files));
      if (mine !== turn) return;
      store.setState({ bodies });
      const result = known.get(shown) ?? (await run(workshop.check(shown, files, progressFrom(mine))));
      if (mine !== turn) return;
      known.set(shown, result);
      store.setState({
        result,
        stale: false,
        checking: null,
        resultBefore: tried ? (known.get(document!) ?? null) : null,
      });
      if (tried && document && !known.has(document)) {
        const before = await run(workshop.check(document, files, () => {}));
        known.set(document, before);
        if (mine === turn) store.setState({ resultBefore: before });
      }
    } catch (error) {
      if (mine !== turn || isAbort(error)) return;
      if (error instanceof InputError) store.setState({ error, checking: null });
      else store.setState({ workTrouble: messageOf(error), checking: null });
    }
  };

  const progressFrom = (mine: number) => {
    const since = performance.now();
    return (checking: { pairsDone: number; pairsTotal: number }): void => {
      if (mine === turn && performance.now() - since > QUIET_ms) store.setState({ checking });
    };
  };

  const unsubscribe = store.subscribe((state, before) => {
    if (state.document === before.document && state.tried === before.tried && state.files === before.files) return;
    begin(state);
  });
  begin(store.getState());
  return {
    stop() {
      unsubscribe();
      stopJobs();
    },
    stopCheck() {
      stopJobs();
      store.setState({ checkStopped: true });
    },
    checkAgain() {
      begin(store.getState());
    },
  };
}

export function isAbort(error: unknown): boolean {
  return error instanceof Error && error.name === "AbortError";
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
