import type { Workshop } from "../../work/protocol.ts";
import { keepReport } from "../store/reports.ts";
import type { AppStore } from "../store/store.ts";
import { shownDocument } from "../store/tried.ts";
import { useTools } from "../tools/toolsStore.ts";
import { useGearLook, useGearTold } from "./gearStore.ts";

/** It takes a worker some hundred milliseconds, in which that one checks nothing. */
const SETTLE_ms = 300;

/** Keeps what is told of the running gear in step with the shown document while its sheet stands open. */
export function startGear(store: AppStore, workshop: Workshop): () => void {
  return keepReport(store, {
    wanted() {
      const document = useTools.getState().open === "gear" ? shownDocument(store.getState()) : null;
      return document && { document, spare_mm: useGearLook.getState().spare_mm };
    },
    ask: ({ document, spare_mm }) => workshop.gear(document, spare_mm),
    told: useGearTold,
    settle_ms: SETTLE_ms,
    others: [useTools, useGearLook],
  });
}
