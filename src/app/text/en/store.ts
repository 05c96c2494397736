export const store = {
  steps: {
    open: "open {{title}}",
    leaveOut: "leave out {{a}}, {{b}}",
    count: "count {{a}}, {{b}} again",
  },
} as const;
