import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type BuiltApp, serveBuiltApp } from "../builtApp.ts";
import { CHROMIUM_FLAGS, needChromium } from "../chromium.mjs";
import { CHORES, GIVE_SCAN } from "../longUse/chores.ts";
import { COUNT_GPU, FLAGS, WINDOW } from "../longUse/figures.ts";
import { LEAST_SAMPLES } from "../longUse/growth.ts";
import { judge, runLong, tableOf } from "../longUse/longUse.ts";

/** Some half an hour on a slow machine; the second half of it is fitted. */
const ROUNDS = 2 * LEAST_SAMPLES;

describe("the built app in long use", () => {
  let app: BuiltApp;
  let browser: Browser;
  beforeAll(async () => {
    app = await serveBuiltApp();
    browser = await chromium.launch({ executablePath: needChromium()!, args: [...CHROMIUM_FLAGS, ...FLAGS] });
  }, 600_000);
  afterAll(async () => {
    await browser?.close();
    await app?.close();
  });

  it("grows in nothing: memory, nodes, listeners, workers, GPU objects", async () => {
    const context = await browser.newContext({ viewport: WINDOW, reducedMotion: "reduce" });
    context.setDefaultTimeout(300_000);
    for (const content of [COUNT_GPU, GIVE_SCAN]) await context.addInitScript({ content });
    const page = await context.newPage();
    await page.goto(app.address);
    await page.getByRole("button", { name: "I will check on the car" }).click();
    await page.locator("main[aria-busy=false]").waitFor();
    const judged = judge(await runLong(browser, page, (rounds) => rounds >= ROUNDS, undefined, CHORES));
    console.log(tableOf(judged));
    expect(judged.filter((each) => each.grows).map(({ name }) => name)).toEqual([]);
  });
});
