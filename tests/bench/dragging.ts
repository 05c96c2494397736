import { type BrowserContext, chromium, type Locator, type Page } from "playwright-core";
import { serveBuiltApp } from "../builtApp.ts";
import { CHROMIUM_FLAGS, needChromium } from "../chromium.mjs";
import { mainThreadTasks, type Task, traced } from "./browserTrace.ts";
import { figure, spreadOf, spreadText } from "./rounds.ts";

const MOVES = 60;
const VISITS = 3;
/** Single moves after which the hand rests, and how long. */
const RESTS = 8;
const REST_ms = 800;
/** Tasks of the page should be shorter, so that a frame is never late for them. */
const MOST_ms = 8;

/** The scenes with the most pairs and with the most triangles, and a point of each whose arm up stands free. */
const HEAVIEST = [
  ["Double wishbones with a toe link", "Upper wishbone, front mount"],
  ["Five links", "Upper front link, inboard end"],
] as const;

/**
 * A hard point pulled by the mouse in the first sample scene and in the heaviest, in the built app in a real browser: how long the page's tasks take
 * its main thread (of the processor, whatever else the machine does), and how long after the pointer the picture, the
 * wheel's angles and the verdicts follow; once more with the loads open, and with the running gear. Then the time to a first
 * picture with everything cached. All of it twice: as the browser draws in software here, which takes the processors that the
 * app would have, and with the triangles left out that a graphics card would draw, which leaves what is the app's own.
 */
export async function benchDragging(say: (line: string) => void): Promise<void> {
  const executablePath = needChromium();
  if (!executablePath) throw new Error("no Chromium found: set CHROMIUM to its path");
  const app = await serveBuiltApp();
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_FLAGS });
  try {
    for (const draws of [true, false]) {
      say(draws ? "Drawn in software:" : "The same without the triangles:");
      const viewport = { width: 1440, height: 900 };
      // what watches the page is put into it as text, which the page's own policy refuses
      const context = await browser.newContext({ viewport, reducedMotion: "reduce", bypassCSP: true });
      context.setDefaultTimeout(120_000);
      if (!draws) await context.addInitScript(WITHOUT_TRIANGLES);
      await benchIn(await context.newPage(), app.address, say);
      await context.close();
    }
  } finally {
    await browser.close();
    await app.close();
  }
}

async function benchIn(page: Page, address: string, say: (line: string) => void): Promise<void> {
  await page.goto(address);
  await page.getByRole("button", { name: "I will check on the car" }).click();
  await page.locator("main[aria-busy=false]").waitFor();
  const [first, ...others] = [["Hub-and-arm, donor links", "Upper link, inboard end"], ...HEAVIEST] as const;
  for (const [scene, point] of others) {
    await openScene(page, scene);
    say(`${scene}:`);
    for (const line of await pullIn(page, point)) say(line);
  }
  await openScene(page, first[0]);
  say(`${first[0]}:`);
  const pull = () => pullIn(page, first[1]);
  for (const line of await pull()) say(line);
  await openLoads(page);
  say("With the loads open, their forces as arrows and in the table:");
  for (const line of await pull()) say(line);
  for (const tab of ["Shaft", "Roll and side"]) {
    await openGear(page, tab);
    say(`With the running gear open at ${tab}:`);
    for (const line of await pull()) say(line);
  }
  const visits: number[] = [];
  await page.close();
  for (let i = 0; i < VISITS; i++) visits.push(await firstPicture(page.context(), address));
  say(`First picture of a scene, everything cached: ${spreadText(spreadOf(visits))} ms by the clock.`);
}

/** Puts back what was pulled, and opens a sample scene. */
async function openScene(page: Page, scene: string): Promise<void> {
  await putBack(page);
  await page
    .getByRole("button", { name: /^Corner$/ })
    .first()
    .click();
  await page.getByRole("button", { name: /^Scene: / }).click();
  await page.getByRole("menuitem", { name: scene }).click();
  await page.getByRole("button", { name: `Scene: ${scene}` }).waitFor();
  await page.locator("main[aria-busy=false]").waitFor();
}

/** Puts back what was pulled, and opens the loads with what a wheel carries told. */
async function openLoads(page: Page): Promise<void> {
  await putBack(page);
  await page
    .getByRole("button", { name: /^Corner$/ })
    .first()
    .click();
  await page.keyboard.press("l");
  await page.getByRole("button", { name: "Tell the mass…" }).click();
  await page.getByRole("textbox", { name: "Mass on the wheel" }).fill("290");
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.locator(".load-table").waitFor();
  await page.locator("main[aria-busy=false]").waitFor();
}

/** Puts back what was pulled, and opens a tab of the running gear. */
async function openGear(page: Page, tab: string): Promise<void> {
  await putBack(page);
  await page
    .getByRole("button", { name: /^Corner$/ })
    .first()
    .click();
  if (!(await page.locator(".gear-scroll").isVisible())) await page.keyboard.press("r");
  await page.getByRole("button", { name: tab, exact: true }).click();
  await page.locator(".gear-table").first().waitFor();
  await page.locator("main[aria-busy=false]").waitFor();
}

/** Escape closes what lies over the view before it puts a move back. */
async function putBack(page: Page): Promise<void> {
  const tag = page.locator(".drag-tag");
  for (let i = 0; i < 5 && (await tag.isVisible()); i++) {
    await page.keyboard.press("Escape");
    await page.waitForTimeout(REST_ms);
  }
  await tag.waitFor({ state: "detached" });
}

