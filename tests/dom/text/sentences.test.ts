import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readText } from "../../../src/app/text/text.ts";
import { directionText } from "../../../src/app/words/direction.ts";
import { engineText, nameOf, nameWithin } from "../../../src/app/words/names.ts";
import {
  limitCircumstance,
  limitSentence,
  pairCircumstance,
  pairSentence,
  plain,
} from "../../../src/app/words/sentences.ts";
import { travelRange, travelText } from "../../../src/app/words/travel.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { pairVerdict, smallScene } from "../../app/smallScene.ts";

const scene = resolveScene(smallScene());

beforeEach(() => readText("de"));
afterEach(() => readText("en"));

// words of the German trade (Spur, Sturz, Einfedern, Dreieckslenker): common practice, no source
describe("verdicts in German", () => {
  it("name parts by their ids, with the kind of part before them, and keep capitals within a sentence", () => {
    expect(nameOf("upper", scene)).toBe("Dreieckslenker upper");
    expect(nameWithin("bar-link", scene)).toBe("Koppelstange");
    expect(nameOf("oberer-lenker", { members: [{ id: "oberer-lenker", kind: "link" }] })).toBe("Oberer lenker");
  });

  it("say which part meets which, how deep and where", () => {
    expect(plain(pairSentence(pairVerdict(), scene, "mm"))).toBe(
      "Dreieckslenker upper berührt Gearbox mount ear: 6.2 mm zu tief bei +38 Einfedern",
    );
    expect(pairSentence(pairVerdict(), scene, "mm").strong).toBe("6.2 mm zu tief");
  });

  it("say how far apart a tight pair passes, and what is wanted", () => {
    const tight = pairVerdict({ clearance_mm: 2.8, verdict: "tight", at: { travel_mm: -70, pose: "pulling" } });
    expect(plain(pairSentence(tight, scene, "mm"))).toBe(
      "Dreieckslenker upper geht an Gearbox mount ear vorbei: 2.8 mm Abstand bei −70 Ausfedern",
    );
    expect(pairCircumstance(tight, null, "mm")).toBe("Links, Motor unter Zug; soll 10 mm");
    const twin = pairVerdict({ side: "right", clearance_mm: 4, verdict: "tight" });
    expect(pairCircumstance(tight, twin, "mm")).toBe("Beide Seiten, links ist näher, Motor unter Zug; soll 10 mm");
  });

  it("tell a limit that is passed and by which end", () => {
    const limit = {
      side: "left",
      what: "shaft-length",
      verdict: "clash",
      value: 450.1,
      limit: 447,
      passedAt_mm: -45,
      at: { travel_mm: -70, pose: "rest" },
    } as const;
    expect(plain(limitSentence(limit, null, "mm"))).toBe("Antriebswelle ist 3.1 mm zu kurz bei −70 Ausfedern");
    expect(limitCircumstance(limit, null, scene, "mm")).toBe(
      "Links, Motor in Ruhe, ab −45 Ausfedern; 450.1 mm, Grenze 447.0 mm",
    );
  });

  it("tell travel, ways and the engine", () => {
    expect(travelText(0, "mm")).toBe("Fahrhöhe");
    expect(travelRange(-6, 80, "mm")).toBe("−6 bis +80");
    expect(directionText([-0.8, 0.1, 0.59], "left")).toBe("nach hinten und nach oben");
    expect(engineText("overrun", 0.4)).toBe("Motor 40 % auf dem Weg zu Schub");
  });
});
