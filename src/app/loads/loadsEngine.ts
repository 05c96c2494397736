import type { Workshop } from "../../work/protocol.ts";
import { keepReport } from "../store/reports.ts";
import type { AppStore } from "../store/store.ts";
import { shownDocument } from "../store/tried.ts";
import { useTools } from "../tools/toolsStore.ts";
import { useLoadsTold } from "./loadsStore.ts";

/** Keeps the report of all cases and travels in step with the shown document while the loads stand open. */
export function startLoads(store: AppStore, workshop: Workshop): () => void {
  return keepReport(store, {
    wanted() {
      const state = store.getState();
      const document = useTools.getState().open === "loads" ? shownDocument(state) : null;
      return document && { document, pose: state.pose };
    },
    ask: ({ document, pose }) => workshop.loads(document, pose),
    told: useLoadsTold,
    others: [useTools],
  });
}
