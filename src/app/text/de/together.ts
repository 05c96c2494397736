import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const together: Translation<typeof en.together> = {
  lead: "Befunde gelten für eine Radhöhe nach der anderen, und jede Bewegung des Motors in dem Federweg, der ihr gegeben ist. Hier steht ein Rad in beliebiger Höhe, während das andere in beliebiger anderer steht; was eine Bewegung jenseits ihres Federwegs täte, ist getrennt angegeben.",
  go: "Ausrechnen",
  again: "Neu ausrechnen",
  caution:
    "Nur Geometrie, starre Teile. Was nicht zusammen vorkommen kann, ist so angegeben worden: ein Prüfer kann es trotzdem verlangen. Von Hand nachprüfen, Feder ausgebaut, auf Böcken.",
  mustClear: "Muss frei sein",
  allClear: "Alles ist es, jede Bewegung des Motors in ihrem Federweg.",
  open_one: "{{count}} Paar ist es nicht, jede Bewegung des Motors in ihrem Federweg: es steht in den Befunden.",
  open_other: "{{count}} Paare sind es nicht, jede Bewegung des Motors in ihrem Federweg: sie stehen in den Befunden.",
  crossing: "Ein Rad oben, eins unten",
  noCrossing: "Kein Teil einer Seite kommt einem der anderen nahe.",
  pair: {
    off: "Links {{left}}, rechts {{right}}: <b>{{amount}}</b> Abstand.",
    deep: "Links {{left}} berührt rechts {{right}}: <b>{{amount}}</b> zu tief.",
  },
  at: "links {{left}}, rechts {{right}}, {{engine}}; {{wanted}} gewünscht",
  bar: "Der Stabilisator ist um höchstens {{angle}} verdreht: links {{left}}, rechts {{right}}.",
  cannot: "Kann nicht zusammen vorkommen",
  nothingCannot: "Keine Bewegung käme jenseits ihres Federwegs näher.",
  would: {
    off: "{{a}} und {{b}} hätten <b>{{amount}}</b> Abstand: {{where}}, {{engine}}.",
    deep: "{{a}} und {{b}} würden sich berühren, <b>{{amount}}</b> zu tief: {{where}}, {{engine}}.",
  },
  instead: "diese Bewegung ist nur angegeben von {{range}}; wo es frei sein muss: {{amount}}, {{wanted}} gewünscht",
  only: "diese Bewegung ist nur angegeben von {{range}}",
};
