export const shell = {
  language: "Language",
  chosen: "chosen",
  leave: "Leave it",
} as const;
