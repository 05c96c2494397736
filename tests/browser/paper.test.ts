import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { renderPdf } from "../fabrication/renderPdf.ts";
import { browserApp } from "./openApp.ts";

const app = browserApp();

/** Presses and gives the file that the page saves then. */
async function saved(page: Page, button: string): Promise<Buffer> {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: button, exact: true }).click(),
  ]);
  return readFileSync(await download.path());
}

it("looks at a sheet, tells how a tube ends, and takes the sheets away as PDF and as a table", async () => {
  const { page, faults } = await app.open({ noPicker: true, noPicture: true });
  await page.evaluate(() => Reflect.deleteProperty(window, "showSaveFilePicker"));
  await page.getByRole("button", { name: /^Scene/ }).click();
  await page.getByRole("menuitem", { name: "Paper and files…" }).click();
  const dialog = page.getByRole("dialog", { name: "Paper and files" });

  await dialog.getByRole("button", { name: "Jig sheet" }).click();
  await dialog.getByRole("textbox", { name: "Revision" }).fill("C");
  await dialog.getByRole("button", { name: "A4" }).click();
  await dialog.getByRole("button", { name: "Look at it" }).click();
  const first = dialog.getByRole("img", { name: /Jig sheet, page 1 of/ });
  await first.waitFor();
  const shown = (await first.textContent())!;
  const [printed] = await renderPdf(await saved(page, "Save as PDF"));
  // ISO 216
  expect([printed!.width_pt, printed!.height_pt].map((side) => Math.round((side / 72) * 25.4))).toEqual([210, 297]);
  for (const said of ["Jig sheet", "Heights over the jig table", "upper.in", "as drawn", "C · "]) {
    expect(shown).toContain(said);
    expect(printed!.text).toContain(said);
  }

  await dialog.getByRole("button", { name: "Cut list" }).click();
  await dialog.getByRole("cell", { name: "not told", exact: true }).first().waitFor();
  for (const end of ["inboard", "outboard"]) {
    await dialog.getByRole("button", { name: new RegExp(`Upper link, ${end} end`) }).click();
    await dialog.getByRole("button", { name: "Square", exact: true }).click();
    await dialog.getByRole("button", { name: "Keep this end" }).click();
  }
  // 332.8 from eye to eye, 20 short of the centre at either end
  await dialog.getByRole("cell", { name: "292.8" }).waitFor();
  const table = (await saved(page, "Save as a table (CSV)")).toString("utf8");
  expect(table).toMatch(/^cut,upper,link,2,.*,square,upper\.inboard,20,/m);

  await dialog.getByRole("button", { name: "Close" }).click();
  await page.getByRole("button", { name: /^Undo: .*outboard end: how the tube ends/ }).click();
  expect(faults).toEqual([]);
});
