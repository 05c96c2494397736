import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { BrowserContext, Page } from "playwright-core";
import { preview } from "vite";
import { describe, expect, it } from "vitest";
import { keptStep } from "./kept.ts";
import { putNewBuild } from "./newBuild.ts";
import { browserApp, untilChecked, verdictsOf } from "./openApp.ts";

const app = browserApp();
const root = fileURLToPath(new URL("../..", import.meta.url));

async function untilOpen(page: Page): Promise<void> {
  await page.getByRole("button", { name: /^Scene: / }).waitFor();
  await page.getByRole("button", { name: /^Undo/ }).first().waitFor();
}

const out = (page: Page) => page.getByRole("textbox", { name: "Out" });

/** Takes the point in hand: its fields are there from now on. */
async function hold(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Points & parts" }).click();
  await page.locator("button.point-row", { hasText: "Upper link, inboard end" }).click();
  await out(page).waitFor();
}

/** Tries a move of the point in hand, by typing. */
async function tryMove(page: Page, by: string): Promise<void> {
  await out(page).fill(`${await out(page).inputValue()}${by}`);
  await page.getByText("not kept yet").first().waitFor();
}

async function keepMove(page: Page, by: string): Promise<void> {
  await tryMove(page, by);
  await page.getByRole("button", { name: "Keep this move" }).click();
  await page
    .getByRole("button", { name: /^Undo: / })
    .first()
    .waitFor();
}

/** Does something to every worker that the page has. */
async function inWorkers(page: Page, what: () => void): Promise<void> {
  const workers = page.workers();
  expect(workers.length).toBeGreaterThan(0);
  for (const worker of workers) await worker.evaluate(what);
}

const startedAnew = (page: Page) => page.getByText(/^Part of the program stopped .* started anew/);

describe("workers in the middle of a job", { timeout: 400_000 }, () => {
  it("may end without a word, run out of memory, and not come back at once: it is said, and the check is done all the same", async () => {
    const { page, context } = await app.open({ noPicture: true });
    await untilChecked(page);
    const before = await verdictsOf(page);
    await hold(page);

    // the next job begins, and at its first breath there is no worker any more
    await inWorkers(page, () => addEventListener("message", () => self.close(), { once: true }));
    await keepMove(page, "+5");
    await page.getByRole("button", { name: "Corner", exact: true }).click();
    await startedAnew(page).waitFor();
    await page
      .getByRole("status")
      .filter({ has: startedAnew(page) })
      .getByRole("button", { name: "Close" })
      .click();
    await untilChecked(page);
    const moved = await verdictsOf(page);
    expect(moved).not.toEqual(before);

    // the next job's arrays do not fit any more
    await inWorkers(page, () => {
      const full = () => {
        throw new RangeError("Array buffer allocation failed");
      };
      globalThis.Float64Array = new Proxy(Float64Array, { construct: full });
    });
    await page.getByRole("button", { name: "Points & parts" }).click();
    await keepMove(page, "+5");
    await page.getByRole("button", { name: "Corner", exact: true }).click();
    await startedAnew(page).filter({ hasText: "out of memory" }).waitFor();
    await untilChecked(page);
    expect(await verdictsOf(page)).not.toEqual(moved);

    // the program of new workers cannot be had either: that is the end of it, until it can
    await context.route(/machine\.worker/, (route) => route.abort());
    await inWorkers(page, () => self.close());
    await page.getByRole("button", { name: "Points & parts" }).click();
    await keepMove(page, "-10");
    const step = await page.getByRole("button", { name: /^Undo/ }).first().getAttribute("aria-label");
    await page.getByRole("button", { name: "Corner", exact: true }).click();
    await page.getByText(/^The check broke off: /).waitFor();
    await context.unroute(/machine\.worker/);
    await page.getByRole("button", { name: "Check again" }).click();
    await page.getByText(/^The check broke off: /).waitFor({ state: "detached" });
    await untilChecked(page);
    expect(await verdictsOf(page)).toEqual(before);
    await page.reload();
    await untilOpen(page);
    expect(await page.getByRole("button", { name: /^Undo/ }).first().getAttribute("aria-label")).toBe(step);
    await context.close();
  });
});