/** The middle of what no longer moves in the picture, px. */
async function whereItRests(spot: Locator): Promise<[number, number]> {
  let last = "";
  for (let i = 0; i < 50; i++) {
    const box = await spot.boundingBox();
    if (box && JSON.stringify(box) === last) return [box.x + box.width / 2, box.y + box.height / 2];
    last = JSON.stringify(box);
    await spot.page().waitForTimeout(REST_ms / 2);
  }
  throw new Error("the point has no arm to pull, or it never rests");
}

async function pullIn(page: Page, point: string): Promise<string[]> {
  await page
    .getByRole("button", { name: /^Points( & parts)?$/ })
    .first()
    .click();
  // the point stays held from one pull to the next
  const row = page.locator("button.point-row", { hasText: point });
  if (await row.isVisible()) await row.click();
  await page.locator(".held-mark .held").waitFor();
  const [x, y] = await whereItRests(page.locator(".held-mark .arm", { hasText: "up" }).locator("circle"));
  await page.mouse.move(x, y);
  await page.mouse.down();
  // what is made once is made now
  for (let i = 0; i < 10; i++) await page.mouse.move(x, y - 8 - i);
  await page.locator(".drag-tag").waitFor();
  await page.evaluate(WATCH);
  const trace = await traced(page, async () => {
    for (let i = 0; i < MOVES; i++) {
      await page.mouse.move(x + (i % 3), y - 10 - 30 * Math.abs(Math.sin(i / 9)));
      await page.waitForTimeout(16);
    }
  });
  const { frames, way, angles } = (await page.evaluate("window.pulled")) as Pulled;
  await page.evaluate("window.pulled.verdicts.length = 0");
  for (let i = 0; i < RESTS; i++) {
    await page.mouse.move(x, y - 10 - 3 * i);
    await page.waitForTimeout(REST_ms);
  }
  const verdicts = (await page.evaluate("window.pulled.verdicts")) as number[];
  await page.mouse.up();
  const tasks = mainThreadTasks(trace);
  const long = tasks.filter(({ processor_ms }) => processor_ms > MOST_ms);
  const longest = Math.max(...tasks.map(({ processor_ms }) => processor_ms));
  return [
    `${MOVES} moves in ${frames} frames: ${tasks.length} tasks of the page's main thread, ${long.length} over ${MOST_ms} ms, the longest ${figure(longest)} ms of the processor.`,
    ...kinds(long),
    `By the clock, the way beside the point follows the pointer after ${spreadText(spreadOf(way))} ms (${way.length} times), lengths and angles after ${spreadText(spreadOf(angles))} ms (${angles.length});`,
    verdicts.length > 0
      ? `where the hand rests, every verdict is there after ${spreadText(spreadOf(verdicts))} ms (${verdicts.length} of ${RESTS}).`
      : `where the hand rests, no verdict came within ${REST_ms} ms.`,
  ];
}

/** What the long tasks are, by what the browser calls the longest part of each. */
function kinds(tasks: readonly Task[]): string[] {
  const byKind = new Map<string, number[]>();
  for (const { kind, processor_ms } of tasks) byKind.set(kind, [...(byKind.get(kind) ?? []), processor_ms]);
  return [...byKind].map(([kind, all]) => `  ${kind}: ${all.length}, ${spreadText(spreadOf(all))} ms`);
}

/** From the start of a visit to the end of the first frame with the car in it, by the page's own clock. */
async function firstPicture(context: BrowserContext, address: string): Promise<number> {
  const page = await context.newPage();
  await page.goto(address);
  const mark = `performance.getEntriesByName("first picture")[0]?.startTime ?? 0`;
  await page.waitForFunction(mark);
  const at_ms = (await page.evaluate(mark)) as number;
  await page.close();
  return at_ms;
}

/** In the page, as text: a bundler's helpers are not there. Every call of the picture's is made; none fills a pixel. */
const WITHOUT_TRIANGLES = `for (const name of ["drawElements", "drawArrays", "drawElementsInstanced", "drawArraysInstanced"])
  WebGL2RenderingContext.prototype[name] = () => {};`;

/** What WATCH keeps in the page: ms from the first raw move of the pointer to the text that follows it. */
interface Pulled {
  readonly frames: number;
  readonly way: number[];
  readonly angles: number[];
}

const WATCH = `(() => {
  const pulled = { frames: 0, way: [], angles: [], verdicts: [] };
  window.pulled = pulled;
  const since = { way: 0, angles: 0 };
  let asked = 0;
  window.addEventListener("pointerrawupdate", ({ timeStamp }) => {
    since.way ||= timeStamp;
    since.angles ||= timeStamp;
    asked = timeStamp;
  }, true);
  const tag = document.querySelector(".drag-tag");
  const tell = (which) => {
    if (since[which] > 0) pulled[which].push(performance.now() - since[which]);
    since[which] = 0;
  };
  new MutationObserver((changes) => {
    const isAngle = ({ target }) => (target.parentElement ?? target).closest(".tabular");
    tell("way");
    if (changes.some(isAngle)) tell("angles");
    if (asked === 0 || !/leaves/.test(tag.textContent) || /moment ago/.test(tag.textContent)) return;
    pulled.verdicts.push(performance.now() - asked);
    asked = 0;
  }).observe(tag, { subtree: true, childList: true, characterData: true });
  const count = () => { pulled.frames++; requestAnimationFrame(count); };
  count();
})()`;
