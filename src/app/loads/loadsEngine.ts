import type { LoadsReport } from "../../loads/report.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import type { Job, Workshop } from "../../work/protocol.ts";
import { isAbort } from "../store/engine.ts";
import type { AppStore } from "../store/store.ts";
import { shownDocument } from "../store/tried.ts";
import { useTools } from "../tools/toolsStore.ts";
import { useLoadsTold } from "./loadsStore.ts";

/** Between two reports while a point is pulled: they follow at a distance and leave the workers to the check. */
const REST_ms = 300;

interface Wanted {
  readonly document: SceneDocument;
  readonly pose: string;
}

/**
 * Keeps the report of all cases and travels in step with the shown document while the loads stand open: one request at a
 * time, each for what is newest when it begins. What was told last stays, marked as from before the change.
 */
export function startLoads(store: AppStore, workshop: Workshop): () => void {
  let told: Wanted | null = null;
  let busy = false;
  let ended = false;
  let job: Job<LoadsReport> | null = null;

  const wanted = (): Wanted | null => {
    const state = store.getState();
    const document = useTools.getState().open === "loads" ? shownDocument(state) : null;
    return document && { document, pose: state.pose };
  };
  const isTold = (want: Wanted | null): boolean =>
    want === null || (told?.document === want.document && told.pose === want.pose);

  const round = async (want: Wanted): Promise<void> => {
    try {
      job = workshop.loads(want.document, want.pose);
      const report = await job.done;
      told = want;
      useLoadsTold.setState({ report, stale: !isTold(wanted()), error: null });
    } catch (error) {
      if (isAbort(error)) return;
      told = want;
      if (error instanceof InputError) useLoadsTold.setState({ error, stale: true });
      else store.setState({ workTrouble: error instanceof Error ? error.message : String(error) });
    }
  };
  const run = async (): Promise<void> => {
    busy = true;
    for (let want = wanted(); want && !isTold(want) && !ended; want = wanted()) {
      await round(want);
      await new Promise((resolve) => setTimeout(resolve, REST_ms));
    }
    busy = false;
  };
  const look = (): void => {
    if (isTold(wanted())) return;
    if (useLoadsTold.getState().report) useLoadsTold.setState({ stale: true });
    if (!busy) void run();
  };
  const ends = [
    store.subscribe((state, before) => {
      const isSame =
        state.document === before.document &&
        state.tried === before.tried &&
        state.triedEdit === before.triedEdit &&
        state.pose === before.pose;
      if (!isSame) look();
    }),
    useTools.subscribe(look),
  ];
  look();
  return () => {
    ended = true;
    for (const end of ends) end();
    job?.stop();
  };
}
