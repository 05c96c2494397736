import { describe, expect, it } from "vitest";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

describe("a builder adds parts from the shelf", () => {
  it("a clevis and a cross tube, sized, mirrored, renamed, pulled in the view, and all of it undone", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    await page.getByRole("button", { name: "Points & parts" }).click();
    await page.getByRole("group", { name: "List" }).getByRole("button", { name: "Parts" }).click();
    const rows = page.locator(".parts-panel .part-row");
    const before = await rows.allTextContents();

    // a clevis on the upper link's mount, with longer lugs
    await page.getByRole("button", { name: "Add a part" }).click();
    await page.getByRole("button", { name: /^Clevis/ }).click();
    await page.getByRole("combobox", { name: "Pin", exact: true }).click();
    await page.getByRole("option", { name: "upper.in", exact: true }).click();
    await page.getByRole("textbox", { name: "Pin to base" }).fill("60");
    await page.getByRole("button", { name: "Add it" }).click();
    await page.getByRole("heading", { name: "Clevis" }).waitFor();
    await page.getByRole("textbox", { name: "Gap between lugs" }).fill("1 1/2in");
    await page.getByText("not kept yet").waitFor();
    await page.getByRole("button", { name: "Keep this" }).click();
    await page.getByRole("button", { name: "Undo: clevis: gap between lugs 38.1" }).waitFor();

    // pulled by its handle, with the keys and with the mouse
    await untilChecked(page);
    const handle = page.getByRole("slider", { name: "Pin to base" });
    await handle.focus();
    await page.keyboard.press("ArrowUp");
    expect(await page.getByRole("textbox", { name: "Pin to base" }).inputValue()).toBe("61.0");
    const box = (await handle.boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 30, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    expect(await page.getByRole("textbox", { name: "Pin to base" }).inputValue()).not.toBe("61.0");
    await page.getByRole("button", { name: "Keep this" }).click();

    // a cross tube on points of its own, as its image and under another name
    await page.getByRole("button", { name: "All parts" }).click();
    await page.getByRole("button", { name: "Add a part" }).click();
    await page.getByRole("searchbox", { name: "Search the shelf" }).fill("cross");
    await page.getByRole("button", { name: /^Cross tube/ }).click();
    await page.getByRole("textbox", { name: "Diameter" }).fill("50");
    await page.getByRole("button", { name: "Add it" }).click();
    await page.getByRole("heading", { name: "Cross tube" }).waitFor();
    await page.getByRole("button", { name: "To the other side" }).click();
    await page.getByRole("button", { name: /^Cross tube: rename/ }).click();
    await page.getByRole("menuitem", { name: "Rename…" }).click();
    await page.getByRole("dialog").getByRole("textbox", { name: "Name", exact: true }).fill("rear brace");
    await page.getByRole("button", { name: "Rename", exact: true }).click();
    await page.getByRole("heading", { name: "Rear brace" }).waitFor();
    await page.getByRole("button", { name: "All parts" }).click();
    expect((await rows.allTextContents()).filter((row) => /^(Clevis|Rear brace)/.test(row))).toHaveLength(2);

    // a reload keeps it all, and every step is undone by its name
    await page.reload();
    await page.getByRole("button", { name: /^Undo: rename cross tube rear brace/ }).waitFor();
    for (let i = 0; i < 6; i++) await page.getByRole("button", { name: /^Undo/ }).click();
    await page.getByRole("button", { name: "Points & parts" }).click();
    await page.getByRole("group", { name: "List" }).getByRole("button", { name: "Parts" }).click();
    await expect.poll(() => rows.allTextContents()).toEqual(before);
    expect(await page.getByRole("button", { name: "Undo", exact: true }).isDisabled()).toBe(true);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("moves the powertrain as one, sees it move, and puts it back", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    await page.getByRole("button", { name: "Points & parts" }).click();
    await page.getByRole("group", { name: "List" }).getByRole("button", { name: "Parts" }).click();
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
