import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

/** Opens the scene's menu and chooses one of its items with nothing but the keys. */
async function chooseByKeys(page: Page, item: string): Promise<void> {
  await page.locator(".scene-button").focus();
  await page.keyboard.press("Enter");
  await page.getByRole("menu").waitFor();
  const wanted = page.getByRole("menuitemradio", { name: item });
  const hasFocus = () => wanted.evaluate((element) => element === document.activeElement);
  for (let i = 0; i < 40 && !(await hasFocus()); i++) await page.keyboard.press("ArrowDown");
  expect(await hasFocus()).toBe(true);
  await page.keyboard.press("Enter");
}

async function untilSpoken(page: Page, language: string): Promise<void> {
  await page.locator(`html[lang=${language}]`).waitFor({ state: "attached" });
  await untilChecked(page);
}

const rowsOf = (page: Page, ledger: string): Promise<string[]> =>
  page
    .getByRole("region", { name: ledger })
    .locator(".row-press")
    .evaluateAll((rows) => rows.map((row) => row.textContent ?? ""));

/** What a verdict says beside its words: its figures, which no language changes. */
const figuresOf = (rows: readonly string[]): string[] =>
  rows.map((row) => row.match(/[−+]?\d+(\.\d+)?/g)?.join(" ") ?? "");

describe("a builder who speaks German", () => {
  it("chooses it in the menu, finds it again, works in it and goes back", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    await untilChecked(page);
    const english = await rowsOf(page, "Verdicts");
    expect(english.some((row) => /^Upper link meets sump: /.test(row))).toBe(true);

    await chooseByKeys(page, "Deutsch");
    await untilSpoken(page, "de");
    for (const name of ["Ecke", "Punkte & Teile", "Bautagebuch"]) {
      expect(await page.getByRole("button", { name, exact: true }).count(), name).toBe(1);
    }
    const german = await rowsOf(page, "Befunde");
    expect(german.some((row) => /^Lenker upper berührt Sump: .+ zu tief bei /.test(row))).toBe(true);
    expect(german.some((row) => / (meets|passes|wants|engine|at) /.test(row))).toBe(false);
    expect(figuresOf(german)).toEqual(figuresOf(english));

    await page.reload();
    await untilSpoken(page, "de");
    expect(await rowsOf(page, "Befunde")).toEqual(german);

    const touches = page.getByRole("region", { name: "Befunde" }).getByRole("button", { name: / berührt / });
    const count = await touches.count();
    await touches.first().click();
    await page.getByRole("button", { name: "Dieses Paar ausnehmen…" }).click();
    await page.getByRole("textbox", { name: "Warum dürfen sie sich berühren?" }).fill("Gummilappen");
    await page.getByRole("button", { name: "Ausnehmen", exact: true }).click();
    const undo = page.getByRole("button", { name: /^Rückgängig: .+ ausnehmen$/ });
    await undo.waitFor();
    await untilChecked(page);
    expect(await touches.count()).toBeLessThan(count);
    await page.keyboard.press("Control+z");
    await undo.waitFor({ state: "detached" });
    await untilChecked(page);
    expect(await touches.count()).toBe(count);

    await chooseByKeys(page, "English");
    await untilSpoken(page, "en");
    expect(await rowsOf(page, "Verdicts")).toEqual(english);
    expect(faults).toEqual([]);
    await context.close();
  });
});
