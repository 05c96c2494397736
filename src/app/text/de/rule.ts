import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const rule: Translation<typeof en.rule> = {
  label: { left: "Federweg linkes Rad", right: "Federweg rechtes Rad" },
  value: "{{travel}}, {{state}}",
  here: { clash: "Berührung", tight: "knapp" },
  hereInAPose: { clash: "Berührung in mindestens einer Motorlage", tight: "knapp in mindestens einer Motorlage" },
  stillSpoken: { clash: "Motor und Rahmen berühren sich", tight: "Motor und Rahmen knapp" },
  both: "{{here}}; {{still}}",
  unchecked: "noch nicht alles geprüft",
  clear: "frei",
  still: { clash: "Motor und Rahmen: Berührung", tight: "Motor und Rahmen: knapp" },
  stillHint: "In der gezeigten Motorlage oder auf dem Weg dorthin, was die Räder auch tun. Drücken für die schlimmste.",
  anyPose: "alle Motorlagen",
  anyPoseHint: "Der farbige Federweg berührt oder ist knapp in mindestens einer Motorlage, nicht nur in der gezeigten.",
  ends: { bump: "Einfedern", droop: "Ausfedern" },
  flag: { bump: "Einfedern", droop: "Ausfedern", ride: "Fahrhöhe" },
};
