import { type BrowserContext, chromium, type Page } from "playwright-core";
import { makeCard } from "../../src/buildlog/make.ts";
import { loadScene } from "../../src/cli/loadScene.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { Machine } from "../../src/work/machine.ts";
import { drawnPng } from "../buildlog/drawnPng.ts";
import { serveBuiltApp } from "../builtApp.ts";
import { CHROMIUM_FLAGS, needChromium } from "../chromium.mjs";
import { mainThreadTasks, traced } from "./browserTrace.ts";
import { spreadOf, spreadText } from "./rounds.ts";

const CARDS = 200;
const VISITS = 3;
const SCENE = "scenes/1-hub-and-arm-donor-links.json";

/**
 * The build log opened with 200 cards of a sample scene in it, each with every pair of its check and a picture, in the built app in a
 * real browser: from the press until the timeline and the newest card stand.
 */
export async function benchLog(say: (line: string) => void): Promise<void> {
  const executablePath = needChromium();
  if (!executablePath) throw new Error("no Chromium found: set CHROMIUM to its path");
  const app = await serveBuiltApp();
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_FLAGS });
  try {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, reducedMotion: "reduce" });
    context.setDefaultTimeout(300_000);
    // without the picture of the car, which is none of this
    await context.addInitScript(() => {
      HTMLCanvasElement.prototype.getContext = () => null;
    });
    const page = await context.newPage();
    await page.goto(app.address);
    await page.getByRole("button", { name: "I will check on the car" }).click();
    await page.locator("main[aria-busy=false]").waitFor();
    const kilobytes = await fill(page);
    await page.close();
    // the first visit makes the rows of the timeline
    await visit(context, app.address);
    const visits: Visit[] = [];
    for (let i = 0; i < VISITS; i++) visits.push(await visit(context, app.address));
    const clock = spreadText(spreadOf(visits.map(({ clock_ms }) => clock_ms)));
    const processor = spreadText(spreadOf(visits.map(({ processor_ms }) => processor_ms)));
    say(`${CARDS} cards of ${kilobytes.toFixed(0)} kB each: ${clock} ms by the clock until the log stands,`);
    say(`of which the page's main thread had the processor for ${processor} ms.`);
  } finally {
    await browser.close();
    await app.close();
  }
}

/** Puts the cards where the app keeps them; gives back how large one is. */
async function fill(page: Page): Promise<number> {
  const { name, document, meshFiles } = await loadScene(SCENE);
  const machine = new Machine();
  const patient = { onProgress() {}, isStopped: () => false, breathe: () => Promise.resolve() };
  const result = await machine.check(machine.prepare(document, meshFiles, {}), name, patient);
  const { picture: _picture, ...card } = makeCard({
    document,
    scene: resolveScene(document, name),
    result,
    fileName: name,
    title: "Upper link",
    note: "",
    unit: "mm",
    travel_mm: { left: 0, right: 0 },
    pose: "rest",
    picture: null,
    made: new Date("2026-11-01T08:00:00Z"),
    number: 1,
    usersOfPoint: () => [],
  });
  const png = Buffer.from(drawnPng(960, 600, [90, 120, 90])).toString("base64");
  await page.evaluate(
    async ({ card, png, count }) => {
      const bytes = Uint8Array.from(atob(png), (letter) => letter.charCodeAt(0));
      const shelf = await new Promise<IDBDatabase>((resolve, reject) => {
        const asked = indexedDB.open("elbowroom-log");
        asked.onupgradeneeded = () => asked.result.createObjectStore("cards");
        asked.onsuccess = () => resolve(asked.result);
        asked.onerror = () => reject(asked.error);
      });
      for (let i = 1; i <= count; i++) {
        const made = new Date(Date.UTC(2026, 0, 1, 8) + i * 20 * 3_600_000).toISOString();
        const one = { ...card, id: `card${i}`, number: i, made, picture: { png: bytes, width: 960, height: 600 } };
        await new Promise<void>((resolve, reject) => {
          const put = shelf.transaction("cards", "readwrite").objectStore("cards").put(one, `card/${one.id}`);
          put.onsuccess = () => resolve();
          put.onerror = () => reject(put.error);
        });
      }
      shelf.close();
    },
    { card, png, count: CARDS },
  );
  return JSON.stringify(card).length / 1000;
}

interface Visit {
  readonly clock_ms: number;
  readonly processor_ms: number;
}

async function visit(context: BrowserContext, address: string): Promise<Visit> {
  const page = await context.newPage();
  await page.goto(address);
  await page.locator("main[aria-busy=false]").waitFor();
  let clock_ms = 0;
  const events = await traced(page, async () => {
    clock_ms = await page.evaluate<number>(PRESS_AND_WAIT);
  });
  await page.close();
  return { clock_ms, processor_ms: mainThreadTasks(events).reduce((sum, task) => sum + task.processor_ms, 0) };
}

/** As text: what compiles this file would put names of its own into a function, which the page does not know. */
const PRESS_AND_WAIT = `new Promise((resolve) => {
  const start = performance.now();
  const look = () => {
    const stands =
      document.querySelector('main.log[aria-busy=false] article[aria-label^="Card ${CARDS},"]') !== null &&
      document.querySelectorAll(".card-list li").length === ${CARDS};
    requestAnimationFrame(stands ? () => resolve(performance.now() - start) : look);
  };
  [...document.querySelectorAll("button")].find((button) => button.textContent === "Build log").click();
  look();
})`;
