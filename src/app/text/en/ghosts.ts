export const ghosts = {
  ends: "Wheels also at",
  bump: "full bump",
  droop: "full droop",
  pose: "Engine also",
  none: "as shown",
  note: "Outlines of the moving parts where they would be. The parts themselves stay where they are shown.",
} as const;
