// `npm run pictures`: the README's pictures, taken from the built app as a user sees it.
import { mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { chromium, type Page } from "playwright-core";
import { serveBuiltApp } from "../builtApp.ts";
import { CHROMIUM_FLAGS, needChromium } from "../chromium.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));
const assets = `${root}assets`;

const served = await serveBuiltApp();
const executablePath = needChromium();
if (!executablePath) throw new Error("no Chromium found: set CHROMIUM to its path");
const browser = await chromium.launch({ executablePath, args: CHROMIUM_FLAGS });
mkdirSync(assets, { recursive: true });
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, reducedMotion: "reduce" });
  await page.goto(served.address);
  await page.getByRole("button", { name: "I will check on the car" }).click();
  await settled(page);
  await page.getByRole("button", { name: /^Upper link meets sump/ }).click();
  await page.getByRole("img", { name: /^Close look/ }).waitFor();
  await take(page, "corner-daylight");
  await page.getByRole("button", { name: "Garage" }).click();
  await take(page, "corner-garage");
  await page.getByRole("button", { name: "Daylight" }).click();
  await page.getByRole("button", { name: "Points & parts" }).click();
  await page.locator("button.point-row", { hasText: "Upper link, inboard end" }).click();
  const out = page.getByRole("textbox", { name: "Out" });
  await out.fill(`${await out.inputValue()}+20`);
  await page.getByText("not kept yet").first().waitFor();
  await settled(page);
  await take(page, "points-daylight");
} finally {
  await browser.close();
  await served.close();
}

async function settled(page: Page): Promise<void> {
  await page.locator("main[aria-busy=false]").waitFor({ timeout: 120_000 });
}

/** The view draws its finer picture a moment after it comes to rest. */
async function take(page: Page, name: string): Promise<void> {
  await page.waitForTimeout(2500);
  await page.screenshot({ path: `${assets}/${name}.png` });
  console.log(`assets/${name}.png`);
}
