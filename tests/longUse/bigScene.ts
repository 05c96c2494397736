import type { Page } from "playwright-core";

/** What came of a scene that was opened in the app, looked at from elsewhere and checked. */
export interface Opened {
  /** Lines of the ledger, as they read. */
  readonly verdicts: readonly string[];
  /** What the app says that it left out or could not do. */
  readonly told: readonly string[];
  /** Whether the picture changed when it was turned, and how long that took by the clock, s. */
  readonly turned: boolean;
  readonly shown_s: number;
  readonly checked_s: number;
  readonly turned_s: number;
}

/** Opens the files as a builder does, turns the view by the mouse while they are checked, and waits for every verdict. */
export async function openBigScene(page: Page, files: readonly string[], title: RegExp): Promise<Opened> {
  const begun = Date.now();
  const since = () => (Date.now() - begun) / 1000;
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: /^Scene/ }).click();
  await page.getByRole("menuitem", { name: "Open a scene file…" }).click();
  await (await chooser).setFiles([...files]);
  await page.getByRole("button", { name: title }).waitFor();
  const shown_s = since();
  const region = page.getByRole("region", { name: "Verdicts" });
  const row = region.getByRole("button", { name: /meets|passes/ }).first();
  const alert = region.getByRole("alert").first();
  await row.or(alert).first().waitFor();
  const canvas = page.locator("canvas").first();
  const box = (await canvas.boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 3];
  const before = await canvas.screenshot();
  const from = since();
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 5; i++) await page.mouse.move(x + 30 * i, y + 4 * i);
  await page.mouse.up();
  await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
  const after = await canvas.screenshot();
  const turned_s = since() - from;

  await page.locator("main[aria-busy=false]").waitFor();
  const checked_s = since();
  return {
    verdicts: await region.getByRole("button", { name: /meets|passes/ }).allTextContents(),
    told: await page.getByRole("alert").allTextContents(),
    turned: !before.equals(after),
    shown_s,
    checked_s,
    turned_s,
  };
}
