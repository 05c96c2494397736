import { mkdtempSync, readdirSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { writeScanCase } from "../bench/scanCase.ts";
import { type BuiltApp, serveBuiltApp } from "../builtApp.ts";
import { CHROMIUM_FLAGS, needChromium } from "../chromium.mjs";
import { openBigScene } from "../longUse/bigScene.ts";

const BODIES = 400;
const TRIANGLES = 5_000_000;

describe(`a scene of ${BODIES} bodies and ${TRIANGLES / 1e6} million triangles in the built app`, () => {
  let app: BuiltApp;
  let browser: Browser;
  let folder: string;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "big-"));
    app = await serveBuiltApp();
    browser = await chromium.launch({ executablePath: needChromium()!, args: CHROMIUM_FLAGS });
  }, 600_000);
  afterAll(async () => {
    await browser?.close();
    await app?.close();
    rmSync(folder, { recursive: true });
  });

  async function begin(): Promise<Page> {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, reducedMotion: "reduce" });
    context.setDefaultTimeout(3_000_000);
    const page = await context.newPage();
    await page.addInitScript(() => Reflect.deleteProperty(window, "showOpenFilePicker"));
    await page.goto(app.address);
    await page.getByRole("button", { name: "I will check on the car" }).click();
    await page.locator("main[aria-busy=false]").waitFor();
    return page;
  }

  const filesOf = (of: string) =>
    readdirSync(of)
      .sort()
      .map((name) => join(of, name));

  it("opens, is turned and checked to the last pair", async () => {
    const place = join(folder, "four");
    writeScanCase(place, TRIANGLES / 3.55, BODIES, 2);
    const files = filesOf(place);
    // binary STL: 84 bytes and 50 a triangle
    const triangles = files
      .filter((file) => file.endsWith(".stl"))
      .reduce((sum, file) => sum + (statSync(file).size - 84) / 50, 0);
    expect(triangles).toBeGreaterThan(TRIANGLES);
    const page = await begin();
    const opened = await openBigScene(page, files, /^Scene: Two scans/);
    console.log(`shown after ${opened.shown_s} s, turned in ${opened.turned_s} s, checked after ${opened.checked_s} s`);
    expect(opened.told).toEqual([]);
    expect(opened.turned).toBe(true);
    expect(opened.verdicts.length).toBeGreaterThan(0);
    await page.context().close();
  });

  it("leaves out a mesh that is larger than it reads, says so, and checks everything else", async () => {
    const place = join(folder, "two");
    writeScanCase(place, TRIANGLES / 2, BODIES);
    const page = await begin();
    const opened = await openBigScene(page, filesOf(place), /^Scene: Two scans/);
    console.log(`shown after ${opened.shown_s} s, checked after ${opened.checked_s} s; ${opened.told.join(" ")}`);
    expect(opened.told.join()).toMatch(/Left out, not checked: .*stl: it has \d+ triangles; wanted: at most 2000000/);
    expect(opened.verdicts.length).toBeGreaterThan(0);
    expect(opened.turned).toBe(true);
    await page.context().close();
  });
});
