import { drawnPart } from "../../scene/aside.ts";
import type { SceneFiles, StudyRoom } from "../../work/protocol.ts";
import { keepReport } from "../store/reports.ts";
import type { AppStore } from "../store/store.ts";
import { isStudyOpen, useStudies } from "../studies/studiesStore.ts";
import { useTools } from "../tools/toolsStore.ts";
import { jigGaps, useCorrectionsTold, useJigLook, useJigTold, wantedOf } from "./jigStore.ts";

const SETTLE_ms = 300;
/** Angles hang on no mesh. */
const NO_FILES: SceneFiles = new Map();

/** Keeps what is told of mounts and angles in step with the kept document while it is looked at; clearances wait to be asked. */
export function startJig(store: AppStore, workshop: StudyRoom): () => void {
  const kept = (isWanted: boolean) => {
    const { document } = store.getState();
    return isStudyOpen("jig") && isWanted && document ? drawnPart(document) : null;
  };
  const others = [useTools, useStudies, useJigLook];
  const ends = [
    jigGaps.serve(store, workshop.jig),
    keepReport(store, {
      wanted() {
        const { tab, asked } = useJigLook.getState();
        const document = kept(tab === "mounts" || tab === "together");
        return document && { document, asked };
      },
      ask: ({ document, asked }) => workshop.jig({ document, ...asked, withClearances: false }, NO_FILES, () => {}),
      told: useJigTold,
      settle_ms: SETTLE_ms,
      others,
    }),
    keepReport(store, {
      wanted() {
        const { tab, wanted } = useJigLook.getState();
        const document = kept(tab === "right");
        return document && { document, wanted };
      },
      ask({ document, wanted }) {
        const angles = wantedOf(document, wanted);
        const job = workshop.corrections(document, angles);
        return { done: job.done.then((mounts) => ({ document, wanted: angles, mounts })), stop: job.stop };
      },
      told: useCorrectionsTold,
      settle_ms: SETTLE_ms,
      others,
    }),
  ];
  return () => {
    for (const end of ends) end();
  };
}
