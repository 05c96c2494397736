export const shell = {
  language: "Language",
  history: { undo: "Undo", undoOf: "Undo: {{step}}", redo: "Redo", redoOf: "Redo: {{step}}" },
  chosen: "chosen",
  leave: "Leave it",
} as const;
