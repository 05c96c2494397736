import type { en } from "../en/index.ts";
import type { Translation } from "../languages.ts";

export const shell: Translation<typeof en.shell> = {
  language: "Sprache",
  history: { undo: "Rückgängig", undoOf: "Rückgängig: {{step}}", redo: "Wiederholen", redoOf: "Wiederholen: {{step}}" },
  chosen: "gewählt",
  leave: "So lassen",
};
