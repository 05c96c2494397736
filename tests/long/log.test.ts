import { describe, expect, it } from "vitest";
import { type BuildLog, readLog, writeLog } from "../../src/buildlog/logfile.ts";
import { makeCard } from "../../src/buildlog/make.ts";
import { readHtmlLog, writeHtml } from "../../src/buildlog/report/html.ts";
import { unzipLog, zipLog } from "../../src/buildlog/report/zip.ts";
import { sealOf } from "../../src/buildlog/seal.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { Machine } from "../../src/work/machine.ts";
import { drawnPng } from "../buildlog/drawnPng.ts";
import { decision, photo, view } from "../buildlog/logs.ts";
import { SCENE_FILES } from "../scenes/files.ts";
import { checkAlone } from "../work/crew.ts";

const CARDS = 200;
const [WIDTH, HEIGHT] = [960, 600];

/** Every card with the whole scene, every pair of its check, a picture of its own and, now and then, a view and a photo more. */
async function longLog(): Promise<BuildLog> {
  const { name, document } = SCENE_FILES[0]!;
  const result = await checkAlone(new Machine(), document);
  const scene = resolveScene(document, name);
  const cards = Array.from({ length: CARDS }, (_, i) => {
    const card = makeCard({
      document,
      scene,
      result,
      fileName: name,
      title: `Upper link, cut ${i + 1}`,
      note: "Ünïcödé <b>kept</b>\r\nas typed ",
      unit: i % 2 === 0 ? "mm" : "in",
      travel_mm: { left: i % 60, right: -(i % 60) },
      pose: "rest",
      picture: { png: drawnPng(WIDTH, HEIGHT, [i, 120, 90]), width: WIDTH, height: HEIGHT },
      made: new Date(Date.UTC(2026, 0, 1) + i * 86_400_000),
      number: i + 1,
      usersOfPoint: () => [],
    });
    return i % 5 === 0 ? { ...card, views: [view()], photos: [photo()] } : card;
  });
  return { cards, decisions: [decision(), decision({ id: "d2", state: "accepted", why: "it never gets there" })] };
}

describe(`a log of ${CARDS} cards`, () => {
  it("comes back bit for bit from JSON, zip and page, and is written the same again", async () => {
    const log = await longLog();
    const options = { unit: "mm" as const };
    const json = writeLog(log);
    const fromJson = readLog(json, "log.json");
    // of every card all that is in it; compared whole, bytes would be compared as lists
    expect(fromJson.cards.map(sealOf)).toEqual(log.cards.map(sealOf));
    expect(fromJson.decisions).toEqual(log.decisions);
    expect(writeLog(fromJson)).toBe(json);
    const zip = zipLog(log, options);
    const fromZip = unzipLog(zip, "log.zip");
    expect(writeLog(fromZip)).toBe(json);
    expect(Buffer.compare(zipLog(fromZip, options), zip)).toBe(0);
    const page = writeHtml(log, options);
    const fromPage = readHtmlLog(page, "log.html");
    expect(writeLog(fromPage)).toBe(json);
    expect(writeHtml(fromPage, options)).toBe(page);
  });
});
