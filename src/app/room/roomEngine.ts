import { drawnPart } from "../../scene/aside.ts";
import { InputError } from "../../scene/error.ts";
import type { Job, StudyRoom } from "../../work/protocol.ts";
import { putNews } from "../../work/roomShare.ts";
import { isAbort } from "../store/engine.ts";
import type { AppStore } from "../store/store.ts";
import { type RoomRun, useRoom } from "./roomStore.ts";
import { blankMap } from "./roomTold.ts";

/** The picture changes no more often than this while places come in. */
const SHOW_ms = 150;

/** Asks the workshop for what `useRoom.run` wants while it `isRunning`; an edit of the car ends it, and what was told stays. */
export function startRoom(store: AppStore, workshop: Pick<StudyRoom, "room">): () => void {
  let job: Job<void> | null = null;
  let shown_ms = Number.NEGATIVE_INFINITY;

  const stop = (): void => {
    const stopped = job;
    job = null;
    stopped?.stop();
  };
  const work = async (run: RoomRun): Promise<void> => {
    let waiting = { done: 0, level: 0 };
    const show = (): void => {
      shown_ms = performance.now();
      const { version } = useRoom.getState();
      useRoom.setState({ ...waiting, version: version + 1 });
    };
    const mine = workshop.room(run.question, store.getState().files, {
      onFrame(frame) {
        if (job !== mine) return;
        const { points, fit, region } = run.question;
        useRoom.setState({ map: blankMap(frame, { points, fit, region }), place: null, pointed: null });
        shown_ms = Number.NEGATIVE_INFINITY;
      },
      onNews(news) {
        const { map } = useRoom.getState();
        if (job !== mine || !map) return;
        putNews(map, news);
        waiting = { done: waiting.done + news.places.length, level: news.level };
        if (performance.now() - shown_ms > SHOW_ms) show();
      },
    });
    job = mine;
    try {
      await mine.done;
      if (job !== mine) return;
      show();
      job = null;
      useRoom.setState({ isRunning: false });
    } catch (error) {
      if (job !== mine) return;
      job = null;
      show();
      useRoom.setState({ isRunning: false });
      if (isAbort(error)) return;
      if (error instanceof InputError) useRoom.setState({ error });
      else store.setState({ workTrouble: error instanceof Error ? error.message : String(error) });
    }
  };
  const ends = [
    useRoom.subscribe((state, before) => {
      if (state.run !== before.run || state.isRunning !== before.isRunning) {
        if (state.run && state.isRunning && (state.run !== before.run || !job)) {
          stop();
          void work(state.run);
        } else if (!state.isRunning && job) {
          stop();
          useRoom.setState({ version: useRoom.getState().version + 1 });
        }
      }
    }),
    store.subscribe(({ document }) => {
      const { run, isRunning } = useRoom.getState();
      if (isRunning && run && !isOf(document, run)) useRoom.setState({ isRunning: false });
    }),
  ];
  return () => {
    for (const end of ends) end();
    stop();
  };
}

/** Whether the run was asked of what is drawn and checked of this document. */
export function isOf(document: RoomRun["document"] | null, { document: asked }: RoomRun): boolean {
  return document !== null && drawnPart(document) === drawnPart(asked);
}
