import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const cut: Translation<typeof en.cut> = {
  wayLabel: "Wie der Schnitt liegt",
  ways: { off: "aus", across: "quer", along: "längs", level: "waagerecht", axis: "nach einem Teil" },
  slider: "Wo er liegt",
  knob: "Schnitt verschieben",
  flip: "Die andere Hälfte zeigen",
  face: "Senkrecht darauf schauen",
  point: "Durch",
  noPoint: "kein Anlenkpunkt",
  body: "Entlang der Achse von",
  noBody: "Teil wählen",
  note: "Schraffiert, wo ein Teil geschnitten ist. Scans mit Löchern werden offen geschnitten. Was weggeschnitten ist, lässt sich weder wählen noch messen.",
  offset: {
    across: { less: "{{size}} hinter der Achslinie", more: "{{size}} vor der Achslinie" },
    along: { less: "{{size}} rechts der Mitte", more: "{{size}} links der Mitte" },
    level: { less: "{{size}} unter dem Boden", more: "{{size}} über dem Boden" },
    axis: { less: "{{size}} zur einen Seite der Achse", more: "{{size}} zur anderen Seite der Achse" },
  },
};
