export const tools = {
  button: "Tools",
  label: "Tool",
  close: "Close",
  names: {
    measure: "Measure",
    section: "Section",
    ghosts: "Ghosts",
    envelope: "Envelope",
    gear: "Running gear",
    loads: "Loads",
    studies: "Studies",
  },
} as const;
