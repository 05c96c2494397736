import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { browserApp } from "./openApp.ts";

const app = browserApp();

/** Share of pixels of the 3D picture that are darker than its background can be. */
async function darkShare(page: Page): Promise<number> {
  const picture = await page.locator("canvas").first().screenshot();
  return page.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
    const context = canvas.getContext("2d")!;
    context.drawImage(bitmap, 0, 0);
    // the middle half: no chips, rules or docks over it
    const [w, h] = [Math.floor(bitmap.width / 2), Math.floor(bitmap.height / 2)];
    const { data } = context.getImageData(Math.floor(w / 2), Math.floor(h / 2), w, h);
    let dark = 0;
    for (let i = 0; i < data.length; i += 4) if (data[i]! + data[i + 1]! + data[i + 2]! < 360) dark++;
    return dark / (w * h);
  }, picture.toString("base64"));
}

async function untilDrawn(page: Page): Promise<void> {
  await expect.poll(() => darkShare(page), { timeout: 60_000, interval: 1000 }).toBeGreaterThan(0.03);
}

function loseContext(page: Page): Promise<void> {
  return page.evaluate(() => {
    const gl = document.querySelector("canvas")!.getContext("webgl2")!;
    const loss = gl.getExtension("WEBGL_lose_context")!;
    Object.assign(window, { comesBack: () => loss.restoreContext() });
    loss.loseContext();
  });
}

describe("the 3D picture", { timeout: 180_000 }, () => {
  it("shows the car, and an empty floor where all groups are off", async () => {
    const { page, faults, context } = await app.open();
    await untilDrawn(page);
    for (const name of ["Chassis", "Powertrain", "Hub side", "Arms"]) {
      await page.getByRole("button", { name: `${name} solid. Press for glass` }).click();
      await page.getByRole("button", { name: `${name} glass. Press for off` }).click();
    }
    await expect.poll(() => darkShare(page), { timeout: 60_000, interval: 1000 }).toBe(0);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("leaves the stand when the builder orbits, and comes back to it", async () => {
    const { page, faults, context } = await app.open();
    await untilDrawn(page);
    const behind = page.getByRole("group", { name: "Look from" }).getByRole("button", { name: "behind" });
    expect(await behind.getAttribute("aria-pressed")).toBe("true");
    const box = (await page.locator("canvas").first().boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 60, y + 10, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => behind.getAttribute("aria-pressed")).toBe("false");
    await behind.click();
    expect(await behind.getAttribute("aria-pressed")).toBe("true");
    expect(faults).toEqual([]);
    await context.close();
  });

  it("says that it was lost, and comes back by itself or when asked", async () => {
    const { page, faults, context } = await app.open();
    await untilDrawn(page);
    await loseContext(page);
    await page.getByText("The picture was lost").waitFor();
    await page.evaluate(() => (window as unknown as { comesBack(): void }).comesBack());
    await page.getByText("The picture was lost").waitFor({ state: "detached" });
    await untilDrawn(page);
    await loseContext(page);
    await page.getByRole("button", { name: "Draw it again" }).click();
    await page.getByText("The picture was lost").waitFor({ state: "detached" });
    await untilDrawn(page);
    expect(faults.filter((fault) => !/context/i.test(fault))).toEqual([]);
    await context.close();
  });
});
