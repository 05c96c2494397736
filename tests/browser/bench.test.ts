import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { keptSession } from "./kept.ts";
import { browserApp, untilChecked, verdictsOf } from "./openApp.ts";

const scenes = fileURLToPath(new URL("../../scenes/", import.meta.url));
const names = readdirSync(scenes)
  .filter((name) => name.endsWith(".json"))
  .sort();
const app = browserApp();

async function openScene(page: Page, file: { name: string; text: string }): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: /^Scene/ }).click();
  await page.getByRole("menuitem", { name: "Open a scene file…" }).click();
  await (await chooser).setFiles({ name: file.name, mimeType: "application/json", buffer: Buffer.from(file.text) });
}

describe("around the check", () => {
  it("tells bad input in place and keeps the scene that is open", async () => {
    const { page, faults, context } = await app.open({ noPicker: true });
    await untilChecked(page);
    const before = await verdictsOf(page);
    const text = readFileSync(scenes + names[0], "utf8");
    await openScene(page, { name: "broken.json", text: text.replace('"travel"', '"travle"') });
    const alert = page.getByRole("alert");
    await alert.waitFor();
    expect(await alert.textContent()).toMatch(/broken\.json.*travle/s);
    expect(await verdictsOf(page)).toEqual(before);
    await openScene(page, { name: "half.json", text: text.slice(0, text.length / 2) });
    await expect.poll(() => alert.textContent()).toMatch(/half\.json/);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("opens another scene and says that nothing touches", async () => {
    const { page, faults, context } = await app.open();
    await page.getByRole("button", { name: /^Scene/ }).click();
    await page.getByRole("menuitem", { name: /re-cut/i }).click();
    await page.getByRole("button", { name: /^Scene: .*re-cut/i }).waitFor();
    await untilChecked(page);
    await page.getByText("Nothing touches.").waitFor();
    expect(faults).toEqual([]);
    await context.close();
  });

  it("remembers inches and Garage over a reload", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    await page.getByRole("button", { name: "in", exact: true }).click();
    await page.getByRole("button", { name: "Garage" }).click();
    await expect.poll(async () => (await verdictsOf(page))[0]).toMatch(/\d\.\d+ in too deep/);
    await expect.poll(async () => (await keptSession(page))?.theme).toBe("garage");
    await page.reload();
    await untilChecked(page);
    expect(await page.getByRole("button", { name: "in", exact: true }).getAttribute("aria-pressed")).toBe("true");
    expect(await page.getByRole("button", { name: "Garage" }).getAttribute("aria-pressed")).toBe("true");
    expect(faults).toEqual([]);
    await context.close();
  });

  it("says that the picture was lost, keeps the verdicts, and draws it again", async () => {
    const { page, context } = await app.open();
    await untilChecked(page);
    const lose = () =>
      page.evaluate(() => {
        const canvas = document.querySelector("canvas");
        const extension = canvas?.getContext("webgl2")?.getExtension("WEBGL_lose_context");
        Object.assign(window, { lost: extension });
        extension?.loseContext();
      });
    await lose();
    await page.getByText(/picture was lost/i).waitFor();
    expect((await verdictsOf(page)).length).toBeGreaterThan(0);
    await page.evaluate(() => (window as unknown as { lost: WEBGL_lose_context }).lost.restoreContext());
    await page.getByText(/picture was lost/i).waitFor({ state: "detached" });
    await context.close();
  });

  it.each([
    [820, 1180],
    [360, 740],
  ])("fits a touch screen of %i by %i: nothing sideways, targets of 44 px", async (width, height) => {
    const { page, faults, context } = await app.open({ width, height, touch: true });
    await untilChecked(page);
    const sideways = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(sideways).toBeLessThanOrEqual(0);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll("button, [role=slider], [role=menuitem], input, select")]
        .map((element) => ({ element, box: element.getBoundingClientRect() }))
        .filter(({ element, box }) => box.width > 0 && getComputedStyle(element).visibility !== "hidden")
        .filter(({ box }) => box.width < 43.5 || box.height < 43.5)
        .map(
          ({ element, box }) =>
            `${element.textContent ?? element.getAttribute("aria-label")}: ${box.width}×${box.height}`,
        ),
    );
    expect(small).toEqual([]);
    const tiny = await page.evaluate(() =>
      [...document.querySelectorAll("body *")]
        .filter((element) => [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim()))
        .filter(
          (element) =>
            Number.parseFloat(getComputedStyle(element).fontSize) < 11 && element.getBoundingClientRect().width > 1,
        )
        .map((element) => `${element.textContent}: ${getComputedStyle(element).fontSize}`),
    );
    expect(tiny).toEqual([]);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("is turned and zoomed by buttons of 44 px, under a finger and by keyboard", async () => {
    const { page, faults, context } = await app.open({ width: 360, height: 740, touch: true });
    await untilChecked(page);
    await page.getByRole("button", { name: "Look from behind" }).tap();
    for (const name of ["turn left", "over", "turn right", "under", "nearer", "further"]) {
      const button = page.getByRole("button", { name, exact: true });
      const box = (await button.boundingBox())!;
      expect(Math.min(box.width, box.height), name).toBeGreaterThanOrEqual(44);
      await button.tap();
      await page.getByRole("button", { name: "Look turned by hand" }).waitFor({ state: "attached" });
    }
    expect(faults).toEqual([]);
    await context.close();
    const wide = await app.open();
    await untilChecked(wide.page);
    const behind = wide.page.getByRole("group", { name: "Look from" }).getByRole("button", { name: "behind" });
    await wide.page.getByRole("button", { name: "Turn the view" }).focus();
    await wide.page.keyboard.press("Enter");
    await wide.page.getByRole("button", { name: "turn left" }).focus();
    await wide.page.keyboard.press("Enter");
    await expect.poll(() => behind.getAttribute("aria-pressed")).toBe("false");
    expect(wide.faults).toEqual([]);
    await wide.context.close();
  });

  it("begins with a measured blank, whose numbers are typed into the table, and ends with verdicts", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    await page.getByRole("button", { name: /^Scene/ }).click();
    await page.getByRole("menuitem", { name: "Begin a corner…" }).click();
    await page.getByRole("button", { name: /^Two wishbones and a toe link/ }).click();
    await page.getByRole("button", { name: "A measured blank" }).click();
    const cell = page.getByRole("textbox", { name: /^\S*centre, up$/ });
    await cell.fill("12in+1/2in");
    await cell.press("Enter");
    await page.getByRole("button", { name: /^Undo: wheel, centre .*measured again/ }).waitFor();
    // 12.5 × 25.4
    expect(await cell.inputValue()).toBe("317.5");
    await page.getByRole("button", { name: "Corner", exact: true }).click();
    await untilChecked(page);
    await page
      .getByRole("region", { name: "Verdicts" })
      .getByRole("button", { name: /clash$/ })
      .first()
      .waitFor();
    expect(faults).toEqual([]);
    await context.close();
  });

  it("keeps the screen awake when asked, again after it was hidden, and says when the browser refuses", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    // a browser without a display has no screen to keep awake: what it would be asked is counted
    await page.addInitScript(() => {
      const asked = { times: 0, given: [] as { released: boolean; release(): void }[], refuses: false };
      Object.assign(window, { asked });
      Object.defineProperty(navigator, "wakeLock", {
        value: {
          async request() {
            asked.times++;
            if (asked.refuses) throw new DOMException("no", "NotAllowedError");
            const lock = { released: false, release: () => Object.assign(lock, { released: true }) };
            asked.given.push(lock);
            return lock;
          },
        },
      });
    });
    await expect.poll(async () => (await keptSession(page))?.cautionsRead).toBe(true);
    await page.reload();
    const item = page.getByRole("menuitemcheckbox", { name: /^Keep the screen awake/ });
    const menu = () => page.getByRole("button", { name: /^Scene/ }).click();
    const asked = <T>(what: string) => page.evaluate(`window.asked.${what}`) as Promise<T>;
    await menu();
    await item.click();
    await expect.poll(() => asked("times")).toBe(1);
    await page.evaluate(() => {
      const { asked } = window as unknown as { asked: { given: { released: boolean }[]; refuses: boolean } };
      asked.given[0]!.released = true;
      asked.refuses = true;
      document.dispatchEvent(new Event("visibilitychange"));
    });
    await page.getByText("the browser refuses").waitFor();
    await expect.poll(async () => (await keptSession(page))?.stayAwake).toBe(true);
    await page.reload();
    await expect.poll(() => asked("times")).toBe(1);
    await menu();
    expect(await item.getAttribute("aria-checked")).toBe("true");
    await item.click();
    await expect.poll(() => asked("given[0].released")).toBe(true);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("works by keyboard alone: from clash to clash, card, and back", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    await page.keyboard.press("]");
    await expect.poll(() => page.locator("[aria-expanded=true]").count()).toBe(1);
    const one = await page.locator("[aria-expanded=true]").textContent();
    await page.keyboard.press("]");
    await expect.poll(() => page.locator("[aria-expanded=true]").textContent()).not.toBe(one);
    await page.keyboard.press("[");
    await expect.poll(() => page.locator("[aria-expanded=true]").textContent()).toBe(one);
    await page.keyboard.press("s");
    await page.getByRole("dialog").waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.keyboard.press("4");
    await expect.poll(() => page.getByRole("button", { name: "above" }).getAttribute("aria-pressed")).toBe("true");
    expect(faults).toEqual([]);
    await context.close();
  });
});