describe("the browser's storage", { timeout: 400_000 }, () => {
  it("with damaged records opens what is whole, and says what is not", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    await untilOpen(page);
    await hold(page);
    for (let i = 0; i < 2; i++) await keepMove(page, "+1");
    await expect.poll(() => keptStep(page)).toBe(2);
    await page.evaluate(
      () =>
        new Promise<void>((resolve, reject) => {
          const opening = indexedDB.open("elbowroom-projects");
          opening.onsuccess = () => {
            const stores = opening.result.transaction(["projects", "steps", "settings"], "readwrite");
            const projects = stores.objectStore("projects");
            projects.put({ id: "half", title: 7, meshes: null });
            projects.getAllKeys().onsuccess = ({ target }) => {
              const [mine] = (target as IDBRequest<string[]>).result.filter((key) => key !== "half");
              const damaged = { project: mine, index: 2, stepName: "x", fileName: "x", whole: { points: 3 }, size: 1 };
              stores.objectStore("steps").put(damaged);
            };
            stores.objectStore("settings").put({ unit: "ells", theme: 4, show: [], cautionsRead: true }, "session");
            stores.oncomplete = () => {
              opening.result.close();
              resolve();
            };
            stores.onabort = () => reject(stores.error);
          };
        }),
    );
    await page.reload();
    await untilOpen(page);
    const said = page.getByRole("status").filter({ hasText: /could not be read|cannot be read/ });
    await said.first().waitFor();
    await hold(page);
    await keepMove(page, "+5");
    await page.reload();
    await untilOpen(page);
    await page.getByRole("button", { name: "Steps" }).click();
    const steps = page.getByRole("dialog", { name: "Steps" }).getByRole("list").getByRole("button");
    await expect.poll(() => steps.count()).toBe(3);
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe("a clock that is moved", { timeout: 400_000 }, () => {
  it("years ahead and back again costs no edit, no project and no card, and the lists tell them all", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    await context.addInitScript(() => {
      const Real = Date;
      const shift = () => Number(localStorage.getItem("test clock") ?? 0);
      globalThis.Date = class extends Real {
        constructor(...given: []) {
          if (given.length === 0) super(Real.now() + shift());
          else super(...given);
        }
        static override now(): number {
          return Real.now() + shift();
        }
      } as DateConstructor;
    });
    const moveClock = (years: number) =>
      page.evaluate((ms) => localStorage.setItem("test clock", String(ms)), years * 365 * 86_400_000);
    const years = [4, -30, 0];
    await page.reload();
    for (const [i, shift] of years.entries()) {
      await moveClock(shift);
      await untilOpen(page);
      await untilChecked(page);
      await page.getByRole("button", { name: /^Make job card/ }).click();
      const dialog = page.getByRole("dialog");
      await dialog.getByRole("button", { name: /^Keep/ }).click();
      await dialog.waitFor({ state: "detached" });
      await hold(page);
      await keepMove(page, "+1");
      await expect.poll(() => keptStep(page)).toBe(i + 1);
      await page.getByRole("button", { name: /^Scene: / }).click();
      await page.getByRole("menuitem", { name: "Projects…" }).click();
      const projects = page.getByRole("dialog", { name: "Projects" });
      if (i === 0) {
        await projects.getByRole("button", { name: /^Duplicate/ }).click();
        await projects.getByRole("button", { name: /^Delete .*, copy$/ }).click();
        await projects.getByText(/is deleted/).waitFor();
      } else {
        await projects.getByText("Deleted (1)").click();
        await projects.getByText(/goes for good in (1?\d) days?/).waitFor();
      }
      await page.reload();
    }
    await untilOpen(page);
    await page.getByRole("button", { name: "Build log" }).click();
    await expect.poll(() => page.locator(".card-list > li").count()).toBe(3);
    await page.getByRole("button", { name: "Steps" }).click();
    const steps = page.getByRole("dialog", { name: "Steps" }).getByRole("list").getByRole("button");
    await expect.poll(() => steps.count()).toBe(4);
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe("a new build that is served in the middle of an edit", { timeout: 400_000 }, () => {
  it("waits until the builder says so; another tab's taking it breaks nothing of the edit, and says what it cannot fetch", async () => {
    const folder = mkdtempSync(join(tmpdir(), "elbowroom-"));
    cpSync(`${root}dist`, folder, { recursive: true });
    const server = await preview({
      root: `${root}src/app`,
      configFile: `${root}vite.config.ts`,
      logLevel: "warn",
      build: { outDir: folder },
      preview: { host: "127.0.0.1", port: 0 },
    });
    let context: BrowserContext | null = null;
    try {
      const address = server.resolvedUrls!.local[0]!;
      const opened = await app.open({ keptFrom: address, noPicture: true });
      const { page } = opened;
      context = opened.context;
      await page.evaluate(async () => void (await navigator.serviceWorker.ready));
      // a reload gives the page to the service worker, as every later visit does
      await page.reload();
      await untilOpen(page);
      await hold(page);
      await keepMove(page, "+1");
      await tryMove(page, "+7");
      const tried = await out(page).inputValue();

      putNewBuild(folder, "Elbowroom, newer");
      await page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));
      await page.getByText(/new version of Elbowroom lies ready. Keep what is tried or put it back first/).waitFor();
      expect(await page.getByRole("button", { name: "Load it now" }).isDisabled()).toBe(true);
      expect(await out(page).inputValue()).toBe(tried);

      const other = await context.newPage();
      await other.goto(address);
      await other.getByRole("button", { name: "Load it now" }).click();
      await expect.poll(() => other.title()).toBe("Elbowroom, newer");
      await page.getByText(/Another tab has taken a new version of Elbowroom. Keep what is tried/).waitFor();
      expect(await page.title()).toBe("Elbowroom");
      expect(await out(page).inputValue()).toBe(tried);
      await other.close();

      // what the old page fetches only now is nowhere any more
      await page.getByRole("button", { name: "All points", exact: true }).click();
      await page.getByRole("group", { name: "List" }).getByRole("button", { name: "Parts" }).click();
      await page.getByRole("button", { name: "All parts", exact: true }).click();
      await page.getByRole("button", { name: "Bring in a scan" }).click();
      const broken = page.getByRole("alert").filter({ hasText: "could not be fetched" });
      await broken.getByRole("button", { name: "Go on without it" }).click();
      await broken.waitFor({ state: "detached" });
      await page.getByRole("group", { name: "List" }).getByRole("button", { name: "Hard points" }).click();
      await page.locator("button.point-row", { hasText: "Upper link, inboard end" }).click();
      await page.getByText("not kept yet").first().waitFor();
      await page.getByRole("button", { name: "Keep this move" }).click();
      const step = await page.getByRole("button", { name: /^Undo/ }).first().getAttribute("aria-label");
      await page.getByRole("button", { name: "Load it now" }).click();
      await expect.poll(() => page.title()).toBe("Elbowroom, newer");
      await untilOpen(page);
      expect(await page.getByRole("button", { name: /^Undo/ }).first().getAttribute("aria-label")).toBe(step);
      expect(await keptStep(page)).toBe(2);
    } finally {
      await context?.close();
      await server.close();
      rmSync(folder, { recursive: true });
    }
  });
});
