import { describe, expect, it } from "vitest";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

describe("a builder asks whether it also carries", () => {
  it("tells the mass, reads forces and arrows at a travel, screens a tube, and closes the loads again", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.keyboard.press("l");
    const sheet = page.getByRole("region", { name: "Loads" });
    await sheet.getByText(/not a licence to drive/).waitFor();
    const arrows = page.locator(".load-arrows .shaft").first();
    expect(await arrows.count()).toBe(0);

    await sheet.getByRole("button", { name: "Tell the mass…" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByRole("textbox", { name: "Mass on the wheel" }).fill("290");
    await dialog.getByRole("button", { name: "Keep it" }).click();
    // 290 · 9.80665 N, in three figures
    await sheet.getByRole("row", { name: /^Road on the tyre 2\.84\skN/ }).waitFor();
    await arrows.waitFor({ state: "attached" });
    expect(await page.locator("main").getAttribute("aria-busy")).toBe("false");
    const damper = sheet.getByRole("row", { name: /^Damper, spring and stop/ });
    // the worst of all comes from a worker
    await expect.poll(() => damper.textContent()).toMatch(/push.*kN.*push.*kN/);

    await sheet.getByRole("combobox", { name: "Load case" }).click();
    await page.getByRole("option", { name: "bump and brake" }).click();
    const atRide = await damper.textContent();
    const drawn = await arrows.getAttribute("d");
    await page.getByRole("slider", { name: "Left wheel travel" }).focus();
    for (let i = 0; i < 3; i++) await page.keyboard.press("Shift+ArrowUp");
    await sheet.getByText(/Left wheel at \+30 bump/).waitFor();
    expect(await damper.textContent()).not.toBe(atRide);
    expect(await arrows.getAttribute("d")).not.toBe(drawn);

    await sheet.getByRole("button", { name: "Upper link, inboard end" }).click();
    await page.locator(".load-label", { hasText: "Upper link, inboard end" }).waitFor();
    await sheet.getByText(/What the frame does to the upper link/).waitFor();

    await sheet.getByRole("button", { name: "Screening" }).click();
    await sheet.getByText(/Nothing is screened yet/).waitFor();
    await sheet.getByRole("button", { name: /^Upper linkthe tube|^Upper link the tube/ }).click();
    await sheet.getByRole("button", { name: "Tell it…" }).first().click();
    await dialog.getByText(/Still to tell: Outer diameter, Wall, Material/).waitFor();
    await dialog.getByRole("textbox", { name: "Outer diameter" }).fill("26");
    await dialog.getByRole("textbox", { name: "Wall" }).fill("2.5");
    await dialog.getByRole("combobox", { name: "Material" }).click();
    await page.getByRole("option", { name: "E355+N" }).click();
    await dialog.getByRole("button", { name: "Keep it" }).click();
    const row = sheet.getByRole("button", { name: /Upper link: compression/ });
    await row.click();
    await sheet.getByText(/Shigley/).waitFor();
    expect(await row.textContent()).toMatch(/×.*no wanted factor is set/);
    expect(await page.locator("main").getAttribute("aria-busy")).toBe("false");

    await page.keyboard.press("Control+z");
    await sheet.getByText(/Nothing is screened yet/).waitFor();
    await sheet.getByRole("button", { name: "Close" }).click();
    await page.getByRole("region", { name: "Verdicts" }).waitFor();
    expect(await arrows.count()).toBe(0);
    expect(faults).toEqual([]);
    await context.close();
  });
});
