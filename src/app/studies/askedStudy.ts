import { create, type StoreApi, type UseBoundStore } from "zustand";
import { drawnPart } from "../../scene/aside.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import type { Job, OnStudyProgress, SceneFiles, StudyProgress } from "../../work/protocol.ts";
import { isAbort } from "../store/engine.ts";
import type { AppStore } from "../store/store.ts";

/** Where a study stands that works when it is asked. */
export interface Asked<Question, Result> {
  /** How far it is; a total of 0: it does not know yet. Null: it rests. */
  readonly running: StudyProgress | null;
  /** What it told last, and what it was asked for that. */
  readonly told: { readonly question: Question; readonly result: Result } | null;
  /** Why the last question has no result. */
  readonly trouble: InputError | "stopped" | null;
}

export interface AskedStudy<Question, Result> {
  readonly use: UseBoundStore<StoreApi<Asked<Question, Result>>>;
  /** Begins at once; what it was at before is stopped. */
  ask(question: Question): void;
  /** What was told before stays. */
  stop(): void;
  /** Gives it what works, until the returned function is called. Another scene ends what it was at and forgets what it told. */
  serve(store: AppStore, work: Work<Question, Result>): () => void;
}

type Work<Question, Result> = (question: Question, files: SceneFiles, onProgress: OnStudyProgress) => Job<Result>;

const NOTHING = { running: null, told: null, trouble: null } as const;

/** A study of the whole car that takes seconds and is therefore worked out when the builder asks, not after every edit. */
export function askedStudy<Question, Result>(): AskedStudy<Question, Result> {
  const use = create<Asked<Question, Result>>()(() => NOTHING);
  let served: { readonly store: AppStore; readonly work: Work<Question, Result> } | null = null;
  let job: Job<Result> | null = null;

  const drop = (): void => {
    const dropped = job;
    job = null;
    dropped?.stop();
  };
  return {
    use,
    ask(question) {
      if (!served) return;
      const { store, work } = served;
      drop();
      use.setState({ running: { done: 0, total: 0 }, trouble: null });
      const mine = work(question, store.getState().files, (running) => {
        if (job === mine) use.setState({ running });
      });
      job = mine;
      mine.done.then(
        (result) => {
          if (job !== mine) return;
          job = null;
          use.setState({ running: null, told: { question, result } });
        },
        (error: unknown) => {
          if (job !== mine || isAbort(error)) return;
          job = null;
          use.setState({ running: null, trouble: error instanceof InputError ? error : null });
          if (error instanceof InputError) return;
          store.setState({ workTrouble: error instanceof Error ? error.message : String(error) });
        },
      );
    },
    stop() {
      drop();
      use.setState({ running: null, trouble: "stopped" });
    },
    serve(store, work) {
      served = { store, work };
      const end = store.subscribe((state, before) => {
        if (state.fileName === before.fileName) return;
        drop();
        use.setState(NOTHING);
      });
      return () => {
        end();
        drop();
        served = null;
      };
    },
  };
}

/** Whether two questions would be answered alike: of the documents what is drawn and checked counts, of the rest the content. */
export function isSameQuestion<Question extends { readonly document: SceneDocument }>(
  one: Question,
  other: Question,
): boolean {
  const bare = ({ document: _document, ...rest }: Question) => JSON.stringify(rest);
  return drawnPart(one.document) === drawnPart(other.document) && bare(one) === bare(other);
}
