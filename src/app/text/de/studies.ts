import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const studies: Translation<typeof en.studies> = {
  name: "Studien",
  label: "Studie",
  names: {
    room: "Platz für einen Punkt",
    moves: "Was es freimacht",
    jig: "Lehre und Toleranzen",
    asBuilt: "Wie gebaut",
    service: "Wartung",
    together: "Ein Rad oben, eins unten",
  },
  running: "{{done}} von {{total}}",
  begins: "arbeitet",
  progress: "Stand der Studie",
  stop: "Anhalten",
  stopped: { before: "Angehalten. Was vorher gefunden wurde, steht noch da.", nothing: "Angehalten." },
  outdated: "Von vor der Änderung.",
};
