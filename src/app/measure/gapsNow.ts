import { create } from "zustand";
import { bodyKeyOf } from "../../check/measures.ts";
import type { Gap } from "../../clearance/gap.ts";
import { InputError } from "../../scene/error.ts";
import type { MeasureOf } from "../../scene/measures.ts";
import type { GapPair, Job, Workshop } from "../../work/protocol.ts";
import type { App } from "../store/actions.ts";
import { isAbort } from "../store/engine.ts";
import { livePoses } from "../store/livePoses.ts";
import type { AppStore } from "../store/store.ts";
import { drawnDocument } from "../store/tried.ts";

interface GapsNow {
  /** By the measure's id: the gap where it was last measured. */
  readonly byId: ReadonlyMap<string, Gap>;
}

export const useGaps = create<GapsNow>()(() => ({ byId: new Map() }));

/**
 * Keeps the pinned gaps measured where things are shown: one request at a time, each for what is newest when it begins,
 * so that they follow a running wheel as fast as they can be measured.
 */
export function startGaps(store: AppStore, workshop: Workshop): () => void {
  let busy = false;
  let wanted = false;
  let ended = false;
  let job: Job<readonly (Gap | null)[]> | null = null;

  const round = async (): Promise<void> => {
    const state = store.getState();
    const document = drawnDocument(state);
    const asked = document ? pairsOf(state) : [];
    if (!document || asked.length === 0) {
      if (useGaps.getState().byId.size > 0) useGaps.setState({ byId: new Map() });
      return;
    }
    job = workshop.gaps({ document, pairs: asked.map(({ pair }) => pair) }, state.files);
    const gaps = await job.done;
    const byId = new Map<string, Gap>();
    asked.forEach(({ id }, i) => {
      const gap = gaps[i];
      if (gap) byId.set(id, gap);
    });
    useGaps.setState({ byId });
  };
  const run = async (): Promise<void> => {
    busy = true;
    while (wanted && !ended) {
      wanted = false;
      try {
        await round();
      } catch (error) {
        // what is wrong in the scene is told by the check
        if (isAbort(error) || error instanceof InputError) continue;
        store.setState({ workTrouble: error instanceof Error ? error.message : String(error) });
      }
    }
    busy = false;
  };
  const want = (): void => {
    wanted = true;
    if (!busy) void run();
  };
  const unsubscribe = store.subscribe((state, before) => {
    const isSame =
      state.bodies === before.bodies &&
      state.document?.measures === before.document?.measures &&
      state.travel_mm === before.travel_mm &&
      state.pose === before.pose &&
      state.share === before.share;
    if (!isSame) want();
  });
  want();
  return () => {
    ended = true;
    unsubscribe();
    job?.stop();
  };
}

interface AskedGap {
  readonly id: string;
  readonly pair: GapPair;
}

function pairsOf(state: App): AskedGap[] {
  const { document, scene, bodies, travel_mm, pose, share } = state;
  const gaps = (document?.measures ?? []).filter(
    (measure): measure is MeasureOf<"gap"> => measure.kind === "gap" && !measure.hidden,
  );
  if (gaps.length === 0 || !scene) return [];
  const poses = livePoses(scene, bodies, { travel_mm, pose, share });
  return gaps.flatMap(({ id, a, b }): AskedGap[] => {
    const keys = [bodyKeyOf(a), bodyKeyOf(b)] as const;
    const [first, second] = [poses.get(keys[0]), poses.get(keys[1])];
    return first && second ? [{ id, pair: { keys, poses: [first, second] } }] : [];
  });
}
