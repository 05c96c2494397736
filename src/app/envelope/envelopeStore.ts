import { create } from "zustand";
import type { Envelope } from "../../clearance/envelope/envelope.ts";
import { app } from "../store/useApp.ts";

export interface EnvelopeShown {
  /** How the workshop knows it. */
  readonly name: string;
  readonly key: string;
  readonly on: string | null;
  readonly envelope: Envelope;
}

interface EnvelopeLook {
  /** Key of the body whose room is wanted; null: none. */
  readonly key: string | null;
  /** Key of the body that it is seen from; null: the frame. */
  readonly on: string | null;
  readonly accuracy_mm: number;
  readonly shown: EnvelopeShown | null;
  /** Share done of what is being made; null: nothing is. */
  readonly progress: number | null;
  /** The builder stopped it, or why there is none. */
  readonly trouble: "stopped" | "missing" | null;
}

export const ACCURACIES_mm = [2, 4, 8] as const;

const NONE: EnvelopeLook = { key: null, on: null, accuracy_mm: 4, shown: null, progress: null, trouble: null };

/** Neither saved nor undone. */
export const useEnvelope = create<EnvelopeLook>()(() => NONE);

app.subscribe((state, before) => {
  if (state.fileName !== before.fileName) useEnvelope.setState(NONE);
});
