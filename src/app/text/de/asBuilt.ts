import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const asBuilt: Translation<typeof en.asBuilt> = {
  lead: "Messen, wo die Aufnahmen nach dem Schweißen sitzen: außen heißt auf beiden Seiten von der Wagenmitte weg. Die Zeichnung bleibt, wie sie ist; eine Aufnahme, die nicht gemessen ist, gilt wie gezeichnet.",
  caution:
    "Winkel auf Fahrhöhe, jedes Teil so lang wie gezeichnet. Nur Geometrie, starre Teile: von Hand nachprüfen, Feder ausgebaut, auf Stützböcken.",
  entered: "Geschweißte Stellen, {{side}}: {{told}} von {{all}} gemessen",
  side: "Seite",
  list: { left: "Aufnahmen links", right: "Aufnahmen rechts" },
  forget: "Vergessen",
  forgetLabel: "Gemessenes vergessen: {{point}}",
  placeholder: "geschweißt",
  asDrawn: "wie gezeichnet",
  directions: { forward: "vor", out: "außen", up: "hoch" },
  drawn: "Soll {{size}}",
  labels: {
    left: {
      forward: "Links: {{point}}, vor, geschweißt",
      out: "Links: {{point}}, außen, geschweißt",
      up: "Links: {{point}}, hoch, geschweißt",
    },
    right: {
      forward: "Rechts: {{point}}, vor, geschweißt",
      out: "Rechts: {{point}}, außen, geschweißt",
      up: "Rechts: {{point}}, hoch, geschweißt",
    },
  },
  steps: {
    welded: { left: "links wie geschweißt: {{point}}", right: "rechts wie geschweißt: {{point}}" },
    forgotten: { left: "links nicht gemessen: {{point}}", right: "rechts nicht gemessen: {{point}}" },
    corrected: { left: "links gerichtet: {{point}}", right: "rechts gerichtet: {{point}}" },
  },
  go: "Wie gebaut ausrechnen",
  again: "Neu ausrechnen",
  result: "Wie gebaut",
  table: "Winkel auf Fahrhöhe, links und rechts",
  meant: "gewollt {{angle}}",
  asMeant: "wie gewollt",
  off: "{{angle}} daneben",
  plan: {
    left: "Rad links Spur {{toe}}",
    right: "Rad rechts Spur {{toe}}",
    thrust: "Fahrachse {{angle}}, plus ist nach rechts",
    key: "Von oben, vorn ist oben, Winkel {{times}}-fach vergrößert. Der Pfeil ist die Fahrachse.",
  },
  right: { left: "Das linke Rad steht wie gewollt.", right: "Das rechte Rad steht wie gewollt." },
  back: { left: "Was links zurückbringt", right: "Was rechts zurückbringt" },
  toeBack: "Spur: eines davon, durch Langloch, Beilage oder Einsteller",
  bothBack: "Spur und Sturz zusammen",
  noneAlone: "Keine Aufnahme allein bringt es zurück.",
  take: "Als gerichtet eintragen",
  takeLabel: "Als gerichtet eintragen: {{point}}",
  gaps: { left: "Abstände links", right: "Abstände rechts" },
  allClear: "Alles frei wie geschweißt.",
  wanted: "{{wanted}} verlangt",
  wantedDrawn: "{{wanted}} verlangt; gezeichnet {{drawn}}",
};
