import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const words: Translation<typeof en.words> = {
  sides: { left: "links", right: "rechts", both: "beide Seiten" },
  closer: { left: "beide Seiten, links ist näher", right: "beide Seiten, rechts ist näher" },
  twoSides: "Beide Seiten",
  under: "unter {{amount}}",
  pair: {
    meets: "{{a}} berührt {{b}}: <b>{{amount}} zu tief</b> bei {{where}}",
    meetsAlways: "{{a}} berührt {{b}}: <b>{{amount}} zu tief</b> bei jedem Federweg",
    passes: "{{a}} geht an {{b}} vorbei: <b>{{amount}}</b> Abstand bei {{where}}",
    passesAlways: "{{a}} geht an {{b}} vorbei: <b>{{amount}}</b> Abstand bei jedem Federweg",
    passesAtLeast: "{{a}} geht an {{b}} vorbei: <b>{{amount}}</b> Abstand",
  },
  wants: "soll {{wanted}}",
  pairWants: "{{state}}; soll {{wanted}}",
  limits: {
    "shaft-length": {
      over: "Antriebswelle ist <b>{{amount}} zu kurz</b> bei {{where}}",
      under: "Antriebswelle ist <b>{{amount}} zu lang</b> bei {{where}}",
      spare: "Antriebswelle hat <b>{{amount}} Reserve</b> bei {{where}}",
    },
    "damper-length": {
      over: "Dämpfer ist ganz ausgezogen: <b>{{amount}} über sein Ende</b> bei {{where}}",
      under: "Dämpfer ist ganz eingeschoben: <b>{{amount}} über sein Ende</b> bei {{where}}",
      spare: "Dämpfer hat <b>{{amount}} Reserve</b> bei {{where}}",
    },
    stop: {
      over: "Anschlagpuffer ist auf Block: <b>{{amount}} darüber hinaus</b> bei {{where}}",
      spare: "Anschlagpuffer hat <b>{{amount}} Reserve</b> bei {{where}}",
    },
    strap: {
      over: "Fangband ist straff: <b>{{amount}} darüber hinaus</b> bei {{where}}",
      spare: "Fangband hat <b>{{amount}} Reserve</b> bei {{where}}",
    },
    "coil-bind": {
      over: "Feder ist auf Block: <b>{{amount}} darüber hinaus</b> bei {{where}}",
      spare: "Federwindungen haben <b>{{amount}} Reserve</b> bei {{where}}",
    },
    "inner-angle": {
      over: "Inneres Wellengelenk beugt <b>{{amount}} zu weit</b> bei {{where}}",
      spare: "Inneres Wellengelenk hat <b>{{amount}} Reserve</b> bei {{where}}",
    },
    "outer-angle": {
      over: "Äußeres Wellengelenk beugt <b>{{amount}} zu weit</b> bei {{where}}",
      spare: "Äußeres Wellengelenk hat <b>{{amount}} Reserve</b> bei {{where}}",
    },
    "joint-tilt": {
      over: "Gelenk {{joint}} kippt <b>{{amount}} zu weit</b> bei {{where}}",
      spare: "Gelenk {{joint}} hat <b>{{amount}} Kippreserve</b> bei {{where}}",
    },
    "joint-twist": {
      over: "{{joint}} verdreht sich <b>{{amount}} zu weit</b> bei {{where}}",
      spare: "{{joint}} hat <b>{{amount}} Verdrehreserve</b> bei {{where}}",
    },
    binds: {
      over: "Die Ecke <b>klemmt</b> bei {{where}}",
      spare: "Die Ecke <b>läuft frei durch</b>, über den ganzen Federweg",
    },
  },
  limitState: {
    at: "{{side}}, {{engine}}",
    from: "{{side}}, {{engine}}, ab {{where}}",
    binds: "{{side}}; nur bis dorthin gezeigt",
  },
  limitReading: {
    limit: "{{state}}; {{value}}, Grenze {{limit}}",
    shortest: "{{state}}; {{value}}, kürzestens {{limit}}",
    longest: "{{state}}; {{value}}, längstens {{limit}}",
  },
  travel: { bump: "{{travel}} Einfedern", droop: "{{travel}} Ausfedern", ride: "Fahrhöhe" },
  travelRange: "{{from}} bis {{to}}",
  ways: {
    forward: "nach vorn",
    back: "nach hinten",
    left: "nach links",
    right: "nach rechts",
    outboard: "nach außen",
    inboard: "nach innen",
    up: "nach oben",
    down: "nach unten",
  },
  eye: { ahead: "vorn", behind: "hinten", left: "links", right: "rechts", above: "oben", below: "unten" },
  bodies: {
    bar: "Stabilisator",
    "bar-link": "Koppelstange",
    "damper-upper": "Kolbenstange",
    "damper-lower": "Dämpferrohr",
  },
  members: { link: "Lenker {{name}}", wishbone: "Dreieckslenker {{name}}", strut: "Federbein {{name}}" },
  memberKinds: { link: "Lenker", wishbone: "Dreieckslenker", strut: "Federbein" },
  poses: { rest: "Ruhe", pulling: "Zug", overrun: "Schub" },
  engine: {
    rest: "Motor in Ruhe",
    pulling: "Motor unter Zug",
    overrun: "Motor im Schub",
    doing: "Motor in Lage {{pose}}",
    other: "Motor in Lage {{pose}}",
    onTheWay: "Motor {{percent}} % auf dem Weg zu {{pose}}",
  },
  refusal: "{{wrong}} Verlangt: {{wanted}}.",
  jams: {
    move: "Die Teile behalten ihre Längen und klemmen nach {{percent}} % dieser Verschiebung. Weniger verschieben oder passend schneiden.",
    way: "Die Teile behalten ihre Längen und klemmen nach {{percent}} % des Wegs von dort, wo die Lager gezeichnet sind. Weniger verschieben oder passend schneiden.",
  },
};
