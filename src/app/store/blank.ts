import type { AppState } from "./state.ts";

/** What the app shows before anything is open. */
export function blankState(): AppState {
  return {
    document: null,
    fileName: "",
    stepName: "",
    place: "corner",
    travel_mm: { left: 0, right: 0 },
    wheels: "together",
    pose: "rest",
    stand: "behind",
    show: { chassis: "solid", powertrain: "solid", hub: "solid", arms: "solid" },
    heldPart: null,
    heldPoint: null,
    glassParts: [],
    chosenPair: null,
    tried: null,
    unit: "mm",
    theme: "daylight",
    scene: null,
    error: null,
    bodies: [],
    result: null,
    resultBefore: null,
    checking: null,
    stale: false,
    ready: false,
    saved_ms: null,
    saveTrouble: null,
    workTrouble: null,
    checkStopped: false,
    cautionsRead: false,
    cardOpen: false,
    files: new Map(),
    patches: new Map(),
  };
}
