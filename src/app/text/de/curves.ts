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
  },
};
