import type { setupQuestions as english } from "../en/setupQuestions.ts";
import type { Translation } from "../translation.ts";

const TUBE =
  "Über Rohr oder Stange, an der dicksten Stelle zwischen den Enden. Die wahre Form lässt sich später zeichnen.";
const ON_CHASSIS =
  "Die Mitte von Gummilager oder Kugel am Rahmen, bei Fahrhöhe: Hilfsschraube durch den Halter, gemessen zur Mitte zwischen den Laschen.";
const ON_HUB =
  "Die Mitte von Kugel oder Gummilager am Radträger, bei Fahrhöhe: Hilfsschraube und Kegel, Lot zum Boden für vor und außen.";
const MIDDLE =
  "Die Mitte des Quaders, in den es gerade passen würde, die Antriebseinheit in ihrer Höhe und Neigung aufgebockt.";
const OVER_ALL = "Über alles, mit Messschieber oder einem Winkel an der Seite: 3 bis 5 mm genügen.";
const LEFT_ONE = "Den linken messen; rechts steht sein Spiegelbild.";
const ON_LINE = "Auf der Mittellinie des Profils, an seinem Ende oder wo es diese Ecke verlässt.";
const CALIPERS = "Außen, mit Messschieber.";
const STROKE = "Seine Länge zusammengeschoben und ausgezogen sagt, wie weit sich das Rad wirklich bewegen kann.";
const PUSHED = "Zwischen den Mitten der beiden Gelenke, das innere Gelenk ganz eingeschoben.";
const PULLED = "Zwischen den Mitten der beiden Gelenke, gezogen, bis das innere Gelenk loslassen würde.";

