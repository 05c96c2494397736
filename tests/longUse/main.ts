// `npm run long-use -- --hours 8`: the built app used for hours, and whether anything grows. Ctrl+C ends it after the round.
import { parseArgs } from "node:util";
import { chromium } from "playwright-core";
import { serveBuiltApp } from "../builtApp.ts";
import { CHROMIUM_FLAGS, needChromium } from "../chromium.mjs";
import { DONE_IN_A_ROUND, GIVE_SCAN } from "./chores.ts";
import { COUNT_GPU, FLAGS, WINDOW } from "./figures.ts";
import { ALLOWED_SHARE, LEAST_SAMPLES } from "./growth.ts";
import { judge, runLong, tableOf } from "./longUse.ts";

const HOUR_ms = 3_600_000;

const { values } = parseArgs({ options: { hours: { type: "string", default: "8" } } });
const hours = Number(values.hours);
if (!(hours > 0)) throw new Error(`--hours ${values.hours}: wants a number above 0`);
const executablePath = needChromium();
if (!executablePath) throw new Error("no Chromium found: set CHROMIUM to its path");

const app = await serveBuiltApp();
const browser = await chromium.launch({
  executablePath,
  args: [...CHROMIUM_FLAGS, ...FLAGS],
  // the round that is under way is ended first
  handleSIGINT: false,
  handleSIGTERM: false,
});
const faults: string[] = [];
try {
  const context = await browser.newContext({
    viewport: WINDOW,
    reducedMotion: "reduce",
    serviceWorkers: "block",
  });
  context.setDefaultTimeout(300_000);
  await context.addInitScript(COUNT_GPU);
  await context.addInitScript(GIVE_SCAN);
  const page = await context.newPage();
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (message) => message.type() === "error" && faults.push(message.text()));
  await page.goto(app.address);
  await page.getByRole("button", { name: "I will check on the car" }).click();
  await page.locator("main[aria-busy=false]").waitFor();
  const begun = Date.now();
  let isAskedToEnd = false;
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    process.once(signal, () => {
      isAskedToEnd = true;
    });
  }
  const used = await runLong(
    browser,
    page,
    (rounds) => isAskedToEnd || (rounds >= LEAST_SAMPLES && Date.now() - begun >= hours * HOUR_ms),
    (rounds, sample) => {
      const told = Object.entries(sample).map(
        ([name, value]) => `${name} ${value === null ? "?" : Math.round(value * 10) / 10}`,
      );
      console.log(`round ${rounds}, ${((Date.now() - begun) / 60_000).toFixed(1)} min: ${told.join(", ")}`);
    },
  );
  const judged = judge(used);
  console.log(`\n${used.rounds} rounds in ${((Date.now() - begun) / HOUR_ms).toFixed(2)} h.`);
  const done = Object.entries(DONE_IN_A_ROUND).map(([what, times]) => `${times * used.rounds} ${what}`);
  console.log(`Done in them: ${done.join(", ")}.`);
  console.log(
    `Grows: the line through the second half of the samples gains more than its scatter and ${100 * ALLOWED_SHARE} % of the mean.\n`,
  );
  console.log(tableOf(judged));
  for (const fault of faults) console.log(`fault: ${fault}`);
  process.exitCode = judged.some((each) => each.grows) || faults.length > 0 ? 1 : 0;
} finally {
  await browser.close();
  await app.close();
}
