import { describe, expect, it } from "vitest";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

describe("a builder asks whether the running gear works as a machine", () => {
  it("reads the shafts, tells the spring, follows an end of the travel, tells a joint and looks at the side view", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.keyboard.press("r");
    const sheet = page.getByRole("region", { name: "Running gear" });
    const row = (name: string) => sheet.getByRole("row", { name: new RegExp(`^${name}`) });
    await row("Shortest").waitFor();
    const atRide = await row("Length now").textContent();
    await row("Shortest").getByRole("button").first().click();
    await expect.poll(() => row("Length now").textContent()).not.toBe(atRide);
    expect(await sheet.getByRole("img", { name: /plunge from .* against an angle/ }).count()).toBe(2);

    await sheet.getByRole("button", { name: "Tell the bar…" }).first().click();
    const dialog = page.getByRole("dialog", { name: "Driveshaft" });
    await dialog
      .locator(".size-row", { hasText: "Bar alone" })
      .first()
      .getByRole("button", { name: "Give it" })
      .click();
    await dialog.getByRole("textbox", { name: "Bar alone, end to end" }).first().fill("410");
    await dialog.getByRole("button", { name: "Keep it" }).click();
    await sheet
      .getByText(/a bar of 4\d\d\.\d mm/)
      .first()
      .waitFor();
    await untilChecked(page);

    await sheet.getByRole("button", { name: "Spring", exact: true }).click();
    await sheet.getByText("Springs store energy.").waitFor();
    await sheet
      .getByRole("button", { name: /the bump stop is touched/ })
      .first()
      .click();
    await page.getByRole("slider", { name: "Left wheel travel" }).and(page.locator("[aria-valuetext*=bump]")).waitFor();

    await sheet.getByRole("button", { name: "Joints", exact: true }).click();
    await sheet.getByRole("button", { name: "Tell of Upper link, inboard end…" }).click();
    const joint = page.getByRole("dialog", { name: "Upper link, inboard end" });
    await joint.getByRole("button", { name: "rod end" }).click();
    await joint.getByRole("checkbox", { name: /points otherwise/ }).click();
    await joint.getByRole("checkbox", { name: "How far it may tilt is known" }).click();
    await joint.getByRole("textbox", { name: "May tilt" }).fill("1");
    await joint.getByRole("button", { name: "Keep it" }).click();
    await sheet.getByRole("button", { name: /Upper link, inboard end: tilts .* too far/ }).waitFor();
    await untilChecked(page);

    await sheet.getByRole("button", { name: "Roll and side" }).click();
    await sheet.getByRole("button", { name: "Show these over the travel" }).click();
    await page.getByRole("button", { name: "Bump steer: what it is" }).click();
    await page.getByText(/How fast toe changes as the wheel rises/).waitFor();
    await page.keyboard.press("Escape");

    await sheet.getByRole("button", { name: "Close" }).click();
    // the limit that was told is a verdict of the check
    await page
      .getByRole("region", { name: "Verdicts" })
      .getByText(/tilts .* too far/)
      .first()
      .waitFor();
    expect(faults).toEqual([]);
    await context.close();
  });
});
