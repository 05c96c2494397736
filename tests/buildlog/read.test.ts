import { describe, expect, it } from "vitest";
import { isLogText, readLog, writeLog } from "../../src/buildlog/logfile.ts";
import { readCard } from "../../src/buildlog/read.ts";
import { InputError } from "../../src/scene/error.ts";
import { card, PNG } from "./fixture.ts";

function errorOf(run: () => unknown): InputError {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("nothing was thrown");
}

describe("a stored card", () => {
  it("comes back as it was", () => {
    const kept = card();
    expect(readCard(structuredClone(kept))).toEqual(kept);
  });

  it("keeps how far the engine had got on its way to a pose", () => {
    const [pair] = card().pairs;
    const kept = { ...card({ share: 0.375 }), pairs: [{ ...pair!, at: { ...pair!.at, share: 0.375 } }] };
    expect(kept.share).toBe(0.375);
    expect(readCard(structuredClone(kept))).toEqual(kept);
  });

  it("with a number that is not one is refused by its path", () => {
    const kept = { ...card(), pairs: [{ ...card().pairs[0], clearance_mm: Number.NaN }] };
    expect(errorOf(() => readCard(kept)).path).toBe("pairs[0].clearance_mm");
  });

  it("whose scene is not one is refused by the path within it", () => {
    const kept = { ...card(), document: { ...card().document, travel: { bump_mm: 80, droop_mm: 70 } } };
    expect(errorOf(() => readCard(kept)).path).toBe("document.travel.step_mm");
  });

  it("of a newer version is refused, not misread", () => {
    expect(errorOf(() => readCard({ ...card(), version: 2 })).code).toBe("wrong-version");
  });

  it("whose picture is something else is refused", () => {
    const kept = { ...card(), picture: { png: Uint8Array.of(60, 115, 118, 103, 0, 0, 0, 0), width: 1, height: 1 } };
    expect(errorOf(() => readCard(kept)).path).toBe("picture.png");
  });
});

describe("the log as one file", () => {
  it("gives every card back, pictures too", () => {
    const big = new Uint8Array(100_000).map((_, index) => (index * 31) % 256);
    big.set(PNG);
    const cards = [card(), card({ number: 13, picture: { png: big, width: 40, height: 30 } }), card({ picture: null })];
    const text = writeLog(cards);
    expect(isLogText(text)).toBe(true);
    expect(readLog(text, "log.json")).toEqual(cards);
  });

  it("says which card and field is wrong", () => {
    const text = writeLog([card(), card()]).replace(/"number": 12(?![\s\S]*"number": 12)/, '"number": -1');
    const error = errorOf(() => readLog(text, "log.json"));
    expect([error.file, error.path]).toEqual(["log.json", "cards[1].number"]);
  });

  it.each([
    ["{", "not-json"],
    ['{"format":"something","cards":[]}', "wrong-format"],
    ['{"format":"elbowroom.log","version":2,"cards":[]}', "wrong-version"],
  ])("refuses %s", (text, code) => {
    expect(errorOf(() => readLog(text, "log.json")).code).toBe(code);
  });
});
