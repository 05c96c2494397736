export const together = {
  lead: "Verdicts hold one wheel height at a time, and each engine motion within the travel that you gave it. Here one wheel is at any height while the other is at any other, and what a motion would do beyond its travel is told apart.",
  go: "Work it out",
  again: "Work it out again",
  caution:
    "Geometry only, rigid parts. What cannot happen together is what you said: an inspector may ask for it all the same. Prove it by hand with the spring out, on stands.",
  mustClear: "Must clear",
  allClear: "Everything does, every engine motion within its travel.",
  open_one: "{{count}} pair does not, every engine motion within its travel: it stands in the verdicts.",
  open_other: "{{count}} pairs do not, every engine motion within its travel: they stand in the verdicts.",
  crossing: "One wheel up, one down",
  noCrossing: "No part of one side comes near a part of the other.",
  pair: {
    off: "Left {{left}} is off right {{right}} by <b>{{amount}}</b>.",
    deep: "Left {{left}} meets right {{right}}: <b>{{amount}}</b> too deep.",
  },
  at: "left {{left}}, right {{right}}, {{engine}}; {{wanted}} wanted",
  bar: "The anti-roll bar is wound up by {{angle}} at most: left {{left}}, right {{right}}.",
  cannot: "Cannot happen together",
  nothingCannot: "No motion would come closer beyond the travel that you gave it.",
  would: {
    off: "{{a}} would be off {{b}} by <b>{{amount}}</b> at {{where}}, {{engine}}.",
    deep: "{{a}} would meet {{b}}, <b>{{amount}}</b> too deep, at {{where}}, {{engine}}.",
  },
  instead: "that motion is only told from {{range}}; where it must be clear: {{amount}}, {{wanted}} wanted",
  only: "that motion is only told from {{range}}",
} as const;
