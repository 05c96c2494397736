import type { PairVerdict, StateAt } from "../../check/result.ts";
import type { DrawnContact } from "../../work/drawn.ts";
import type { Job, PatchRequest, Workshop } from "../../work/protocol.ts";
import type { App } from "./actions.ts";
import { isAbort } from "./engine.ts";
import { isInPose, pairKey } from "./state.ts";
import type { AppStore } from "./store.ts";
import { drawnDocument } from "./tried.ts";

/** Gathers new results and choices. */
const GATHER_ms = 70;

/**
 * Asks the workshop for contact patches: the chosen pair's at the shown state, and, when the workshop has nothing
 * better to do, every other clash's at its worst state, one after another. While the state moves on, the chosen pair's
 * patch follows as fast as patches come: each is waited for, then the newest state's is asked for.
 */
export function startPatches(store: AppStore, workshop: Workshop): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let job: Job<DrawnContact> | null = null;
  let turn = 0;
  /** The chosen pair's patch is on its way. */
  let following = false;
  /** The state has moved on since it was asked for. */
  let moved = false;

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

  const follow = async (chosen: PairVerdict, mine: number): Promise<void> => {
    following = true;
    do {
      moved = false;
      await ask(chosen, stateShown(store.getState(), chosen), mine);
    } while (moved && mine === turn);
    if (mine === turn) following = false;
  };

  const work = async (mine: number): Promise<void> => {
    const { result, stale, partial, chosenPair } = store.getState();
    if (!result || stale) return;
    const chosen = result.pairs.find((pair) => pairKey(pair) === chosenPair);
    if (chosen) await follow(chosen, mine);
    if (partial) return;
    for (const pair of result.pairs) {
      if (mine !== turn) return;
      const wanted = pair.verdict === "clash" && pair !== chosen;
      if (wanted && !isAt(store.getState(), pair)) await ask(pair, pair.at, mine);
    }
  };

  const stop = (): void => {
    turn++;
    following = false;
    job?.stop();
    job = null;
    clearTimeout(timer);
  };

  const unsubscribe = store.subscribe((state, before) => {
    const sameWant =
      state.result === before.result && state.stale === before.stale && state.chosenPair === before.chosenPair;
    const sameState =
      state.travel_mm === before.travel_mm && state.pose === before.pose && state.share === before.share;
    if (sameWant && (sameState || state.chosenPair === null)) return;
    if (sameWant && following) {
      moved = true;
      return;
    }
    stop();
    const mine = turn;
    timer = setTimeout(() => void work(mine), sameWant ? 0 : GATHER_ms);
  });
  return () => {
    unsubscribe();
    stop();
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
