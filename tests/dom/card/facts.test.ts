import { describe, expect, it } from "vitest";
import { brokenLines } from "../../../src/app/card/drawing.ts";
import { checkedText, pointFacts, stateText, verdictFacts, wheelReadings } from "../../../src/app/card/facts.ts";
import { type CardPage, cardPages } from "../../../src/app/card/pages.ts";
import { pngSize } from "../../../src/app/card/pngSize.ts";
import { usualPaper } from "../../../src/app/card/printing.ts";
import { shortWhen } from "../../../src/app/card/when.ts";
import type { LimitVerdict } from "../../../src/check/result.ts";
import { card, pair, result } from "../../buildlog/fixture.ts";

describe("what a card says", () => {
  it("tells the state of the picture", () => {
    expect(stateText(card(), "mm")).toBe("+38 bump, engine on overrun");
    expect(stateText(card({ travel_mm: { left: 38, right: -38 } }), "mm")).toBe(
      "left +38 bump, right −38 droop, engine on overrun",
    );
  });

  it("tells what was checked, a limit that holds among what is clear", () => {
    expect(checkedText(card(), "mm")).toBe("2 clash, 1 tight, 2 clear; 2 engine poses; left side; mm");
  });

  it("lists what is open, worst first, and nothing that is clear", () => {
    expect(verdictFacts(card(), "mm").map((fact) => `${fact.name}: ${fact.closest}, wants ${fact.wants}`)).toEqual([
      "Ear, upper link (left): 6.2 too deep at +38, wants 10",
      "Arch, tyre (right): 3.1 too deep at +38, wants 15",
      "End cover, upper link (left): 2.8 off at +38, wants 10",
    ]);
  });

  it("gives inches for inches", () => {
    // 6.2 / 25.4 = 0.2441, 38 / 25.4 = 1.496, 10 / 25.4 = 0.394
    expect(verdictFacts(card(), "in")[0]).toMatchObject({ closest: "0.244 too deep at +1.50", wants: "0.39" });
  });

  it("tells a pair that is alike on both sides once, and a limit that is passed after what touches", () => {
    const limit = (side: "left" | "right"): LimitVerdict => ({
      side,
      what: "shaft-length",
      verdict: "clash",
      value: 450.1,
      limit: 447,
      at: { travel_mm: -70, pose: "rest" },
      passedAt_mm: -60,
    });
    const both = card({
      result: result({ pairs: [pair(), pair({ side: "right" })], limits: [limit("left"), limit("right")] }),
    });
    expect(verdictFacts(both, "mm").map((fact) => [fact.mark, fact.name, fact.wants])).toEqual([
      ["clash", "Ear, upper link (both)", "10"],
      ["limit", "Driveshaft length (both)", "≤ 447.0"],
    ]);
  });

  it("says which side is closer where they differ", () => {
    const offset = result({ pairs: [pair({ clearance_mm: -2 }), pair({ side: "right" })], limits: [] });
    expect(verdictFacts(card({ result: offset }), "mm").map((fact) => `${fact.name}: ${fact.closest}`)).toEqual([
      "Ear, upper link (both, right is closer): 6.2 too deep at +38",
    ]);
  });

  it("shows the closest pairs when nothing is open", () => {
    const clear = result({ pairs: [pair({ verdict: "clear", clearance_mm: 14 })], limits: [] });
    expect(verdictFacts(card({ result: clear }), "mm").map((fact) => fact.closest)).toEqual(["14.0 off at +38"]);
  });

  it("gives the points in question and the wheel's readings", () => {
    expect(pointFacts(card(), "mm")[0]).toEqual({
      name: "upper.in",
      title: "Upper link, inboard end",
      forward: "150.0",
      out: "392.0",
      up: "440.0",
    });
    expect(wheelReadings(card({ travel_mm: { left: 80, right: 80 } }).wheels[0]!, "mm")).toEqual([
      { name: "Toe, + is in", value: "+0.13°" },
      { name: "Camber", value: "−3.02°" },
      { name: "Half track", value: "741.7 mm" },
      { name: "Driveshaft length", value: "438.0 mm" },
    ]);
  });
});

describe("sharing a card out over sheets", () => {
  const verdicts = Array.from({ length: 61 }, (_, k) => ({
    key: String(k),
    mark: "clash" as const,
    name: String(k),
    closest: "",
    wants: "",
    pair: null,
  }));
  const points = Array.from({ length: 30 }, (_, k) => ({ name: String(k), title: "", forward: "", out: "", up: "" }));
  const names = (pages: readonly CardPage[]) => pages.flatMap((page) => page.verdicts.map((fact) => fact.name));

  it.each(["a4", "letter"] as const)("leaves nothing off on %s", (paper) => {
    const pages = cardPages(verdicts, points, paper, false);
    expect(names(pages)).toEqual(verdicts.map((fact) => fact.name));
    expect(pages.flatMap((page) => page.points)).toEqual(points);
    expect(pages.filter((page) => page.note)).toHaveLength(1);
  });

  it("takes one sheet for a short card", () => {
    expect(cardPages(verdicts.slice(0, 3), points.slice(0, 2), "letter", true)).toHaveLength(1);
  });
});

describe("a card's small things", () => {
  it("says when in the shortest clear way", () => {
    const at = (day: number, hour: number) => new Date(2026, 10, day, hour, 2).toISOString();
    const now = new Date(2026, 10, 14, 20, 0);
    expect(shortWhen(at(14, 9), now)).toBe("today 09:02");
    // 12 November 2026 is a Thursday
    expect(shortWhen(at(12, 21), now)).toBe("Thu 21:02");
    expect(shortWhen(at(1, 21), now)).toBe("1 Nov 2026");
  });

  it("reads a picture's size out of its header", () => {
    // signature, chunk length 13, "IHDR", width 2 × 256, height 3
    const header = [137, 80, 78, 71, 13, 10, 26, 10, 0, 0, 0, 13, 73, 72, 68, 82, 0, 0, 2, 0, 0, 0, 0, 3];
    expect(pngSize(Uint8Array.from(header))).toEqual({ width: 512, height: 3 });
  });

  it("takes Letter where Letter is used", () => {
    expect([usualPaper("en-US"), usualPaper("en-GB"), usualPaper("de")]).toEqual(["letter", "a4", "a4"]);
  });

  it("breaks lines at blanks, cuts a word that is too wide, keeps the builder's own breaks", () => {
    const lines = brokenLines("one two three\nfour abcdefghij", 7, (text) => text.length);
    expect(lines).toEqual(["one two", "three", "four", "abcdefg", "hij"]);
  });
});
