import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const tools: Translation<typeof en.tools> = {
  button: "Werkzeuge",
  label: "Werkzeug",
  close: "Schließen",
  names: {
    measure: "Messen",
    section: "Schnitt",
    ghosts: "Schatten",
    envelope: "Hülle",
    gear: "Fahrwerk",
    loads: "Lasten",
    studies: "Studien",
  },
};
