import { describe, expect, it } from "vitest";
import { browserApp, untilChecked, verdictsOf } from "./openApp.ts";

const app = browserApp();

describe("the workers behind the app", () => {
  it("share memory with the page as it is served", async () => {
    const { page, faults, context } = await app.open();
    expect(await page.evaluate(() => crossOriginIsolated)).toBe(true);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("are replaced when one dies in the middle of a check, and the check is done all the same", async () => {
    const { page, context } = await app.open();
    await untilChecked(page);
    const before = await verdictsOf(page);
    await page.getByRole("button", { name: "Points & parts" }).click();
    await page.locator("button.point-row", { hasText: "Upper link, inboard end" }).click();
    const [worker] = page.workers();
    expect(worker).toBeDefined();
    await worker!.evaluate(() => {
      // a fault of the program's own, thrown where nobody catches it
      setTimeout(() => {
        throw new Error("out of memory");
      });
    });
    const out = page.getByRole("textbox", { name: "Out" });
    await out.fill(`${await out.inputValue()}+5`);
    await page.getByText("not kept yet").first().waitFor();
    await untilChecked(page);
    await page.getByRole("button", { name: /^Put it back/ }).click();
    await page.getByRole("button", { name: "Corner", exact: true }).click();
    await untilChecked(page);
    expect(await verdictsOf(page)).toEqual(before);
    await context.close();
  });

  it("let go of a check that is stopped, and take it up again", async () => {
    const { page, faults, context } = await app.open();
    const stop = page.getByRole("button", { name: "Stop" });
    // at once, before the button has come to rest; where the check was quicker it is begun anew
    const isStopped = async () => {
      await stop.click({ force: true, timeout: 5000 });
      await page.getByText(/Stopped/).waitFor({ timeout: 5000 });
    };
    for (let tries = 0; tries < 5; tries++) {
      const stopped = await isStopped().then(
        () => true,
        () => false,
      );
      if (stopped) break;
      await page.reload();
    }
    await page.getByText(/Stopped/).waitFor();
    await page.getByRole("button", { name: "Check again" }).click();
    await untilChecked(page);
    expect((await verdictsOf(page)).some((line) => /^Upper link meets sump/.test(line))).toBe(true);
    expect(faults).toEqual([]);
    await context.close();
  });
});