/** Of each question of the guided set-up, by its id: the question, how to measure, and what the answer is called. */
export const setupQuestions: Translation<typeof english> = {
  title: {
    ask: "Wie soll diese Ecke heißen?",
    how: "Der Name steht auf Arbeitskarten und in der Liste der Projekte.",
    name: "Name",
  },
  sides: {
    ask: "Welche Seiten des Autos werden geprüft?",
    how: "Die linke Ecke messen. Die rechte ist ihr Spiegelbild; Motor, Getriebe und Auspuff stehen, wo sie sind, also treffen die beiden Seiten auf Verschiedenes.",
    name: "Seiten",
  },
  "wheel-tyre": {
    ask: "Welche Größe steht auf dem Reifen?",
    how: "Von der Flanke ablesen: Breite in mm, Höhe in Prozent davon, Felgendurchmesser in Zoll.",
    name: "Reifengröße",
  },
  "wheel-rimWidth_in": {
    ask: "Wie breit ist die Felge?",
    how: "In Zoll, zwischen den beiden Wülsten, die den Reifen halten. Auf einer Speiche oder innen eingeschlagen, etwa 6½J.",
    name: "Felgenbreite",
  },
  "wheel-rimOffset_mm": {
    ask: "Wie weit außerhalb der Felgenmitte liegt ihre Anlagefläche?",
    how: "Als ET mit einer Zahl in mm eingeschlagen, meist neben der Felgenbreite. Oder das Rad auf die Außenseite legen: Höhe bis zur Anlagefläche weniger die halbe Höhe über die Ränder. Plus: die Anlagefläche liegt außerhalb der Mitte.",
    name: "Einpresstiefe",
  },
  "wheel-centre": {
    ask: "Wo ist die Radmitte?",
    how: "Auto in Fahrhöhe auf ebenem Boden. Außen: Maßband von der Mittelschnur zu beiden Felgenrändern, davon die Mitte. Hoch: vom Boden zur Mitte der Nabe. Vor: nichts, wenn die Achslinie von diesem Rad aus gemessen ist.",
    name: "Radmitte",
  },
  "wheel-toe_deg": {
    ask: "Welche Spur hat das Rad bei Fahrhöhe?",
    how: "Dieses eine Rad gegen die Mittelschnur: plus ist Vorspur. Über eine Felge von 400 mm ist 1 mm zwischen vorderem und hinterem Rand 0.14°.",
    name: "Spur",
  },
  "wheel-camber_deg": {
    ask: "Welchen Sturz hat das Rad bei Fahrhöhe?",
    how: "Winkelmesser über die Felgenränder, senkrecht. Minus: oben nach innen geneigt.",
    name: "Sturz",
  },
  "arm-front": {
    ask: "Wo ist das vordere Gummilager des Arms?",
    how: "Die Mitte des Gummilagers, um das der Arm schwingt, bei Fahrhöhe. Ein Millimeter zur Seite lenkt das Rad um 0.12°: wenn möglich mit Maßband von drei Bolzen nehmen.",
    name: "Arm, vorderes Gummilager",
  },
  "arm-tube": { ask: "Wie dick ist der Arm?", how: TUBE, name: "Arm, Dicke" },
  "upper-in": {
    ask: "Wo ist das innere Ende des oberen Lenkers?",
    how: ON_CHASSIS,
    name: "oberer Lenker, inneres Ende",
  },
  "upper-out": { ask: "Wo ist das äußere Ende des oberen Lenkers?", how: ON_HUB, name: "oberer Lenker, äußeres Ende" },
  "upper-out-wishbone": {
    ask: "Wo ist das äußere Ende des oberen Dreieckslenkers?",
    how: ON_HUB,
    name: "oberer Dreieckslenker, äußeres Ende",
  },
  "upper-tube": { ask: "Wie dick ist der obere Lenker?", how: TUBE, name: "oberer Lenker, Dicke" },
  "upper-tube-wishbone": {
    ask: "Wie dick ist der obere Dreieckslenker?",
    how: TUBE,
    name: "oberer Dreieckslenker, Dicke",
  },
  "lower-in": {
    ask: "Wo ist das innere Ende des unteren Lenkers?",
    how: ON_CHASSIS,
    name: "unterer Lenker, inneres Ende",
  },
  "lower-out": {
    ask: "Wo ist das äußere Ende des unteren Lenkers?",
    how: ON_HUB,
    name: "unterer Lenker, äußeres Ende",
  },
  "lower-out-wishbone": {
    ask: "Wo ist das äußere Ende des unteren Dreieckslenkers?",
    how: ON_HUB,
    name: "unterer Dreieckslenker, äußeres Ende",
  },
  "lower-tube": { ask: "Wie dick ist der untere Lenker?", how: TUBE, name: "unterer Lenker, Dicke" },
  "lower-tube-wishbone": {
    ask: "Wie dick ist der untere Dreieckslenker?",
    how: TUBE,
    name: "unterer Dreieckslenker, Dicke",
  },
  "links-bush": {
    ask: "Was sind die inneren Enden der Lenker?",
    how: "Ein Gummilager auf einer längs liegenden Schraube hält den Lenker davon ab, sich um sich selbst zu drehen; zwischen zwei Kugelgelenken kann ein gekröpfter Lenker umschlagen.",
    name: "innere Enden der Lenker",
  },
  "travel-bump_mm": {
    ask: "Wie weit kann das Rad aus der Fahrhöhe einfedern?",
    how: "Bis der Anschlagpuffer fest ist. 50 bis 75 mm sind auf der Straße reichlich.",
    name: "Einfederweg",
  },
  "travel-droop_mm": {
    ask: "Wie weit kann das Rad unter die Fahrhöhe ausfedern?",
    how: "Bis der Dämpfer ganz ausgezogen ist oder das Fangband spannt.",
    name: "Ausfederweg",
  },
  "block-there": {
    ask: "Ist der Motorblock nahe an dieser Ecke?",
    how: "Was ein Lenker, Rohr oder Reifen treffen könnte, ist einen groben Quader wert. Feinere Formen oder ein Scan können später an seine Stelle.",
    name: "Motorblock",
  },
  "block-at": { ask: "Wo ist die Mitte des Motorblocks?", how: MIDDLE, name: "Motorblock, Mitte" },
  "block-length_mm": { ask: "Wie lang ist der Motorblock, längs?", how: OVER_ALL, name: "Motorblock, Länge" },
  "block-width_mm": { ask: "Wie breit ist der Motorblock, quer?", how: OVER_ALL, name: "Motorblock, Breite" },
  "block-height_mm": { ask: "Wie hoch ist der Motorblock?", how: OVER_ALL, name: "Motorblock, Höhe" },
  "sump-there": {
    ask: "Ist die Ölwanne nahe an dieser Ecke?",
    how: "Das Tiefste und oft das Breiteste an einem Motor.",
    name: "Ölwanne",
  },
  "sump-at": {
    ask: "Wo ist die Mitte des oberen Rands der Ölwanne?",
    how: "Die Fläche, mit der sie am Block verschraubt ist, in ihrer Mitte.",
    name: "Ölwanne, oberer Rand",
  },
  "sump-length_mm": { ask: "Wie lang ist die Ölwanne unter ihrem Rand, längs?", how: OVER_ALL, name: "Ölwanne, Länge" },
  "sump-width_mm": { ask: "Wie breit ist die Ölwanne unter ihrem Rand, quer?", how: OVER_ALL, name: "Ölwanne, Breite" },
  "sump-depth_mm": {
    ask: "Wie tief ist die Ölwanne unter ihrem Rand?",
    how: "Von der Unterseite des Rands zum tiefsten Punkt der Wanne, ohne die Ablassschraube.",
    name: "Ölwanne, Tiefe",
  },
  "gearbox-there": {
    ask: "Ist das Getriebe nahe an dieser Ecke?",
    how: "Neben dem Motor quer im Auto oder in einer Linie mit ihm.",
    name: "Getriebe",
  },
  "gearbox-at": { ask: "Wo ist die Mitte des Getriebes?", how: MIDDLE, name: "Getriebe, Mitte" },
  "gearbox-length_mm": { ask: "Wie lang ist das Getriebe, längs?", how: OVER_ALL, name: "Getriebe, Länge" },
  "gearbox-width_mm": { ask: "Wie breit ist das Getriebe, quer?", how: OVER_ALL, name: "Getriebe, Breite" },
  "gearbox-height_mm": { ask: "Wie hoch ist das Getriebe?", how: OVER_ALL, name: "Getriebe, Höhe" },
  "differential-there": {
    ask: "Ist das Differential nahe an dieser Ecke?",
    how: "Sein Gehäuse mit den Lagern, aus denen die Antriebswellen kommen.",
    name: "Differential",
  },
  "differential-at": { ask: "Wo ist die Mitte des Differentials?", how: MIDDLE, name: "Differential, Mitte" },
  "differential-length_mm": {
    ask: "Wie lang ist das Differential, längs?",
    how: OVER_ALL,
    name: "Differential, Länge",
  },
  "differential-width_mm": {
    ask: "Wie breit ist das Differential, quer?",
    how: OVER_ALL,
    name: "Differential, Breite",
  },
  "differential-height_mm": { ask: "Wie hoch ist das Differential?", how: OVER_ALL, name: "Differential, Höhe" },
  "rock-there": {
    ask: "Kippt die Antriebseinheit auf ihren Lagern?",
    how: "Auf Gummi immer: unter Last neigt sich die Nase zur einen, im Schub zur anderen Seite. Jedes Paar wird dann in beiden Lagen geprüft.",
    name: "Motorkippen",
  },
  "engine-rock": {
    ask: "Um welche Linie quer zum Auto kippt sie?",
    how: "Die Linie durch die beiden Hauptlager oder durch die Mitte von dreien. Nur vor und hoch zählen.",
    name: "Motorkippen, Achse",
  },
  "rock-pulling_deg": {
    ask: "Um wie viel kippt sie unter Last?",
    how: "Mit einer Stange am Kurbelende hebeln, Winkelmesser auf einer bearbeiteten Fläche. Plus: vorn geht nach unten. Weiche Lager 3, harte 1 Grad.",
    name: "Motorkippen unter Last",
  },
  "rock-overrun_deg": {
    ask: "Um wie viel kippt sie im Schub?",
    how: "Die andere Richtung: gegen die Lager gehebelt bewegt sie sich meist weniger.",
    name: "Motorkippen im Schub",
  },
  "upper-rail-there": {
    ask: "Gibt es einen oberen Längsträger neben dem Rad?",
    how: LEFT_ONE,
    name: "oberer Längsträger",
  },
  "upper-rail-a": {
    ask: "Wo endet der obere Längsträger hinten?",
    how: ON_LINE,
    name: "oberer Längsträger, hinteres Ende",
  },
  "upper-rail-b": {
    ask: "Wo endet der obere Längsträger vorn?",
    how: ON_LINE,
    name: "oberer Längsträger, vorderes Ende",
  },
  "upper-rail-height_mm": {
    ask: "Wie hoch ist das Profil des oberen Längsträgers?",
    how: CALIPERS,
    name: "oberer Längsträger, Profilhöhe",
  },
  "upper-rail-width_mm": {
    ask: "Wie breit ist das Profil des oberen Längsträgers?",
    how: CALIPERS,
    name: "oberer Längsträger, Profilbreite",
  },
  "lower-rail-there": { ask: "Gibt es einen unteren Längsträger?", how: LEFT_ONE, name: "unterer Längsträger" },
  "lower-rail-a": {
    ask: "Wo endet der untere Längsträger hinten?",
    how: ON_LINE,
    name: "unterer Längsträger, hinteres Ende",
  },
  "lower-rail-b": {
    ask: "Wo endet der untere Längsträger vorn?",
    how: ON_LINE,
    name: "unterer Längsträger, vorderes Ende",
  },
  "lower-rail-height_mm": {
    ask: "Wie hoch ist das Profil des unteren Längsträgers?",
    how: CALIPERS,
    name: "unterer Längsträger, Profilhöhe",
  },
  "lower-rail-width_mm": {
    ask: "Wie breit ist das Profil des unteren Längsträgers?",
    how: CALIPERS,
    name: "unterer Längsträger, Profilbreite",
  },
  "cross-tube-there": {
    ask: "Läuft hinter oder vor der Achse ein Querrohr?",
    how: "Von einer Seite des Autos zur anderen.",
    name: "Querrohr",
  },
  "cross-tube-a": { ask: "Wo ist das linke Ende des Querrohrs?", how: ON_LINE, name: "Querrohr, linkes Ende" },
  "cross-tube-b": {
    ask: "Wo ist das rechte Ende des Querrohrs?",
    how: "Außen von der Mittelebene ist minus für alles, was rechts liegt.",
    name: "Querrohr, rechtes Ende",
  },
  "cross-tube-diameter_mm": { ask: "Wie dick ist das Querrohr?", how: CALIPERS, name: "Querrohr, Dicke" },
  "damper-there": { ask: "Ist ein Dämpfer unterzubringen?", how: STROKE, name: "Dämpfer" },
  "damper-there-strut": { ask: "Ist der Dämpfer des Federbeins gewählt?", how: STROKE, name: "Dämpfer" },
  "damper-top": {
    ask: "Wo ist das obere Auge des Dämpfers?",
    how: "Die Mitte seiner Schraube, zwischen den Laschen.",
    name: "Dämpfer, oben",
  },
  "damper-bottom": {
    ask: "Wo ist das untere Auge des Dämpfers?",
    how: "Die Mitte seiner Schraube, das Auto in Fahrhöhe.",
    name: "Dämpfer, unten",
  },
  "damper-on": {
    ask: "Was hält das untere Ende des Dämpfers?",
    how: "An einem Arm oder Dreieckslenker bewegt sich der Dämpfer weniger als das Rad.",
    name: "unteres Ende des Dämpfers",
  },
  "damper-closed_mm": {
    ask: "Wie lang ist der Dämpfer ganz zusammengeschoben?",
    how: "Von Augenmitte zu Augenmitte; bei einem Stiftlager von der Schulter. Feder ab, ganz eingeschoben.",
    name: "Dämpfer, zusammengeschoben",
  },
  "damper-open_mm": {
    ask: "Wie lang ist der Dämpfer ganz ausgezogen?",
    how: "Von Augenmitte zu Augenmitte; bei einem Stiftlager von der Schulter. Frei hängend.",
    name: "Dämpfer, ausgezogen",
  },
  "damper-body_mm": { ask: "Wie dick ist das Rohr des Dämpfers?", how: CALIPERS, name: "Dämpfer, Rohr" },
  "spring-there": {
    ask: "Sitzt die Feder um den Dämpfer?",
    how: "Sie ist das Dickste am Dämpfer und trifft als Erstes auf einen Reifen.",
    name: "Feder",
  },
  "damper-spring_mm": {
    ask: "Wie dick ist die Feder außen?",
    how: "Über die Windungen, mit Messschieber.",
    name: "Feder, Durchmesser",
  },
  "damper-springRate_N_per_mm": {
    ask: "Wie hart ist die Feder?",
    how: "Auf ihr aufgedruckt, oft in Pfund je Zoll: mal 0.175 ergibt N/mm.",
    name: "Federrate",
  },
  "stop-there": {
    ask: "Sitzt ein Anschlagpuffer auf der Kolbenstange?",
    how: "Es sollte einer da sein, fest 5 bis 10 mm, bevor der Dämpfer anschlägt.",
    name: "Anschlagpuffer",
  },
  "damper-stopTouches_mm": {
    ask: "Wie lang ist der Dämpfer, wenn der Anschlagpuffer anliegt?",
    how: "Von Augenmitte zu Augenmitte; bei einem Stiftlager von der Schulter. Feder ab, eingeschoben, bis der Gummi das Rohr gerade berührt.",
    name: "Anschlagpuffer liegt an",
  },
  "damper-stopSolid_mm": {
    ask: "Wie lang ist der Dämpfer, wenn der Anschlagpuffer fest ist?",
    how: "Ein Gummi gibt etwa die Hälfte seiner Höhe nach, dann ist er so gut wie Stahl.",
    name: "Anschlagpuffer fest",
  },
  "bar-there": {
    ask: "Gibt es einen Stabilisator?",
    how: "Sein Arm überstreicht viel Raum, und seine Koppelstange kann umschlagen.",
    name: "Stabilisator",
  },
  "bar-pivot": {
    ask: "Wo dreht sich der Stabilisator?",
    how: "Die Mitte seines Gummilagers am Rahmen, auf der Linie des Stabilisators selbst.",
    name: "Stabilisator, Drehpunkt",
  },
  "bar-arm": {
    ask: "Wo ist das Ende des Stabilisatorarms?",
    how: "Das Loch oder die Kugel, woran die Koppelstange hängt.",
    name: "Stabilisator, Armende",
  },
  "bar-pickup": {
    ask: "Wo ist das andere Ende der Koppelstange?",
    how: "Kugel oder Schraube an Arm, Dreieckslenker oder Radträger.",
    name: "Koppelstange, anderes Ende",
  },
  "bar-on": {
    ask: "Woran hält sich die Koppelstange?",
    how: "Das Teil, auf dem ihre untere Kugel oder Schraube sitzt.",
    name: "Halt der Koppelstange",
  },
  "bar-diameter_mm": {
    ask: "Wie dick ist der Stabilisator?",
    how: "Außen, mit Messschieber, wo er gerade ist.",
    name: "Stabilisator, Dicke",
  },
  "shaft-there": {
    ask: "Gibt es eine Antriebswelle zu diesem Rad?",
    how: "Ihre Längen und Winkel werden über den ganzen Federweg geprüft.",
    name: "Antriebswelle",
  },
  "shaft-in": {
    ask: "Wo ist die Mitte des inneren Gelenks?",
    how: "Auf der Linie des Abtriebs selbst. Die Mitte der Kugeln oder Rollen des Gelenks bei Fahrhöhe, Tiefenmaß von seiner offenen Seite.",
    name: "Antriebswelle, inneres Gelenk",
  },
  "shaft-out": {
    ask: "Wo ist die Mitte des äußeren Gelenks?",
    how: "Auf der Linie des Rads selbst, innerhalb der Nabe: die Mitte des Gelenkkäfigs.",
    name: "Antriebswelle, äußeres Gelenk",
  },
  "shaft-diameter_mm": {
    ask: "Wie dick ist die Antriebswelle?",
    how: "Zwischen den Manschetten, mit Messschieber.",
    name: "Antriebswelle, Dicke",
  },
  "shaft-shortest_mm": { ask: "Wie kurz kann die Antriebswelle werden?", how: PUSHED, name: "Antriebswelle, kürzeste" },
  "shaft-longest_mm": { ask: "Wie lang kann die Antriebswelle werden?", how: PULLED, name: "Antriebswelle, längste" },
  "shaft-innerAngleLimit_deg": {
    ask: "Wie weit kann sich das innere Gelenk beugen?",
    how: "Auf der Werkbank, bis seine Teile sich berühren: je nach Bauart 22 bis 31 Grad.",
    name: "Beugung des inneren Gelenks",
  },
  "shaft-outerAngleLimit_deg": {
    ask: "Wie weit kann sich das äußere Gelenk beugen?",
    how: "Auf der Werkbank, bis seine Teile sich berühren: je nach Bauart 40 bis 50 Grad.",
    name: "Beugung des äußeren Gelenks",
  },
  "shaft-right": {
    ask: "Ist das rechte innere Gelenk das Spiegelbild des linken?",
    how: "Bei einem Motor, der zu einer Seite hin sitzt, nicht: dann hat die rechte Welle eine andere Länge.",
    name: "rechtes inneres Gelenk",
  },
  "shaft-right-inner": {
    ask: "Wo ist die Mitte des rechten inneren Gelenks?",
    how: "Wie links. Außen ist von der Mittelebene nach rechts gezählt.",
    name: "Antriebswelle, rechtes inneres Gelenk",
  },
  "shaft-right-shortest_mm": {
    ask: "Wie kurz kann die rechte Antriebswelle werden?",
    how: PUSHED,
    name: "rechte Antriebswelle, kürzeste",
  },
  "shaft-right-longest_mm": {
    ask: "Wie lang kann die rechte Antriebswelle werden?",
    how: PULLED,
    name: "rechte Antriebswelle, längste",
  },
  "gaps-default": {
    ask: "Welcher Abstand ist zwischen bewegten Teilen gewünscht?",
    how: "Ein Finger, 10 bis 15 mm, ist, was Prüfer zwischen einen gummigelagerten Motor und alles Feste stecken.",
    name: "gewünschter Abstand",
  },
  "gaps-tyre": {
    ask: "Welcher Abstand ist rings um den Reifen gewünscht?",
    how: "Reifen beulen und wachsen: 10 bis 15 mm über den ganzen Federweg.",
    name: "gewünschter Abstand um den Reifen",
  },
  "gaps-exhaust": {
    ask: "Welcher Abstand ist rings um den Auspuff gewünscht?",
    how: "25 mm zu abgeschirmten Dingen, 50 mm zu blanken Gummimanschetten.",
    name: "gewünschter Abstand um den Auspuff",
  },
  "upper-front": {
    ask: "Wo ist der vordere Drehpunkt des oberen Dreieckslenkers?",
    how: ON_CHASSIS,
    name: "oberer Dreieckslenker, vorderer Drehpunkt",
  },
  "upper-rear": {
    ask: "Wo ist der hintere Drehpunkt des oberen Dreieckslenkers?",
    how: ON_CHASSIS,
    name: "oberer Dreieckslenker, hinterer Drehpunkt",
  },
  "lower-front": {
    ask: "Wo ist der vordere Drehpunkt des unteren Dreieckslenkers?",
    how: ON_CHASSIS,
    name: "unterer Dreieckslenker, vorderer Drehpunkt",
  },
  "lower-rear": {
    ask: "Wo ist der hintere Drehpunkt des unteren Dreieckslenkers?",
    how: ON_CHASSIS,
    name: "unterer Dreieckslenker, hinterer Drehpunkt",
  },
  "toe-in": { ask: "Wo ist das innere Ende der Spurstange?", how: ON_CHASSIS, name: "Spurstange, inneres Ende" },
  "toe-out": { ask: "Wo ist das äußere Ende der Spurstange?", how: ON_HUB, name: "Spurstange, äußeres Ende" },
  "toe-tube": { ask: "Wie dick ist die Spurstange?", how: TUBE, name: "Spurstange, Dicke" },
  "arm-outer": {
    ask: "Wo ist das äußere Gummilager des Arms?",
    how: "Die Mitte von Gummilager oder Kugel am Rahmen, bei Fahrhöhe: Hilfsschraube durch den Halter, gemessen zur Mitte zwischen den Laschen. Zehn Millimeter hoch oder tief ändern die Spur über den Federweg um ein drittel Grad.",
    name: "Arm, äußeres Gummilager",
  },
  "arm-inner": { ask: "Wo ist das innere Gummilager des Arms?", how: ON_CHASSIS, name: "Arm, inneres Gummilager" },
  "leg-top": {
    ask: "Wo ist das obere Lager des Federbeins?",
    how: "Die Mitte der Kugel oder des Gummis, worin die Stange hängt, unter der Platte des Doms.",
    name: "Federbein, oberes Lager",
  },
  "leg-bottom": {
    ask: "Wo trifft die Mittellinie des Federbeins den Radträger?",
    how: "Auf der Mittellinie des Federbeins selbst, in Höhe der Klemme oder der beiden Schrauben des Radträgers.",
    name: "Federbein, unteres Ende",
  },
  "upper-front-in": {
    ask: "Wo ist das innere Ende des oberen vorderen Lenkers?",
    how: ON_CHASSIS,
    name: "oberer vorderer Lenker, inneres Ende",
  },
  "upper-front-out": {
    ask: "Wo ist das äußere Ende des oberen vorderen Lenkers?",
    how: ON_HUB,
    name: "oberer vorderer Lenker, äußeres Ende",
  },
  "upper-front-tube": {
    ask: "Wie dick ist der obere vordere Lenker?",
    how: TUBE,
    name: "oberer vorderer Lenker, Dicke",
  },
  "upper-rear-in": {
    ask: "Wo ist das innere Ende des oberen hinteren Lenkers?",
    how: ON_CHASSIS,
    name: "oberer hinterer Lenker, inneres Ende",
  },
  "upper-rear-out": {
    ask: "Wo ist das äußere Ende des oberen hinteren Lenkers?",
    how: ON_HUB,
    name: "oberer hinterer Lenker, äußeres Ende",
  },
  "upper-rear-tube": {
    ask: "Wie dick ist der obere hintere Lenker?",
    how: TUBE,
    name: "oberer hinterer Lenker, Dicke",
  },
  "lower-front-in": {
    ask: "Wo ist das innere Ende des unteren vorderen Lenkers?",
    how: ON_CHASSIS,
    name: "unterer vorderer Lenker, inneres Ende",
  },
  "lower-front-out": {
    ask: "Wo ist das äußere Ende des unteren vorderen Lenkers?",
    how: ON_HUB,
    name: "unterer vorderer Lenker, äußeres Ende",
  },
  "lower-front-tube": {
    ask: "Wie dick ist der untere vordere Lenker?",
    how: TUBE,
    name: "unterer vorderer Lenker, Dicke",
  },
  "lower-rear-in": {
    ask: "Wo ist das innere Ende des unteren hinteren Lenkers?",
    how: ON_CHASSIS,
    name: "unterer hinterer Lenker, inneres Ende",
  },
  "lower-rear-out": {
    ask: "Wo ist das äußere Ende des unteren hinteren Lenkers?",
    how: ON_HUB,
    name: "unterer hinterer Lenker, äußeres Ende",
  },
  "lower-rear-tube": {
    ask: "Wie dick ist der untere hintere Lenker?",
    how: TUBE,
    name: "unterer hinterer Lenker, Dicke",
  },
};
