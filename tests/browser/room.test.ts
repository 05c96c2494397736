import { describe, expect, it } from "vitest";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

describe("a builder asks where a pivot may live", () => {
  it("stops a long search, follows a line, taps a place in the view, takes it and takes it back", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.keyboard.press("t");
    const sheet = page.getByRole("region", { name: "Studies" });
    const button = (name: string) => sheet.getByRole("button", { name, exact: true });
    await sheet.getByRole("combobox", { name: "Study" }).getByText("Room for a point").waitFor();

    // more places than anybody waits for: what is there when it is stopped stays
    await sheet.getByRole("textbox", { name: "Steps", exact: true }).fill("1");
    await sheet.getByText("68,921 places", { exact: true }).waitFor();
    await button("Look for room").click();
    await sheet.getByText(/^[1-9][\d,]* of 68,921 places tried$/).waitFor();
    await button("Stop, keep these").click();
    await sheet.getByText(/^Stopped after [1-9][\d,]* of 68,921 places\.$/).waitFor();

    await sheet.getByText("Where may it live?").click();
    await button("Line").click();
    await sheet.getByRole("textbox", { name: "Steps", exact: true }).fill("4");
    await sheet.getByText("11 places", { exact: true }).waitFor();
    await button("Look again").click();
    await sheet.getByText(/^(No|\d+) places? of 11 ha(s|ve) room\.$/).waitFor();
    const places = sheet.getByRole("application");
    await places.focus();
    await page.keyboard.press("Home");
    await page.keyboard.press("ArrowLeft");
    const slider = sheet.getByRole("slider", { name: "Upward of the point" });
    expect(await slider.getAttribute("aria-valuetext")).toBe("4 mm up");
    const place = sheet.getByRole("region", { name: "The place looked at" });
    await place.getByRole("img", { name: /^Toe over travel/ }).waitFor();

    // in the view a tap takes the place under it
    const now = page.locator(".view-lines .room-now");
    const away = await now.boundingBox();
    await button("Come closer in the view").click();
    await expect.poll(async () => (await now.boundingBox())?.x).not.toBe(away!.x);
    const ring = (await now.boundingBox())!;
    await page.mouse.click(ring.x + ring.width / 2, ring.y + ring.height / 2);
    await expect.poll(() => slider.getAttribute("aria-valuetext")).toBe("0");
    await slider.focus();
    await page.keyboard.press("ArrowRight");
    await place.getByText("4 up (4.0 mm)").waitFor();

    await button("Take it").click();
    await sheet.getByText("From before your change.").waitFor();
    await page.getByRole("button", { name: /^Undo.*upper link, inboard end 4 up/i }).waitFor();
    await untilChecked(page);
    await places.focus();
    await page.keyboard.press("Control+z");
    await sheet.getByText("From before your change.").waitFor({ state: "detached" });
    await untilChecked(page);
    expect(faults).toEqual([]);
    await context.close();
  });
});
