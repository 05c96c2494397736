import { readFileSync } from "node:fs";
import { decode } from "fast-png";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

/** What a button saves. */
async function saved(page: Page, button: string): Promise<{ name: string; bytes: Buffer }> {
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: button }).click();
  const file = await download;
  return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
}

describe("a builder takes the car to paper and to other programs", () => {
  it("saves a picture to scale, a model, and the hard points, which come back changed as one step", async () => {
    const { page, faults, context } = await app.open({ noPicture: true, noPicker: true });
    // no test can answer the system's own dialog; without it the browser downloads
    await page.evaluate(() => Reflect.deleteProperty(window, "showSaveFilePicker"));
    await untilChecked(page);
    await page.getByRole("button", { name: /^Scene/ }).click();
    await page.getByRole("menuitem", { name: "Paper and files…" }).click();
    const dialog = page.getByRole("dialog", { name: "Paper and files" });

    await dialog.getByRole("button", { name: "Picture to scale" }).click();
    await dialog.getByRole("img", { name: /^Rear: ride/ }).waitFor();
    await dialog.getByRole("combobox", { name: "View" }).click();
    await page.getByRole("option", { name: "Plan" }).click();
    await dialog.getByRole("button", { name: "A4" }).click();
    await dialog.getByRole("button", { name: "Add this length" }).click();
    const picture = await saved(page, "Save as picture (PNG)");
    expect(picture.name).toMatch(/plan\.png$/);
    const { width, height, resolution } = decode(picture.bytes);
    // ISO 216: a lying A4 sheet is 297 by 210 mm; 300 dots to 25.4 mm, 11811 to the metre
    expect([width, height, resolution?.x]).toEqual([3507, 2480, 11811]);
    await dialog.getByText(/^Saved as .*plan\.png\.$/).waitFor();
    await dialog.locator(".picture-preview[aria-busy=false]").waitFor();

    await dialog.getByRole("button", { name: "Parts, points and curves as files" }).click();
    const model = await saved(page, "Save GLB");
    expect(model.bytes.subarray(0, 4).toString("latin1")).toBe("glTF");
    const curves = await saved(page, "Save curves (CSV)");
    expect(curves.bytes.toString()).toMatch(/^side,travel_mm,toe_deg/);
    const before = (await saved(page, "Save hard points (CSV)")).bytes.toString();

    const row = /^(upper\.in),([-\d.]+),/m.exec(before)!;
    const changed = before.replace(row[0], `${row[1]},${Number(row[2]) + 5},`);
    const chooser = page.waitForEvent("filechooser");
    await dialog.getByRole("button", { name: "Read hard points (CSV)…" }).click();
    await (await chooser).setFiles({ name: "measured.csv", mimeType: "text/csv", buffer: Buffer.from(changed) });
    await dialog.getByText("measured.csv moves 1 hard point:").waitFor();
    await dialog.getByText(/5 forward \(5\.0 mm\)/).waitFor();
    await dialog.getByRole("button", { name: "Move it" }).click();
    await dialog.getByText("1 hard point moved. Undo brings it back.").waitFor();
    expect((await saved(page, "Save hard points (CSV)")).bytes.toString()).toBe(changed);

    await dialog.getByRole("button", { name: "Close" }).click();
    await page.getByRole("button", { name: /^Undo.*Hard points from measured\.csv/ }).click();
    await page.getByRole("button", { name: /^Scene/ }).click();
    await page.getByRole("menuitem", { name: "Paper and files…" }).click();
    expect((await saved(page, "Save hard points (CSV)")).bytes.toString()).toBe(before);
    expect(faults).toEqual([]);
    await context.close();
  });
});
