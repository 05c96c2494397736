import type { Solid } from "../geometry/solid.ts";
import type { SceneDocument } from "../scene/document.ts";
import type { Scene } from "../scene/scene.ts";
import { type AsBuilt, judgeAsBuilt } from "../studies/asBuilt/asBuilt.ts";
import { type PullRequest, rehearseWeldPull, type WeldPull } from "../studies/asBuilt/weldPull.ts";
import type { WantedAngles } from "../studies/jig/inverse.ts";
import { type JigRequest, type JigResult, planJig } from "../studies/jig/jig.ts";
import { findMoves, type MovesRequest, type MovesResult } from "../studies/moves/moves.ts";
import { type ServiceQuestion, type ServiceReport, tryService } from "../studies/service/service.ts";
import { judgeTogether, type Together } from "../studies/together/together.ts";
import { type CorrectionOfMount, correctionsOf } from "./corrections.ts";
import type { MeshNames } from "./meshStore.ts";
import type { Outcome } from "./outcome.ts";
import type { AsBuiltQuestion, OnStudyProgress, Question, TogetherQuestion } from "./protocol.ts";
import { nowAndThen } from "./rhythm.ts";

/** How the worker does a job that can be stopped. */
export interface Asking {
  /** For what reads the scene for itself. */
  studied<T>(
    job: number,
    names: MeshNames,
    study: (meshFiles: ReadonlyMap<string, Solid>, isStopped: () => boolean) => T,
  ): Promise<Outcome<T>>;
  /** For what needs no bodies. */
  onScene<T>(job: number, document: SceneDocument, work: (scene: Scene) => T): Promise<Outcome<T>>;
}

/** The worker's side of the studies but for the room map, which all workers share. */
export function studyShell({ studied, onScene }: Asking) {
  return {
    moves(
      job: number,
      question: Question<MovesRequest>,
      names: MeshNames,
      onProgress: OnStudyProgress,
    ): Promise<Outcome<MovesResult>> {
      return studied(job, names, (meshFiles, isStopped) =>
        findMoves({ ...question, meshFiles }, nowAndThen(onProgress), isStopped),
      );
    },

    jig(
      job: number,
      question: Question<JigRequest>,
      names: MeshNames,
      onProgress: OnStudyProgress,
    ): Promise<Outcome<JigResult>> {
      return studied(job, names, (meshFiles, isStopped) =>
        planJig({ ...question, meshFiles }, nowAndThen(onProgress), isStopped),
      );
    },

    corrections(
      job: number,
      document: SceneDocument,
      wanted: WantedAngles,
    ): Promise<Outcome<readonly CorrectionOfMount[]>> {
      return onScene(job, document, () => correctionsOf(document, wanted));
    },

    asBuilt(job: number, { document, stated }: AsBuiltQuestion, names: MeshNames): Promise<Outcome<AsBuilt>> {
      return studied(job, names, (meshFiles, isStopped) =>
        judgeAsBuilt(document, meshFiles, document.title, isStopped, stated),
      );
    },

    weldPull(job: number, request: PullRequest): Promise<Outcome<WeldPull>> {
      return onScene(job, request.document, () => rehearseWeldPull(request));
    },

    together(job: number, { document }: TogetherQuestion, names: MeshNames): Promise<Outcome<Together>> {
      return studied(job, names, (meshFiles, isStopped) =>
        judgeTogether(document, meshFiles, document.title, isStopped),
      );
    },

    service(
      job: number,
      question: Question<ServiceQuestion>,
      names: MeshNames,
      onProgress: OnStudyProgress,
    ): Promise<Outcome<ServiceReport>> {
      return studied(job, names, (meshFiles, isStopped) => {
        const tell = nowAndThen(onProgress);
        return tryService({ ...question, meshFiles }, (done, total) => tell({ done, total }), isStopped);
      });
    },
  };
}
