import { InputError } from "../../scene/error.ts";
import type { Job, StudyRoom } from "../../work/protocol.ts";
import { isAbort } from "../store/engine.ts";
import type { AppStore } from "../store/store.ts";
import { keptSceneOf } from "../store/tried.ts";
import { isStudyOpen, useStudies } from "../studies/studiesStore.ts";
import { useTools } from "../tools/toolsStore.ts";
import { questionOf, type RoomForm, usualForm } from "./roomForm.ts";
import { useRoom } from "./roomStore.ts";

/** The form is left alone for so long before anything is made for it. */
const STILL_ms = 300;

/**
 * While the form of a room map stands open and nothing was looked for yet, what its points' map begins with is made beforehand, so that
 * the first picture comes at once.
 */
export function readyRooms(store: AppStore, workshop: Pick<StudyRoom, "readyRoom">): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let job: Job<void> | null = null;
  let asked = "";
  let seen: readonly unknown[] = [];

  const make = async (form: RoomForm): Promise<void> => {
    const { document, scene, files, fileName } = store.getState();
    if (!document || !scene) return;
    try {
      const question = questionOf(form, document, keptSceneOf(document, fileName));
      if (!question) return;
      job = workshop.readyRoom(question, files);
      await job.done;
    } catch (error) {
      // what is wrong with the form is told once it is asked
      if (isAbort(error) || error instanceof InputError) return;
      store.setState({ workTrouble: error instanceof Error ? error.message : String(error) });
    }
  };
  const look = (): void => {
    const { document, fileName, heldPoint, scene } = store.getState();
    const { form: given, run } = useRoom.getState();
    const isOpen = isStudyOpen("room") && run === null && scene !== null;
    const sees = [document, heldPoint, given, isOpen];
    if (sees.every((each, i) => each === seen[i])) return;
    seen = sees;
    const form = isOpen && document ? (given ?? usualForm(document, keptSceneOf(document, fileName), heldPoint)) : null;
    const now = form ? `${fileName} ${form.point} ${form.second} ${form.fit}` : "";
    if (now === asked) return;
    asked = now;
    clearTimeout(timer);
    job?.stop();
    job = null;
    if (form) timer = setTimeout(() => void make(form), STILL_ms);
  };
  const ends = [store, useRoom, useTools, useStudies].map((each) => each.subscribe(look));
  return () => {
    for (const end of ends) end();
    clearTimeout(timer);
    job?.stop();
  };
}
