import type { PairVerdict, StateAt } from "../../check/result.ts";
import type { DrawnContact } from "../../work/drawn.ts";
import type { Job, PatchRequest, Workshop } from "../../work/protocol.ts";
import type { App } from "./actions.ts";
import { isAbort } from "./engine.ts";
import { isInPose, pairKey } from "./state.ts";
import type { AppStore } from "./store.ts";
import { drawnDocument } from "./tried.ts";

/** Gathers the steps of a drag along the rule. */
const GATHER_ms = 70;

/**
 * Asks the workshop for contact patches: the chosen pair's at the shown state, and, when the workshop has nothing
 * better to do, every other clash's at its worst state, one after another.
 */
export function startPatches(store: AppStore, workshop: Workshop): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let job: Job<DrawnContact> | null = null;
  let turn = 0;

  const ask = async (pair: PairVerdict, at: StateAt, mine: number): Promise<void> => {
    const state = store.getState();
    const document = drawnDocument(state);
    if (!document || mine !== turn) return;
    const request: PatchRequest = { document, keys: pair.keys, at };
    job = workshop.patch(request, state.files);
    try {
      const patch = await job.done;
      if (mine !== turn) return;
      const patches = new Map(store.getState().patches);
      store.setState({ patches: patches.set(pairKey(pair), { at, patch }) });
    } catch (error) {
      if (mine === turn && !isAbort(error)) store.setState({ workTrouble: (error as Error).message });
    }
  };

  const work = async (mine: number): Promise<void> => {
    const { result, stale, partial, chosenPair } = store.getState();
    if (!result || stale) return;
    const chosen = result.pairs.find((pair) => pairKey(pair) === chosenPair);
    if (chosen) await ask(chosen, stateShown(store.getState(), chosen), mine);
    if (partial) return;
    for (const pair of result.pairs) {
      if (mine !== turn) return;
      const wanted = pair.verdict === "clash" && pair !== chosen;
      if (wanted && !isAt(store.getState(), pair)) await ask(pair, pair.at, mine);
    }
  };

  const unsubscribe = store.subscribe((state, before) => {
    const sameWant =
      state.result === before.result && state.stale === before.stale && state.chosenPair === before.chosenPair;
    const sameState =
      state.travel_mm === before.travel_mm && state.pose === before.pose && state.share === before.share;
    if (sameWant && (sameState || state.chosenPair === null)) return;
    turn++;
    job?.stop();
    job = null;
    clearTimeout(timer);
    timer = setTimeout(() => void work(turn), GATHER_ms);
  });
  return () => {
    unsubscribe();
    turn++;
    clearTimeout(timer);
    job?.stop();
  };
}

function stateShown(state: App, pair: PairVerdict): StateAt {
  const { travel_mm, pose, share } = state;
  return { travel_mm: pair.side === "right" ? travel_mm.right : travel_mm.left, pose, share };
}

/** Whether the pair's patch in hand is the one at its worst state already. */
function isAt(state: App, pair: PairVerdict): boolean {
  const at = state.patches.get(pairKey(pair))?.at;
  return at !== undefined && at.travel_mm === pair.at.travel_mm && isInPose(pair.at, at.pose, at.share);
}
