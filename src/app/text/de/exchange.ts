import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const exchange: Translation<typeof en.exchange> = {
  model: "Die Teile, wie sie stehen",
  modelAbout:
    "Die Körper, die geprüft werden, Reifen und Federn als der Raum, den sie brauchen. STL und OBJ in Millimetern, vor entlang X, links entlang Y, hoch entlang Z; GLB in Metern, hoch entlang Y.",
  part: "Teile",
  allParts: "alle",
  onSide: { left: "{{part}}, links", right: "{{part}}, rechts" },
  kinds: {
    glb: "Modell mit Farben (GLB)",
    obj: "Modell (OBJ)",
    stl: "Ein Teil (STL)",
    stls: "Von jedem Teil ein STL, gepackt",
  },
  save: {
    glb: "GLB speichern",
    obj: "OBJ speichern",
    stl: "STL speichern",
    stls: "Von jedem ein STL speichern (Zip)",
  },
  points: "Anlenkpunkte",
  pointsAbout:
    "Eine Tabelle jedes Anlenkpunkts nach vor, außen und hoch in Millimetern, um sie anderswo zu ändern und wieder einzulesen. Was sich verschieben würde, wird zuerst gesagt; es ist ein Schritt, der rückgängig gemacht werden kann.",
  pointsName: "{{scene}} Anlenkpunkte",
  savePoints: "Anlenkpunkte speichern (CSV)",
  openPoints: "Anlenkpunkte einlesen (CSV)…",
  nothingMoves: "Jeder Anlenkpunkt in {{file}} steht schon, wo er ist.",
  wouldMove_one: "{{file}} verschiebt 1 Anlenkpunkt:",
  wouldMove_other: "{{file}} verschiebt {{count}} Anlenkpunkte:",
  change: "{{point}}: {{way}} ({{far}})",
  leave: "Lassen",
  take_one: "Verschieben",
  take_other: "Alle {{count}} verschieben",
  step: "Anlenkpunkte aus {{file}}",
  moved_one: "1 Anlenkpunkt verschoben. Rückgängig bringt ihn zurück.",
  moved_other: "{{count}} Anlenkpunkte verschoben. Rückgängig bringt sie zurück.",
  curves: "Kurven",
  curvesAbout:
    "Radwinkel, Wankzentrum, Anfahrnickausgleich, Dämpfer, Antriebswelle und Stabilisator über dem Federweg, eine Zeile je Federweg und Seite; {{engine}}.",
  curvesName: "{{scene}} Kurven",
  saveCurves: "Kurven speichern (CSV)",
};
