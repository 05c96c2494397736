import { readFile } from "node:fs/promises";
import DxfParser, { type ICircleEntity } from "dxf-parser";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { renderPdf } from "../fabrication/renderPdf.ts";
import { sceneOf } from "../fabrication/templates/bench.ts";
import { browserApp } from "./openApp.ts";

const app = browserApp();

const scene = () => ({
  ...sceneOf([
    { id: "lug", mirror: true, made: { as: "clevis", plate_mm: 5, base_mm: 5 } },
    { id: "foot", mirror: true, made: { as: "plate with gusset", hole_mm: 18 } },
  ]),
  title: "Brackets to cut",
});

async function openScene(page: Page): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: /^Scene/ }).click();
  await page.getByRole("menuitem", { name: "Open a scene file…" }).click();
  await (await chooser).setFiles({
    name: "brackets.json",
    mimeType: "application/json",
    buffer: Buffer.from(JSON.stringify(scene())),
  });
  await page.getByRole("button", { name: "Scene: Brackets to cut" }).waitFor();
}

async function saved(page: Page, button: string): Promise<Buffer> {
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: button }).click();
  return readFile((await (await download).path())!);
}

describe("a builder prints templates for brackets", () => {
  it("folds one from a single plate, makes good the printer, and saves PDF and DXF", async () => {
    const { page, faults, context } = await app.open({ noPicker: true, noPicture: true });
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.evaluate(() => Reflect.deleteProperty(window, "showSaveFilePicker"));
    await openScene(page);
    await page.getByRole("button", { name: /^Scene/ }).click();
    await page.getByRole("menuitem", { name: "Paper and files…" }).click();
    const dialog = page.getByRole("dialog", { name: "Paper and files" });
    await dialog.getByRole("button", { name: "Templates" }).click();
    // two lugs and a base, the foot with its gusset
    const list = dialog.getByRole("list", { name: "Plates and tube ends" });
    await list.getByRole("checkbox").nth(3).waitFor();
    expect(await list.getByRole("checkbox").count()).toBe(4);
    await list.getByText("WARNING: hole 1, 2, 3, 4: centre to edge is 13 mm, at least 21.6 wanted").waitFor();

    await dialog.getByText("Folding", { exact: true }).click();
    await dialog.getByRole("checkbox", { name: /^lug: folded from one plate/ }).check();
    await list.getByText("lug: 1 off for each side, 5 mm plate").waitFor();
    expect(await list.getByRole("checkbox").count()).toBe(3);

    await dialog.getByText("What the printed bar measures").click();
    const across = dialog.getByRole("textbox", { name: "100 mm bar across the page" });
    await across.fill("60");
    await dialog.getByText("No printer is that far off").waitFor();
    expect(await dialog.getByRole("button", { name: "Save PDF, full size" }).isDisabled()).toBe(true);
    await across.fill("97");
    await dialog.getByText("Drawn at 103.1 % across and 100.0 % down.").waitFor();

    await dialog.getByRole("button", { name: "Take none" }).click();
    await list.getByRole("checkbox", { name: /^lug:/ }).check();
    await dialog.getByRole("button", { name: "Look at it" }).click();
    await dialog.getByRole("img", { name: /Templates.*1/ }).waitFor();
    const [sheet, ...others] = await renderPdf(await saved(page, "Save PDF, full size"), 2);
    expect(others).toEqual([]);
    expect(sheet!.text).toContain("103.1 % across");
    expect(sheet!.text).toContain("Brackets to cut");
    const dxf = new DxfParser().parseSync((await saved(page, "Save DXF")).toString("utf8"))!;
    const holes = dxf.entities.filter(({ type }) => type === "CIRCLE") as ICircleEntity[];
    // the clevis' usual pin
    expect(holes.map(({ radius, layer }) => [radius, layer])).toEqual([
      [6, "CUT"],
      [6, "CUT"],
    ]);
    expect(dxf.entities.filter(({ layer }) => layer === "FOLD")).toHaveLength(2);
    expect(faults).toEqual([]);
    await context.close();
  });
});
