import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const projects: Translation<typeof en.projects> = {
  title: "Projekte",
  lead: "Projekt öffnen, neues beginnen, umbenennen, duplizieren oder löschen.",
  close: "Schließen",
  none: "Noch kein Projekt. Unten eins beginnen.",
  untitled: "Ohne Titel",
  open: "offen",
  rename: "Umbenennen",
  renameOf: "{{title}} umbenennen",
  newName: "Neuer Name",
  keepName: "Behalten",
  duplicate: "Duplizieren",
  duplicateOf: "{{title}} duplizieren",
  delete: "Löschen",
  deleteOf: "{{title}} löschen",
  deleted: "„{{title}}“ ist gelöscht.",
  undo: "Rückgängig",
  gone: "Gelöscht ({{count}})",
  goesIn_one: "in {{count}} Tag endgültig weg",
  goesIn_other: "in {{count}} Tagen endgültig weg",
  putBack: "Zurückholen",
  putBackOf: "{{title}} zurückholen",
  deleteForGood: "Endgültig löschen",
  deleteForGoodOf: "{{title}} endgültig löschen",
  facts: {
    changed: "geändert {{when}}",
    contents: "{{points}}, {{parts}}",
    points_one: "{{count}} Punkt",
    points_other: "{{count}} Punkte",
    parts_one: "{{count}} Teil",
    parts_other: "{{count}} Teile",
    steps_one: "{{count}} Schritt",
    steps_other: "{{count}} Schritte",
    noStep: "noch kein Schritt",
    bytes_one: "{{count}} Byte",
    bytes_other: "{{count}} Byte",
  },
  begin: {
    title: "Neues beginnen mit",
    own: "Einer eigenen Ecke…",
    file: "Einer Szenendatei…",
  },
  room: {
    where: "In diesem Browser auf diesem Rechner aufbewahrt, sonst nirgends.",
    used: "{{used}} von {{most}}.",
    promised: "Der Browser hat zugesagt, es nicht wegzuwerfen.",
    notPromised: "Wird der Platz knapp, kann der Browser es wegwerfen: ab und zu Dateien speichern.",
    offline: "Die App öffnet auch ohne Netz.",
    online: "Die App braucht zum Öffnen ihren Server: dieser Browser hat keine Kopie von ihr.",
    ask: "Um Aufbewahrung bitten",
  },
  steps: {
    title: "Schritte",
    lead: "Einen wählen, um zurück oder wieder vor zu gehen, dahin, wie es danach stand. Nichts geht verloren, bis etwas anderes geändert wird.",
    newer_one: "{{count}} neueren Schritt zeigen",
    newer_other: "{{count}} neuere Schritte zeigen",
    older_one: "{{count}} älteren Schritt zeigen",
    older_other: "{{count}} ältere Schritte zeigen",
    opened: "wie geöffnet",
    shown: "gezeigt",
    undone: "zurückgenommen",
  },
  watched: "Dieses Projekt ist in einem anderen Tab offen: hier ist nur zu sehen, was dort geändert wird.",
  watchedRefused:
    "<b>Nichts wurde geändert.</b> Dieses Projekt ist in einem anderen Tab offen: hier ist nur zu sehen, was dort geändert wird.",
  changeHere: "Hier ändern",
  goOnWithCopy: "Mit einer Kopie weitermachen",
  cutOff:
    "<b>Nicht gespeichert: ein anderer Tab hat dieses Projekt inzwischen geändert.</b> Die letzten Änderungen sind nur auf dieser Seite; verloren ist von beiden noch nichts.",
  keepMine: "Diese als Kopie behalten",
  saveFile: "Datei speichern",
  letMineGo: "Diese verwerfen",
  thrownAway: {
    savedAnew_one:
      "<b>Dieser Browser hat weggeworfen, was er aufbewahrt hatte:</b> {{count}} Projekt, zuletzt „{{title}}“, {{when}}. Das Projekt auf dieser Seite wurde neu gespeichert.",
    savedAnew_other:
      "<b>Dieser Browser hat weggeworfen, was er aufbewahrt hatte:</b> {{count}} Projekte, zuletzt „{{title}}“, {{when}}. Das Projekt auf dieser Seite wurde neu gespeichert.",
    openFiles_one:
      "<b>Dieser Browser hat weggeworfen, was er aufbewahrt hatte:</b> {{count}} Projekt, zuletzt „{{title}}“, {{when}}. Gespeicherte Dateien wieder öffnen.",
    openFiles_other:
      "<b>Dieser Browser hat weggeworfen, was er aufbewahrt hatte:</b> {{count}} Projekte, zuletzt „{{title}}“, {{when}}. Gespeicherte Dateien wieder öffnen.",
  },
  openFile: "Szenendatei öffnen",
  unreadable: "„{{title}}“ ist hier nicht lesbar. Es bleibt, wie es ist.",
  damaged_one:
    "Ein Projekt ist hier nicht zu lesen: was der Browser davon aufbewahrt hat, ist beschädigt. Es bleibt, wie es ist.",
  damaged_other:
    "{{count}} Projekte sind hier nicht zu lesen: was der Browser davon aufbewahrt hat, ist beschädigt. Sie bleiben, wie sie sind.",
  mayNotLeave:
    "Das Projekt auf dieser Seite ist nicht gespeichert. Als Datei speichern oder als Kopie behalten, bevor ein anderes geöffnet wird.",
  openElsewhere: "Dieses Projekt ist in einem anderen Tab offen: dort ändern oder den Tab erst schließen.",
  oldWork:
    "Arbeit einer früheren Version ließ sich nicht übernehmen. Sie bleibt, wie sie ist; der nächste Start versucht es wieder.",
  lost_one:
    "Ein Schritt dieses Projekts ist nicht lesbar. Das Projekt steht, wie es zuletzt lesbar gespeichert wurde; vor dem Weiterarbeiten eine Datei speichern.",
  lost_other:
    "{{count}} Schritte dieses Projekts sind nicht lesbar. Das Projekt steht, wie es zuletzt lesbar gespeichert wurde; vor dem Weiterarbeiten eine Datei speichern.",
  copy: "{{title}}, Kopie",
  copyAgain: "{{title}}, Kopie {{number}}",
  step: { copy: "Kopie als {{title}}", rename: "Umbenennen in {{title}}" },
  fault: {
    newerElsewhere: "Dieses Projekt wurde in einem anderen Tab geändert.",
    thrownAway: "Der Browser hat dieses Projekt nicht mehr.",
    full: "Nicht gespeichert: der Speicher dieses Browsers ist voll. Eine Datei speichern, um die Arbeit zu behalten.",
    refused:
      "Nicht gespeichert: dieser Browser lässt die Seite nichts ablegen. Eine Datei speichern, um die Arbeit zu behalten.",
    refusedBecause:
      "Nicht gespeichert: dieser Browser lässt die Seite nichts ablegen ({{why}}). Eine Datei speichern, um die Arbeit zu behalten.",
  },
};
