import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const paper: Translation<typeof en.paper> = {
  name: "Papier und Dateien",
  close: "Schließen",
  kind: "Was entstehen soll",
  kinds: {
    picture: "Bild im Maßstab",
    hardPoints: "Anlenkpunkt-Blatt",
  },
  about: {
    picture:
      "Ansicht von hinten, von der Seite oder von oben im wahren Maßstab mit Maßstabsleiste, Abständen und Längen mit Pfeilen und Legende; weiß, zum Drucken oder Zeigen.",
    hardPoints:
      "Jeder Anlenkpunkt nach vor, außen und hoch vom gewählten Bezug: wie gezeichnet, mit Feldern für das, was das Auto sagt, oder wie auf beiden Seiten gemessen.",
  },
  trying: "Eine Verschiebung wird gerade probiert. Was hier entsteht, zeigt die Szene, wie sie behalten ist.",
  making: "Wird erstellt…",
  saved: "Gespeichert als {{file}}.",
  noFont: "Die Schrift zum Drucken ließ sich nicht lesen. Seite neu laden und noch einmal versuchen.",
  revision: "Stand",
  saveCsv: "Als Tabelle speichern (CSV)",
  savePdf: "Als PDF speichern",
  files: { pdf: "Gedrucktes Blatt", csv: "Wertetabelle" },
  units: { mm: "mm", in: "Zoll" },
  frame: {
    date: "Datum",
    revision: "Stand",
    units: "Einheiten",
    state: "Zustand",
    datum: "Gemessen von",
    drawn: "wie gezeichnet",
    built: "wie gebaut",
    page: "Blatt {{page}} von {{pages}}",
  },
  cautions: {
    shape:
      "Nur Form und Bewegung, starre Teile: die Festigkeit wird nicht geprüft. Lenker, Aufnahmen und Schweißnähte von einem Fachmann ansehen lassen; vor dem Schneiden den Prüfer fragen.",
    stands:
      "Vor dem Schweißen noch einmal messen. Von Hand nachprüfen, Feder ausgebaut, auf Böcken, nie nur auf dem Wagenheber.",
  },
  hardPoints: {
    point: "Anlenkpunkt",
    ways: "vor\naußen\nhoch",
    drawn: "Gezeichnet",
    left: "Links am Auto",
    right: "Rechts am Auto",
    difference: "Rechts weniger links",
    how: "Wie gemessen und wie genau",
    within: "± {{length}}",
    leftHow: "Links: {{how}}",
    rightHow: "Rechts: {{how}}",
    note: "Außen heißt auf beiden Seiten: von der Mittelebene weg. Gleiche Zahlen links und rechts sind Spiegelbilder. Leere Felder sind für das, was das Auto sagt.",
  },
};
