import { describe, expect, it } from "vitest";
import { axeProgram, faultsOf } from "./axeFaults.ts";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

async function opened(options: Parameters<typeof app.open>[0]) {
  const all = await app.open(options);
  await all.page.evaluate(axeProgram);
  await untilChecked(all.page);
  const isClean = async (what: string) => expect(await faultsOf(all.page), what).toEqual([]);
  const dialog = async (what: string, open: () => Promise<void>, close: "Escape" | string = "Escape") => {
    await open();
    await all.page.getByRole("dialog").waitFor();
    await isClean(what);
    if (close === "Escape") await all.page.keyboard.press("Escape");
    else await all.page.getByRole("button", { name: close }).click();
    await all.page.getByRole("dialog").waitFor({ state: "detached" });
  };
  return { ...all, isClean, dialog };
}

describe("for a screen reader", () => {
  it("names, roles and contrast are right in every place, with a point and a part in hand", async () => {
    const { page, faults, context, isClean } = await opened({});
    await page.getByRole("button", { name: /^Upper link meets sump/ }).click();
    await isClean("a verdict");
    await page.getByRole("button", { name: "Turn the view" }).click();
    await isClean("turning the view");
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    for (const [key, name] of Object.entries({
      m: "Measure",
      c: "Section",
      h: "Ghosts",
      e: "Envelope",
      t: "Studies",
    })) {
      await page.keyboard.press(key);
      await page.getByRole("region", { name }).waitFor();
      await isClean(name);
    }
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Points & parts" }).click();
    const list = page.getByRole("group", { name: "List" });
    for (const name of ["Parts", "Left, right", "The car", "Hard points"]) {
      const all = page.getByRole("button", { name: "All parts" });
      await list.or(all).first().waitFor();
      if (await all.count()) await all.click();
      await list.getByRole("button", { name }).click();
      await isClean(name);
    }
    await page.locator("button.point-row", { hasText: "Upper link, inboard end" }).click();
    await page.locator(".held-mark .held").waitFor();
    await isClean("a point in hand");
    await page.getByRole("button", { name: "Build log" }).click();
    await isClean("build log");
    expect(faults).toEqual([]);
    await context.close();
  });

  it("and in every dialog", async () => {
    const { page, faults, context, isClean, dialog } = await opened({ noPicture: true });
    const press = (name: string | RegExp) => () => page.getByRole("button", { name }).first().click();
    const item = (name: string) => async () => {
      await press(/^Scene/)();
      await page.getByRole("menuitem", { name }).click();
    };
    await press(/^Scene/)();
    await page.getByRole("menu").waitFor();
    await isClean("menu");
    await page.keyboard.press("Escape");
    for (const name of ["Projects…", "Steps…", "Begin a corner…", "Keys", "Cautions"]) await dialog(name, item(name));
    await press("Points & parts")();
    await page.locator("button.point-row", { hasText: "Upper link, inboard end" }).click();
    await dialog("tape", press("Place it by tape…"));
    await press("All points")();
    await dialog("a new point", press("New hard point…"));
    const list = page.getByRole("group", { name: "List" });
    await list.getByRole("button", { name: "The car" }).click();
    for (const name of [/^What holds/, /^Travel/, /^Wanted gaps/, /^How the powertrain/, /^Datums/]) {
      await dialog(String(name), press(name));
    }
    await list.getByRole("button", { name: "Parts" }).click();
    // what carries the point is still in hand
    await press("All parts")();
    await dialog("shelf", press("Add a part"));
    await dialog("a ready part", async () => {
      await press("Add a part")();
      await press(/^Clevis/)();
    });
    await dialog("pieces", press("Build from pieces"));
    await dialog("scan", press("Bring in a scan"), "Leave it");
    await item("Begin a corner…")();
    await press("Ask me one measurement at a time")();
    await page.getByRole("region", { name: "Guided set-up" }).waitFor();
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await isClean("guided set-up");
    expect(faults).toEqual([]);
    await context.close();
  });
});
