export const studies = {
  name: "Studies",
  label: "Study",
  names: {
    room: "Room for a point",
    moves: "What clears it",
    jig: "Jig and tolerances",
    asBuilt: "As built",
    service: "Service",
    together: "One wheel up, one down",
  },
  running: "{{done}} of {{total}}",
  begins: "at work",
  progress: "How far the study is",
  stop: "Stop",
  stopped: { before: "Stopped. What was found before is still shown.", nothing: "Stopped." },
  outdated: "From before your change.",
} as const;
