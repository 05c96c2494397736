import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { keptStep } from "./kept.ts";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

async function openParts(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Points & parts" }).click();
  await page.getByRole("group", { name: "List" }).getByRole("button", { name: "Parts" }).click();
}

/** The sheet of the part in hand, once the shelf or a question has closed over it. */
async function inHand(page: Page, name: string): Promise<void> {
  await page.getByRole("region", { name, exact: true }).waitFor();
  await page.getByRole("dialog").waitFor({ state: "detached" });
}

const rowsOf = (page: Page) => page.locator(".parts-panel .part-row");

describe("a builder adds parts from the shelf", () => {
  it("a clevis, sized in inches, pulled in the view by keys and mouse, and undone", async () => {
    const { page, faults, context } = await app.open();
    await openParts(page);
    const before = await rowsOf(page).allTextContents();
    await page.getByRole("button", { name: "Add a part" }).click();
    await page.getByRole("button", { name: /^Clevis/ }).click();
    await page.getByRole("combobox", { name: "Pin", exact: true }).click();
    await page.getByRole("option", { name: "upper.in", exact: true }).click();
    await page.getByRole("textbox", { name: "Pin to base" }).fill("60");
    await page.getByRole("button", { name: "Add it" }).click();
    await inHand(page, "Clevis");
    await page.getByRole("textbox", { name: "Gap between lugs" }).fill("1 1/2in");
    await page.getByText("not kept yet").waitFor();
    await page.getByRole("button", { name: "Keep this" }).click();
    await page.getByRole("button", { name: "Undo: clevis: gap between lugs 38.1" }).waitFor();

    const handle = page.getByRole("slider", { name: "Pin to base" });
    await handle.focus();
    await page.keyboard.press("ArrowUp");
    const reach = page.getByRole("textbox", { name: "Pin to base" });
    expect(await reach.inputValue()).toBe("61.0");
    const box = (await handle.boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 30, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    expect(await reach.inputValue()).not.toBe("61.0");
    await page.getByRole("button", { name: "Keep this" }).click();
    for (let i = 0; i < 3; i++) await page.getByRole("button", { name: /^Undo:/ }).click();
    await expect.poll(() => rowsOf(page).allTextContents()).toEqual(before);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("a cross tube, as its image and under another name; a reload keeps it, every step is undone", async () => {
    const { page, faults, context } = await app.open();
    await openParts(page);
    const before = await rowsOf(page).allTextContents();
    await page.getByRole("button", { name: "Add a part" }).click();
    await page.getByRole("searchbox", { name: "Search the shelf" }).fill("cross");
    await page.getByRole("button", { name: /^Cross tube/ }).click();
    await page.getByRole("textbox", { name: "Diameter" }).fill("50");
    await page.getByRole("button", { name: "Add it" }).click();
    await inHand(page, "Cross tube");
    await page.getByRole("button", { name: "To the other side" }).click();
    await page.getByRole("button", { name: /^Cross tube: rename/ }).click();
    await page.getByRole("menuitem", { name: "Rename…" }).click();
    await page.getByRole("dialog").getByRole("textbox", { name: "Name", exact: true }).fill("rear brace");
    await page.getByRole("button", { name: "Rename", exact: true }).click();
    await inHand(page, "Rear brace");
    await expect.poll(() => keptStep(page)).toBe(3);
    await page.reload();
    await page.getByRole("button", { name: /^Undo: rename cross tube rear brace/ }).waitFor();
    for (let i = 0; i < 3; i++) await page.getByRole("button", { name: /^Undo:/ }).click();
    await openParts(page);
    await expect.poll(() => rowsOf(page).allTextContents()).toEqual(before);
    expect(await page.getByRole("button", { name: "Undo", exact: true }).isDisabled()).toBe(true);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("copies one, lets it ride on the chassis, deletes it; every step is undone", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    await openParts(page);
    const before = await rowsOf(page).allTextContents();
    await page.locator(".part-row", { hasText: /^Sump/ }).first().click();
    await page.getByRole("button", { name: /^Sump: rename/ }).click();
    await page.getByRole("menuitem", { name: "Copy…" }).click();
    await page.getByRole("dialog").getByRole("textbox", { name: "Name", exact: true }).fill("spare sump");
    await page.getByRole("button", { name: "Copy", exact: true }).click();
    await inHand(page, "Spare sump");
    await page.getByRole("combobox", { name: "Rides on" }).click();
    await page.getByRole("option", { name: "the chassis" }).click();
    await page.getByRole("button", { name: "Undo: spare sump rides on the chassis" }).waitFor();
    await page.getByRole("button", { name: /^Spare sump: rename/ }).click();
    await page.getByRole("menuitem", { name: "Delete…" }).click();
    await page.getByRole("button", { name: "Delete", exact: true }).click();
    await page.getByRole("button", { name: "Undo: delete spare sump" }).waitFor();
    await page.getByRole("button", { name: "Undo: delete spare sump" }).click();
    await page.getByRole("button", { name: "Undo: spare sump rides on the chassis" }).click();
    await page.getByRole("button", { name: "Undo: copy sump" }).click();
    await expect.poll(() => rowsOf(page).allTextContents()).toEqual(before);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("moves the powertrain as one, sees it move, and puts it back", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    await openParts(page);
    await page.getByRole("button", { name: /^Move and tilt as one/ }).click();
    const picture = page.locator("canvas").first();
    const asDrawn = await picture.screenshot();
    for (let i = 0; i < 4; i++) await page.getByRole("button", { name: "Up 10 mm" }).click();
    await page.getByText("powertrain up 40.0 mm").waitFor();
    await expect.poll(async () => (await picture.screenshot()).equals(asDrawn), { timeout: 60_000 }).toBe(false);
    await page.keyboard.press("Escape");
    await expect.poll(() => page.getByText("not kept yet").count()).toBe(0);
    expect(await page.getByRole("textbox", { name: /^Up/ }).inputValue()).toBe("0.0");
    expect(faults).toEqual([]);
    await context.close();
  });
});
