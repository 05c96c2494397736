import { describe, expect, it } from "vitest";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

describe("the guided set-up", () => {
  it("is left half-way, resumed after a reload, changed, and ends with verdicts", async () => {
    const { page, faults, context } = await app.open({ width: 820, height: 1180, touch: true });
    const field = (name: RegExp) => page.getByRole("textbox", { name });
    const asks = (words: string) => page.getByRole("heading", { name: words }).waitFor();
    await page.getByRole("button", { name: /^Scene/ }).click();
    await page.getByRole("menuitem", { name: "Begin a corner…" }).click();
    await page.getByRole("button", { name: /^Semi-trailing arm/ }).click();
    await page.getByRole("button", { name: "Ask me one measurement at a time" }).click();
    await field(/^Name/).fill("Heron, rear");
    await field(/^Name/).press("Enter");
    await page.getByRole("button", { name: "Both sides", exact: true }).click();
    await field(/^Tyre size/).fill("195/50R15");
    await field(/^Tyre size/).press("Enter");
    await asks("How wide is the rim?");
    await page.getByRole("button", { name: /^Scene/ }).click();
    await page.getByRole("menuitem", { name: "Projects…" }).click();
    // the list tells what is saved, not what is shown
    await page.getByRole("button", { name: /^Heron, rear.*3 steps/ }).waitFor();
    await page.reload();

    await asks("How wide is the rim?");
    await page.getByRole("button", { name: "Scene: Heron, rear" }).waitFor();
    await page.getByRole("button", { name: "Skip: assume 6.5 inches" }).click();
    await page.getByRole("button", { name: "Back", exact: true }).click();
    await page.getByText("assumed, not measured").waitFor();
    await field(/^Rim width/).fill("7");
    await page.getByRole("button", { name: "Keep and go on" }).click();
    await asks("How far out from the rim's middle plane is its hub face?");
    for (let i = 0; i < 40 && (await page.getByText(/Before the wheel's way can be worked out/).count()) > 0; i++) {
      await page.getByRole("button", { name: /^Skip/ }).click();
    }
    await page.getByRole("button", { name: "See the verdicts" }).click();
    await untilChecked(page);
    await page.getByRole("region", { name: "Verdicts" }).getByText("0 clash").waitFor();
    await page.getByRole("button", { name: "Set-up" }).click();
    await page.getByRole("button", { name: "All answers" }).click();
    expect(await page.getByRole("button", { name: /^Rim width/ }).textContent()).toMatch(/7 inches.*measured/);
    expect(await page.getByRole("button", { name: /^Arm, outer bush/ }).textContent()).toMatch(/assumed, not measured/);
    expect(faults).toEqual([]);
    await context.close();
  });
});
