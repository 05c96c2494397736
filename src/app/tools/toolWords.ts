import type { Tool } from "./toolsStore.ts";

const names: Readonly<Record<Tool, string>> = {
  measure: "Measure",
  section: "Section",
  ghosts: "Ghosts",
  envelope: "Envelope",
};

export const toolWords = {
  button: "Tools",
  label: "Tool",
  close: "Close",
  names,
  tools: (Object.keys(names) as Tool[]).map((value) => ({ value, name: names[value] })),
} as const;
