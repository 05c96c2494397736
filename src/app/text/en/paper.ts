export const paper = {
  name: "Paper and files",
  close: "Close",
  kind: "What to make",
  kinds: {
    picture: "Picture to scale",
    hardPoints: "Hard-point sheet",
  },
  about: {
    picture:
      "Rear, side or plan view in true scale with a scale bar, gaps and lengths with arrows, and a legend; white, to print or to show.",
    hardPoints:
      "Every hard point forward, out and up from the datum you choose: as drawn, with boxes for what the car says, or as measured on both sides.",
  },
  trying: "A move is being tried. What is made here tells the scene as it is kept.",
  making: "Making it…",
  saved: "Saved as {{file}}.",
  noFont: "The letters for printing could not be read. Load the page again and try once more.",
  revision: "Revision",
  saveCsv: "Save as a table (CSV)",
  savePdf: "Save as PDF",
  files: { pdf: "Printed sheet", csv: "Table of values" },
  units: { mm: "mm", in: "inches" },
  frame: {
    date: "Date",
    revision: "Revision",
    units: "Units",
    state: "State",
    datum: "Measured from",
    drawn: "as drawn",
    built: "as built",
    page: "Page {{page}} of {{pages}}",
  },
  cautions: {
    shape:
      "Shape and movement only, rigid parts: it does not check strength. Have an engineer see arms, mounts and welds; ask your inspector before cutting.",
    stands: "Measure again before you weld. Prove it by hand, spring out, on stands, never on a jack alone.",
  },
  hardPoints: {
    point: "Hard point",
    ways: "forward\nout\nup",
    drawn: "Drawn",
    left: "Left on the car",
    right: "Right on the car",
    difference: "Right less left",
    how: "How measured, and how well",
    within: "± {{length}}",
    leftHow: "Left: {{how}}",
    rightHow: "Right: {{how}}",
    note: "Out is away from the centre plane on either side: equal numbers left and right are mirror images. Empty boxes are for what the car says.",
  },
} as const;
