import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const envelope: Translation<typeof en.envelope> = {
  part: "Überstrichener Raum von",
  none: "kein Teil",
  on: "Gesehen von",
  frame: "Rahmen",
  accuracy: "Genau auf",
  making: "Wird berechnet: {{percent}} %",
  makingAgain: "Wird berechnet: {{percent}} %. Gezeigt wie vor der Änderung.",
  stop: "Anhalten",
  trouble: { stopped: "Angehalten.", missing: "Dieses Teil gibt es in der Szene nicht." },
  told: "Nirgends innerhalb des wirklich überstrichenen Raums und höchstens {{size}} außerhalb, über den ganzen Federweg und jede Lage des Motors.",
  note: "Für Teile, die sich nie biegen; Gummilager und Reifen geben mehr nach.",
};
