import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { readAnyLog } from "../../src/buildlog/anyLog.ts";
import type { BuildLog } from "../../src/buildlog/logfile.ts";
import { writeLog } from "../../src/buildlog/logfile.ts";
import { drawnPng } from "../buildlog/drawnPng.ts";
import { card, POINTS, pair, result } from "../buildlog/fixture.ts";
import { renderPdf } from "../fabrication/renderPdf.ts";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();
const NASTY = "<img src=x onerror=\"document.title='ran'\"><script>document.title='ran'</script>";

/** Presses a button that saves a file, and gives the file; no test can answer the system's own dialog. */
async function saved(page: Page, button: string): Promise<Uint8Array> {
  await page.evaluate(() => Reflect.deleteProperty(window, "showSaveFilePicker"));
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: button }).click();
  return readFileSync(await (await download).path());
}

/** What the browser has stored of the log: "card" or "decision" of each. What is on the screen may not be on the disk yet. */
function storedKinds(page: Page): Promise<string[]> {
  return page.evaluate(
    () =>
      new Promise<string[]>((resolve, reject) => {
        const asked = indexedDB.open("elbowroom-log");
        asked.onerror = () => reject(asked.error);
        asked.onsuccess = () => {
          const keys = asked.result.transaction("cards").objectStore("cards").getAllKeys();
          keys.onerror = () => reject(keys.error);
          keys.onsuccess = () => {
            asked.result.close();
            resolve(keys.result.map((key) => String(key).replace(/\/.*/, "")).sort());
          };
        };
      }),
  );
}

/** Two cards of one car: an upper link that clashes, and the same moved until it does not. */
function twoCards(): BuildLog {
  const picture = (red: number) => ({ png: drawnPng(64, 40, [red, 90, 30]), width: 64, height: 40 });
  return {
    cards: [
      card({ number: 1, title: "Donor links", note: NASTY, revision: "A", picture: picture(200) }),
      card({
        number: 2,
        title: NASTY,
        revision: "B",
        picture: picture(30),
        made: new Date("2026-11-14T07:30:00Z"),
        points: { ...POINTS, "upper.in": [130, 392, 446] },
        result: result({ pairs: [pair({ clearance_mm: 12, verdict: "clear", clashTravel_mm: [] })] }),
      }),
    ],
    decisions: [],
  };
}

describe("the build log", () => {
  it("keeps a card with views of its own, prints it, and begins a new project from it", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    await page.getByRole("button", { name: /^Make job card/ }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByRole("img", { name: /as shown now/ }).waitFor();
    await dialog.getByRole("button", { name: "Full bump" }).click();
    await dialog.getByRole("button", { name: /^Keep/ }).click();
    await dialog.waitFor({ state: "detached" });
    // the wheels are back where they were
    const left = page.getByRole("slider", { name: "Left wheel travel" });
    await expect.poll(() => left.getAttribute("aria-valuenow"), { timeout: 60_000 }).toBe("0");
    await page.getByRole("button", { name: "Build log" }).click();
    await page.getByRole("button", { name: "Full bump" }).waitFor();

    const { cards } = readAnyLog(await saved(page, "Save the log as one file"), "log.json");
    const [kept] = cards;
    expect(kept!.revision).toBe("A");
    expect(kept!.travel_mm).toEqual({ left: 0, right: 0 });
    expect(kept!.views.map(({ state, travel_mm }) => [state, travel_mm.left])).toEqual([["bump", kept!.range_mm.bump]]);
    // another picture than that at ride height: the wheels had moved by then
    expect(Buffer.compare(kept!.views[0]!.picture.png, kept!.picture!.png)).not.toBe(0);

    await page.getByRole("button", { name: "A4" }).click();
    const printed = await renderPdf(await page.pdf({ preferCSSPageSize: true, printBackground: true }));
    // ISO 216: 210 × 297 mm
    expect(printed[0]!.width_pt).toBeCloseTo((210 / 25.4) * 72, -1);
    expect(printed[0]!.text).toMatch(/Job card 1/);

    await page.getByRole("button", { name: "Begin a new project from it" }).click();
    await untilChecked(page);
    await page.getByRole("button", { name: "Corner", exact: true }).waitFor();
    // a new project has no step that could be undone
    expect(await page.getByRole("button", { name: /^Undo/ }).first().isDisabled()).toBe(true);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("is brought in, compared, decided on and saved again without loss, and runs nothing of what is in it", async () => {
    const log = twoCards();
    const { page, faults, context } = await app.open({ noPicture: true });
    await untilChecked(page);
    await page.getByRole("button", { name: "Build log" }).click();
    await page.getByLabel("Saved log").setInputFiles({
      name: "log.json",
      mimeType: "application/json",
      buffer: Buffer.from(writeLog(log)),
    });
    await page.getByRole("checkbox", { name: "Compare card 1" }).check({ force: true });
    await page.getByRole("checkbox", { name: "Compare card 2" }).check({ force: true });
    const won = page.getByRole("row", { name: /Ear, upper link/ });
    // 12.0 − (−6.2) = 18.2
    expect(await won.textContent()).toContain("▴ +18.2");
    await page.getByRole("button", { name: "One over the other" }).click();
    const line = page.getByRole("slider", { name: "How much of A is shown over B" });
    await line.focus();
    await page.keyboard.press("Home");
    expect(await line.getAttribute("aria-valuetext")).toBe("0 % of A");
    // nothing of A is left, so B's green is seen where A's red was
    expect(await page.locator(".swipe-first").evaluate((image) => getComputedStyle(image).clipPath)).toMatch(/100%/);

    await page.getByRole("button", { name: "Clash list" }).click();
    await page.getByRole("button", { name: /^Fixed 1$/ }).click();
    expect(await page.getByRole("region", { name: "Clash list" }).textContent()).toContain(
      "fixed: card 2 finds it clear",
    );
    await page.getByRole("button", { name: /^Open/ }).click();
    await page.getByRole("button", { name: "Decide: Arch, tyre (right)" }).click();
    await page.getByRole("button", { name: "accepted", exact: true }).click();
    await page.getByLabel("Who sees to it").fill("Kim");
    await page.getByLabel("Why it is accepted").fill(NASTY);
    await page.getByRole("button", { name: "Keep", exact: true }).click();
    await page.getByRole("button", { name: /^Accepted 1$/ }).waitFor();

    await expect
      .poll(() => storedKinds(page), { timeout: 60_000 })
      .toEqual(["card", "card", "decision", "highest number"]);
    await page.reload();
    await untilChecked(page);
    await page.getByRole("button", { name: "Build log" }).click();
    await page.getByRole("article", { name: /^Card 2/ }).waitFor();
    for (const button of ["Save as a zip of pictures and text", "Save as a page to read"]) {
      const again = readAnyLog(await saved(page, button), button);
      expect(again.cards).toEqual(log.cards);
      expect(again.decisions).toMatchObject([{ state: "accepted", owner: "Kim", why: NASTY }]);
    }
    const pages = await renderPdf(await saved(page, "Save as PDF"));
    expect(pages.map(({ text }) => text).join(" ")).toContain("Moved since card 1");

    // the page by itself, opened as anybody would
    const html = await saved(page, "Save as a page to read");
    const reader = await context.newPage();
    await reader.setContent(Buffer.from(html).toString("utf8"));
    await reader.getByRole("heading", { name: `Card 2: ${NASTY}` }).waitFor();
    expect([await reader.title(), await page.title()]).toEqual(["Build log: Wren rear end", "Elbowroom"]);
    expect(faults).toEqual([]);
    await context.close();
  });
});
