import type { Unit } from "../store/state.ts";
import { lengthText } from "../words/number.ts";

export const envelopeWords = {
  part: "Room swept by",
  none: "no part",
  on: "As seen from",
  frame: "the frame",
  accuracy: "Within",
  accuracyText: (value_mm: number, unit: Unit) => lengthText(value_mm, unit, { digits: unit === "in" ? 2 : 0 }),
  making: (share: number) => `Working it out: ${Math.round(100 * share)} %`,
  stop: "Stop",
  before: "Shown as it was before your change.",
  stopped: "Stopped.",
  missing: "The scene has no such part.",
  told: (accuracy_mm: number, unit: Unit) =>
    `Nowhere inside the room that is really swept, and at most ${lengthText(accuracy_mm, unit)} outside of it, over the whole travel and every engine pose.`,
  note: "Parts that never bend; bushes and tyres give more.",
} as const;
