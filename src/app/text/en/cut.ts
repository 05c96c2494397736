export const cut = {
  wayLabel: "How the section lies",
  ways: { off: "off", across: "across", along: "along", level: "level", axis: "by a part" },
  slider: "Where it lies",
  knob: "Move the section",
  flip: "Show the other half",
  face: "Look straight at it",
  point: "Through",
  noPoint: "no hard point",
  body: "Along the axis of",
  noBody: "choose a part",
  note: "Hatched where a part is cut. Scans with holes are cut open without a fill. What is cut away can be neither picked nor measured.",
  offset: {
    across: { less: "{{size}} behind the axle line", more: "{{size}} ahead of the axle line" },
    along: { less: "{{size}} right of the middle", more: "{{size}} left of the middle" },
    level: { less: "{{size}} below the ground", more: "{{size}} above the ground" },
    axis: { less: "{{size}} to one side of the axis", more: "{{size}} to the other side of the axis" },
  },
} as const;
