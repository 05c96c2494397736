import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { mayBeLog, readAnyLog } from "../../src/buildlog/anyLog.ts";
import { type BuildLog, isLogText, readLog, writeLog } from "../../src/buildlog/logfile.ts";
import { writeHtml } from "../../src/buildlog/report/html.ts";
import { zipLog } from "../../src/buildlog/report/zip.ts";
import { sealOf, sha256Of } from "../../src/buildlog/seal.ts";
import { InputError } from "../../src/scene/error.ts";
import { card } from "./fixture.ts";
import { fullLog, photo } from "./logs.ts";

function errorOf(run: () => unknown): InputError {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("nothing was thrown");
}

const bytesOf = (text: string) => new TextEncoder().encode(text);
const MM = { unit: "mm" } as const;
const KINDS: [string, (log: BuildLog) => Uint8Array][] = [
  ["JSON", (log) => bytesOf(writeLog(log))],
  ["zip", (log) => zipLog(log, MM)],
  ["HTML", (log) => bytesOf(writeHtml(log, MM))],
];

describe("the seal", () => {
  // SHA-256 of "abc": FIPS 180-4, example in NIST's "Cryptographic Standards and Guidelines: Example Values"
  it("is the published hash", () => {
    expect(sha256Of("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  });

  it("of a card changes with any byte of a photo", () => {
    const one = card({ photos: [photo()] });
    const bytes = one.photos[0]!.bytes.slice();
    bytes[500]! ^= 1;
    expect(sealOf({ ...one, photos: [{ ...one.photos[0]!, bytes }] })).not.toBe(sealOf(one));
  });
});

describe.each(KINDS)("the log as %s", (_, write) => {
  it("comes back as it was, to the last bit", () => {
    const log = fullLog();
    const file = write(log);
    expect(mayBeLog(file.subarray(0, 200))).toBe(true);
    const read = readAnyLog(file, "log");
    expect(read).toStrictEqual(log);
    // and what is written of it again is the same file
    expect(sha256Of(write(read))).toBe(sha256Of(file));
  });

  it("without a card comes back too", () => {
    expect(readAnyLog(write({ cards: [], decisions: [] }), "log")).toEqual({ cards: [], decisions: [] });
  });

  it("is told to be cut off, not read by half", () => {
    const file = write(fullLog());
    expect(() => readAnyLog(file.subarray(0, file.length * 0.7), "log")).toThrow(InputError);
  });
});

describe("a log that was changed after it was saved", () => {
  const text = writeLog(fullLog());

  it.each([
    ["a word of a card", /"revision":"A"/, '"revision":"B"', "cards[0]"],
    ["a decision", /"owner":"Kim"/, '"owner":"Pat"', "sha256"],
    ["its own seal", /"sha256":"./, '"sha256":"x', "sha256"],
  ])("is refused: %s", (_, found, by, path) => {
    const error = errorOf(() => readLog(text.replace(found, by), "log.json"));
    expect([error.code, error.path]).toEqual(["checksum", path]);
  });

  it("is refused where a card is left out, or the order turned", () => {
    const log = JSON.parse(text);
    expect(errorOf(() => readLog(JSON.stringify({ ...log, cards: log.cards.slice(1) }), "l")).code).toBe("checksum");
    const turned = { ...log, cards: [...log.cards].reverse() };
    expect(errorOf(() => readLog(JSON.stringify(turned), "l")).code).toBe("checksum");
  });

  it("is refused where a picture is another one", () => {
    const [first, ...rest] = fullLog().cards;
    const zip = zipLog({ cards: [first!, ...rest], decisions: [] }, MM);
    // stored as it is, so the picture can be found in the zip: its bytes end in 200, 0, 255
    const at = zip.findIndex((_, i) => zip[i] === 200 && zip[i + 1] === 0 && zip[i + 2] === 255);
    zip[at] = 201;
    expect(errorOf(() => readAnyLog(zip, "log.zip")).code).toBe("checksum");
  });
});

describe("reading a log", () => {
  it("of version 1 gives its cards, with nothing decided", () => {
    const text = readFileSync(new URL("../fixtures/build-log-version-1.json", import.meta.url), "utf8");
    const { cards, decisions } = readLog(text, "log.json");
    expect(decisions).toEqual([]);
    expect(cards.map(({ number, title }) => [number, title])).toEqual([
      [3, "Donor links hung in"],
      [4, "Upper link 20 back"],
    ]);
    expect(cards[0]).toMatchObject({ version: 2, revision: "", views: [], photos: [], pose: "overrun" });
    // what was in the file is in the card still
    const [old] = JSON.parse(text).cards;
    expect(JSON.parse(JSON.stringify({ ...cards[0], picture: null }))).toEqual({
      ...old,
      version: 2,
      revision: "",
      views: [],
      photos: [],
      picture: null,
    });
  });

  it("says which card and field is wrong", () => {
    const text = writeLog({ cards: [card(), card()], decisions: [] });
    const error = errorOf(() => readLog(text.replace(/"number":12(?![\s\S]*"number":12)/, '"number":-1'), "l.json"));
    expect([error.file, error.path]).toEqual(["l.json", "cards[1].number"]);
  });

  it("refuses an accepted clash without a reason", () => {
    const text = writeLog(fullLog()).replace(/"state":"open"/, '"state":"accepted"');
    expect(errorOf(() => readLog(text, "l.json")).path).toBe("decisions[0].why");
  });

  it("refuses a photo that is a drawing made of markup", () => {
    const svg = bytesOf("<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>");
    const text = writeLog({ cards: [{ ...card(), photos: [photo()] }], decisions: [] });
    const [jpeg, drawn] = [photo().bytes, svg].map((bytes) => btoa(String.fromCharCode(...bytes)));
    expect(errorOf(() => readLog(text.replace(jpeg!, drawn!), "l")).path).toBe("cards[0].photos[0].bytes");
    // nor is it ever written
    expect(errorOf(() => writeLog({ cards: [card({ photos: [photo({ bytes: svg })] })], decisions: [] })).path).toBe(
      "photos[0].bytes",
    );
  });

  it.each([
    ["{", "not-json"],
    ['{"format":"something","cards":[]}', "wrong-format"],
    ['{"format":"elbowroom.log","version":3,"cards":[]}', "wrong-version"],
    ["<!doctype html><p>else", "not-json"],
  ])("refuses %s", (text, code) => {
    expect(errorOf(() => readAnyLog(bytesOf(text), "log.json")).code).toBe(code);
  });

  it("knows a log by its beginning", () => {
    expect(isLogText(writeLog(fullLog()))).toBe(true);
    expect(mayBeLog(bytesOf('{ "format": "elbowroom.scene"'))).toBe(false);
  });
});
