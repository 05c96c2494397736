import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const viewport: Translation<typeof en.viewport> = {
  label: "Das Auto in 3D",
  none: {
    title: "Kein 3D-Bild auf diesem Rechner",
    told: "Dieser Browser bietet kein WebGL 2. Befunde, Kurven und Arbeitskarten gehen wie immer; nur das Bild fehlt.",
  },
  lost: {
    title: "Das Bild ging verloren",
    told: "Die Grafikkarte hat es fallen lassen. Es kommt von selbst zurück, sobald die Karte es erlaubt; die Arbeit ist sicher.",
    again: "Neu zeichnen",
  },
};
