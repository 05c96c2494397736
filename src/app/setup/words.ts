import type { Section, Standing } from "../../scene/setup/question.ts";

/** What the guided set-up says; the questions themselves are data of the scene's room. */

export const SECTION_TITLES: Readonly<Record<Section, string>> = {
  car: "The car",
  wheel: "Tyre and wheel",
  members: "What holds the hub",
  travel: "Travel",
  powertrain: "Powertrain",
  frame: "Frame",
  damper: "Damper and anti-roll bar",
  shaft: "Driveshaft",
  gaps: "Wanted gaps",
};

export const STANDING_WORDS: Readonly<Record<Standing | "open", string>> = {
  measured: "measured",
  assumed: "assumed, not measured",
  open: "open",
};

export const WORDS = {
  place: "Set-up",
  sheet: "Guided set-up",
  all: "All answers",
  one: "Back to the question",
  back: "Back",
  keep: "Keep and go on",
  next: "Next",
  toOpen: "To the first open question",
  tape: "By tape from studs…",
  newDatum: "New datum…",
  readOnly: "Another tab has this project: look at it here, answer there.",
  incomplete: "Forward, out and up are all wanted.",
  noNumber: "Not a number. Try 6.5.",
  unanswered: "Write what you measured, or skip this question.",
  lastTitle: "Every question has its answer",
  lastLead:
    "Measure what is still assumed whenever you can reach it. Points and parts can be changed in their own place too.",
  allMeasured: "Nothing is assumed.",
  stillAssumed: "Assumed, not measured",
  putAway: "Put the set-up away",
  takeUp: "Take up the set-up",
  seeVerdicts: "See the verdicts",
  checking: "The corner can be worked out: it is being checked.",
  begin: "Begin a corner",
  beginLead: "Which of these holds your rear wheel? Members can be added and swapped later.",
  guided: "Ask me one measurement at a time",
  guidedSays:
    "The scene is built as your answers come in. You can leave at any time and go on later, in another tab too.",
  blank: "A measured blank",
  blankSays: "The whole corner at usual places, all marked as assumed: put your measured numbers in, in any order.",
  cancel: "Leave it",
} as const;

export function countWords(at: number, of: number): string {
  return `Question ${at} of ${of}`;
}

export function skipWords(standing: Standing | null, value: string): string {
  if (standing === "assumed") return `Leave it assumed: ${value}`;
  return standing === "measured" ? `Not measured: assume ${value}` : `Skip: assume ${value}`;
}

export function missingWords(names: readonly string[], shown = 4): string {
  const listed = names.slice(0, shown).join("; ");
  const more = names.length - shown;
  return more > 0 ? `${listed}; and ${more} more.` : `${listed}.`;
}

export const MISSING_LEAD = "Before the wheel's way can be worked out, these are still to be answered or skipped:";

/** Above the verdicts of a corner that is not all there yet. */
export const UNFINISHED = "The set-up still lacks what holds the wheel: what is told here is by assumed places.";

export function stepName(name: string, standing: Standing): string {
  return standing === "assumed" ? `${name} assumed` : `${name} measured`;
}

export const FIELD_WORDS = { forward: "Forward", out: "Out", up: "Up" } as const;

/** What the fields of a place are counted from while no datum is chosen. */
export const FROM_CAR = { forward: "of axle", out: "of centre", up: "off ground" } as const;

export function stepWords(step: number, unit: string): string {
  return unit === "in" ? "a sixteenth of an inch" : `${step} ${unit}`;
}
