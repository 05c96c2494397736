import { InputError } from "../../scene/error.ts";
import type { EnvelopeAnswer, Job, Workshop } from "../../work/protocol.ts";
import { isAbort } from "../store/engine.ts";
import type { AppStore } from "../store/store.ts";
import { drawnDocument } from "../store/tried.ts";
import { useEnvelope } from "./envelopeStore.ts";

/** Gathers the steps of a drag. */
const GATHER_ms = 250;

/**
 * Keeps the wanted envelope in step with the shown document. The last one stays, told as from before the change, until the new
 * one is made; the workshop sends nothing where an edit changed nothing of it.
 */
export function startEnvelopes(store: AppStore, workshop: Workshop): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let job: Job<EnvelopeAnswer> | null = null;
  let turn = 0;

  const stop = (): void => {
    turn++;
    clearTimeout(timer);
    job?.stop();
    job = null;
  };
  const work = async (mine: number): Promise<void> => {
    const { key, on, accuracy_mm, shown } = useEnvelope.getState();
    const have = shown?.key === key && shown.on === on ? shown.name : null;
    try {
      const document = drawnDocument(store.getState());
      if (!document || key === null || mine !== turn) return;
      job = workshop.envelope({ document, key, on, accuracy_mm, have }, store.getState().files, (share) => {
        if (mine === turn) useEnvelope.setState({ progress: share });
      });
      const answer = await job.done;
      if (mine !== turn) return;
      if (answer.kind === "missing") useEnvelope.setState({ shown: null, progress: null, trouble: "missing" });
      else if (answer.kind === "same") useEnvelope.setState({ progress: null });
      else {
        const { name, envelope } = answer;
        useEnvelope.setState({ shown: { name, key, on, envelope }, progress: null });
      }
    } catch (error) {
      if (mine !== turn || isAbort(error)) return;
      useEnvelope.setState({ progress: null });
      // what is wrong in the scene is told by the check
      if (error instanceof InputError) return;
      store.setState({ workTrouble: error instanceof Error ? error.message : String(error) });
    }
  };
  const begin = (delay_ms: number): void => {
    stop();
    const { key, shown } = useEnvelope.getState();
    if (key === null) {
      if (shown) useEnvelope.setState({ shown: null, progress: null, trouble: null });
      return;
    }
    useEnvelope.setState({ progress: 0, trouble: null, ...(shown && shown.key !== key ? { shown: null } : {}) });
    const mine = turn;
    timer = setTimeout(() => void work(mine), delay_ms);
  };
  const ends = [
    store.subscribe((state, before) => {
      // after an edit the bodies are new; measures and looks are no edit
      if (state.bodies !== before.bodies && useEnvelope.getState().key !== null) begin(GATHER_ms);
    }),
    useEnvelope.subscribe((state, before) => {
      if (state.trouble === "stopped" && before.trouble !== "stopped") {
        stop();
        useEnvelope.setState({ progress: null });
      }
      const isSame = state.key === before.key && state.on === before.on && state.accuracy_mm === before.accuracy_mm;
      if (!isSame) begin(0);
    }),
  ];
  return () => {
    for (const end of ends) end();
    stop();
  };
}
