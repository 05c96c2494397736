import { describe, expect, it } from "vitest";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

describe("a builder asks whether the car can be worked on", () => {
  it("says what must be reached and taken out, tries it, follows the part to what stops it, and takes a job back", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.keyboard.press("t");
    const sheet = page.getByRole("region", { name: "Studies" });
    await sheet.getByRole("combobox", { name: "Study" }).click();
    await page.getByRole("option", { name: "Service", exact: true }).click();

    await sheet.getByRole("button", { name: "Reach a bolt or plug" }).click();
    const reach = page.getByRole("dialog", { name: "Reach a bolt or plug" });
    await reach.getByRole("textbox", { name: "Forward of axle" }).fill("60");
    await reach.getByRole("textbox", { name: "Left of centre" }).fill("352");
    await reach.getByRole("textbox", { name: "Up off ground" }).fill("300");
    await reach.getByRole("button", { name: "Keep" }).click();
    await reach.waitFor({ state: "detached" });

    await sheet.getByRole("button", { name: "Take a part out" }).click();
    const out = page.getByRole("dialog", { name: "Take a part out" });
    await out.getByRole("combobox", { name: "What comes out" }).click();
    await page.getByRole("option", { name: "Sump", exact: true }).click();
    await out.getByRole("button", { name: "Keep" }).click();
    await out.waitFor({ state: "detached" });

    await sheet.getByRole("button", { name: "Try the jobs" }).click();
    await sheet.getByText("Ride height: no").waitFor();
    await sheet.getByRole("button", { name: /^Sump out/ }).click();
    await sheet.getByText(/^Step 1: sump meets .* after [\d.]+ mm\.$/).waitFor();
    const slider = sheet.getByRole("slider", { name: "Along the path" });
    const end = await slider.getAttribute("aria-valuetext");
    await slider.press("Home");
    await expect.poll(() => slider.getAttribute("aria-valuetext")).toBe("Step 1, 0.0 mm");
    await slider.press("End");
    await expect.poll(() => slider.getAttribute("aria-valuetext")).toBe(end);
    await sheet.getByRole("button", { name: "Look closer" }).click();
    await sheet.getByRole("button", { name: "Hanging", exact: true }).click();
    await page
      .getByRole("slider", { name: "Left wheel travel" })
      .and(page.locator("[aria-valuetext*=droop]"))
      .waitFor();

    await sheet.getByRole("button", { name: /^Oil plug/ }).click();
    await sheet.getByRole("button", { name: /^Socket 26 mm × 90 mm / }).waitFor();

    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => sheet.getByRole("button", { name: /^Sump out/ }).count()).toBe(0);
    await sheet.getByText("From before your change.").waitFor();
    // jobs start no check
    expect(await page.locator("main[aria-busy=false]").count()).toBe(1);
    expect(faults).toEqual([]);
    await context.close();
  });
});
