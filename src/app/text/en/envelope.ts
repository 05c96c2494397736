export const envelope = {
  part: "Room swept by",
  none: "no part",
  on: "As seen from",
  frame: "the frame",
  accuracy: "Within",
  making: "Working it out: {{percent}} %",
  makingAgain: "Working it out: {{percent}} % Shown as it was before your change.",
  stop: "Stop",
  trouble: { stopped: "Stopped.", missing: "The scene has no such part." },
  told: "Nowhere inside the room that is really swept, and at most {{size}} outside of it, over the whole travel and every engine pose.",
  note: "Parts that never bend; bushes and tyres give more.",
} as const;
