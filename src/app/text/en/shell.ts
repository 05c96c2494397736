export const shell = {
  language: "Language",
  chosen: "chosen",
} as const;
