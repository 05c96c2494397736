import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const curves: Translation<typeof en.curves> = {
  name: "Kurven",
  grip: "Höhe der Kurven",
  key: { left: "links", right: "rechts, wo es abweicht", tried: "noch nicht behalten" },
  level: {
    one: "der Federweg steht senkrecht; die Linie ist überall {{travel}}",
    two: "der Federweg steht senkrecht; links bei {{left}}, rechts bei {{right}}",
  },
  choose: "Welche Kurven",
  reading: {
    both: "<i>L</i> {{left}} <i>R</i> {{right}}",
    one: "{{name}} über dem Federweg, {{meaning}}: jetzt {{value}}",
    two: "{{name}} über dem Federweg, {{meaning}}: jetzt links {{left}}, rechts {{right}}",
  },
  gap: {
    name: "Abstand des Paars",
    meaning: "Motor in der schlimmsten Lage dieses Paars; unter null überschneiden sie sich",
    reading: "Abstand dieses Paars über dem Federweg: jetzt {{value}}",
    none: "Kein Paar gewählt",
    choose: "Befund wählen",
  },
  axis: { bump: "ein", droop: "aus" },
  names: {
    toe: "Spur",
    camber: "Sturz",
    halfTrack: "Halbe Spurweite",
    plunge: "Verschiebeweg",
    damperRatio: "Dämpferübersetzung",
    damper: "Dämpferlänge",
    rollCentre: "Wankzentrum",
    wheelbaseShift: "Radstandsänderung",
    shaft: "Wellenlänge",
    innerAngle: "Beugewinkel innen",
    outerAngle: "Beugewinkel außen",
    angleDifference: "Winkelunterschied",
    wheelRate: "Radrate",
    bumpSteer: "Spuränderung",
    camberGain: "Sturzänderung",
    antiSquat: "Anfahrnickausgleich",
    antiLift: "Bremsnickausgleich",
    barTurn: "Stabilisatorarm",
    dropLink: "Koppelstange",
  },
  meanings: {
    toe: "eines Rades; + ist Vorspur",
    camber: "+ ist oben nach außen",
    halfTrack: "Aufstandspunkt bis Mittelebene",
    plunge: "Wellenlänge gegen Fahrhöhe; + ist länger",
    damperRatio: "Verkürzung des Dämpfers je Federweg des Rades",
    damper: "oben bis unten",
    rollCentre: "Höhe über dem Aufstandspunkt",
    wheelbaseShift: "Radmitte; + ist nach vorn",
    shaft: "inneres bis äußeres Gelenk",
    innerAngle: "Welle zur Achse des Gelenks",
    outerAngle: "Welle zur Achse des Rades",
    angleDifference: "innerer weniger äußerer Gelenkwinkel",
    wheelRate: "der Feder allein",
    bumpSteer: "Spur je Radweg; + ist Vorspur beim Einfedern",
    camberGain: "Sturz je Radweg; + ist oben außen beim Einfedern",
    antiSquat: "bei 100 % kein Eintauchen beim Anfahren",
    antiLift: "bei 100 % kein Anheben beim Bremsen",
    barTurn: "Drehung gegenüber gezeichnet",
    dropLink: "Winkel zum Arm; 90° ist rechtwinklig",
  },
  definitions: {
    toe: "Winkel des Rads zur Fahrtrichtung, von oben gesehen; Vorspur ist positiv. Jedes Rad für sich.",
    camber:
      "Winkel des Rads zur Senkrechten, von hinten gesehen; positiv, wenn es oben nach außen neigt. Zum Aufbau, nicht zum Boden eines wankenden Autos.",
    halfTrack: "Abstand des Punkts, auf dem der Reifen steht, von der Fahrzeugmitte.",
    plunge: "Wie viel länger die Antriebswelle ist als bei Fahrhöhe, zwischen den Gelenkmitten, Motor in Ruhe.",
    damperRatio:
      "Um wie viel sich der Dämpfer je Radweg verkürzt. Auch der Kehrwert, Rad je Dämpfer, ist gebräuchlich.",
    damper: "Länge zwischen den beiden Aufnahmen des Dämpfers.",
    rollCentre:
      "Höhe über dem Boden des Punkts in Fahrzeugmitte, um den der Aufstandspunkt dieser Seite schwenkt: die Linie rechtwinklig zum Weg des Aufstandspunkts, bis zur Mitte verlängert.",
    wheelbaseShift: "Wie weit die Radmitte beim Einfedern nach vorn oder hinten geht.",
    shaft: "Länge zwischen den beiden Gelenkmitten der Antriebswelle, Motor in Ruhe.",
    innerAngle: "Winkel zwischen Antriebswelle und Achse des inneren Gelenks.",
    outerAngle: "Winkel zwischen Antriebswelle und Radachse.",
    angleDifference:
      "Innerer weniger äußerer Gelenkwinkel. Bei zwei Kreuzgelenken in einer Ebene bleibt eine ungleichmäßige Drehung, wo sie sich unterscheiden.",
    wheelRate:
      "Kraft am Reifen je Radweg: Federrate mal Dämpferübersetzung im Quadrat, und Federkraft mal Änderung der Übersetzung je Radweg. Anschlagpuffer, Lager, Stabilisator und Reifen sind nicht darin.",
    bumpSteer: "Wie schnell sich die Spur beim Einfedern ändert, der Aufbau gerade.",
    camberGain: "Wie schnell sich der Sturz beim Einfedern ändert, der Aufbau gerade.",
    antiSquat:
      "100 × tan θ × Radstand / Schwerpunkthöhe, θ die Neigung, mit der die Radmitte beim Einfedern nach hinten geht: Bei 100 % taucht das Heck beim Anfahren nicht ein. Das Differenzial sitzt am Aufbau.",
    antiLift:
      "Dasselbe beim Bremsen, mal den Anteil der Hinterräder, θ die Neigung des Aufstandspunkts am blockierten Rad; bei Bremsen am Differenzial die der Radmitte. Bei 100 % hebt sich das Heck nicht.",
    barTurn:
      "Wie weit sich der Arm des Stabilisators gegenüber gezeichnet um ihn dreht. Verdreht ist der Stabilisator um dies weniger das der anderen Seite.",
    dropLink:
      "Winkel zwischen Koppelstange und Arm, wie er für den Hebel zählt: 90° ist rechtwinklig, nahe 0° kann der Arm durchschlagen.",
  },
  define: "{{name}}: was das ist",
  shownAs: "Gezeigt: {{meaning}}.",
  values: { percent: "{{percent}} %", perTravel: { mm: "{{angle}}/10 mm", in: "{{angle}}/in" } },
};
