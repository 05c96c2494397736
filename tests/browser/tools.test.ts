import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { dot, length, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();
const SAMPLE = fileURLToPath(new URL("../../scenes/1-hub-and-arm-donor-links.json", import.meta.url));

function hardPoint(name: string): Vec3 {
  const { points } = JSON.parse(readFileSync(SAMPLE, "utf8"));
  return points[name].at ?? points[name];
}

describe("a builder measures, cuts and looks ahead", () => {
  it("pins a distance and a gap that follow the wheel, hides one, and undoes the other", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.keyboard.press("m");
    const panel = page.getByRole("region", { name: "Measure" });
    const pick = async (label: string, option: string) => {
      await panel.getByRole("combobox", { name: label }).click();
      await page.getByRole("option", { name: option, exact: true }).click();
    };
    await pick("or a hard point", "Upper link, inboard end");
    await pick("or a hard point", "Wheel, centre");
    const list = panel.getByRole("list", { name: "Pinned measures" });
    await list.getByText(/^Upper link, inboard end to|1\. Upper link, inboard end to Wheel, centre/).waitFor();
    const value = async (number: number) =>
      Number.parseFloat(
        (await list
          .locator("li")
          .nth(number - 1)
          .locator("b")
          .textContent())!,
      );
    const before_mm = await value(1);
    await panel.getByRole("button", { name: "gap" }).click();
    await pick("or a part", "Tyre, left");
    await pick("or a part", "Upper link, left");
    await expect.poll(() => value(2)).toBeGreaterThan(0);
    const gap_mm = await value(2);
    await panel.getByRole("button", { name: "Close" }).click();
    await page.getByRole("slider", { name: "Left wheel travel" }).focus();
    for (let i = 0; i < 4; i++) await page.keyboard.press("Shift+ArrowUp");
    await page.keyboard.press("m");
    await expect.poll(() => value(1)).not.toBe(before_mm);
    await expect.poll(() => value(2)).not.toBe(gap_mm);
    await panel.getByRole("button", { name: "Hide measure 1" }).click();
    await panel.getByRole("button", { name: "Show measure 1" }).waitFor();
    await page.keyboard.press("Control+z");
    await page.keyboard.press("Control+z");
    await expect.poll(() => list.locator("li").count()).toBe(1);
    expect(await page.locator("main").getAttribute("aria-busy")).toBe("false");
    expect(faults).toEqual([]);
    await context.close();
  });

  it("pins an angle, and sees the room that a part sweeps", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    await untilChecked(page);
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.keyboard.press("m");
    const measure = page.getByRole("region", { name: "Measure" });
    const pick = async (panel: typeof measure, label: string, option: string) => {
      await panel.getByRole("combobox", { name: label }).click();
      await page.getByRole("option", { name: option, exact: true }).click();
    };
    await measure.getByRole("button", { name: "angle" }).click();
    const corners = ["upper.out", "upper.in", "lower.in"] as const;
    for (const end of ["Upper link, outboard end", "Upper link, inboard end", "Lower link, inboard end"]) {
      await pick(measure, "or a hard point", end);
    }
    const row = measure.getByRole("list", { name: "Pinned measures" }).locator("li").first();
    const [a, b, c] = corners.map(hardPoint) as [Vec3, Vec3, Vec3];
    const [p, q] = [subtract(a, b), subtract(c, b)];
    const angle_deg = (Math.acos(dot(p, q) / (length(p) * length(q))) * 180) / Math.PI;
    expect(Number.parseFloat((await row.locator("b").textContent())!)).toBeCloseTo(angle_deg, 1);

    await page.keyboard.press("Escape");
    await page.keyboard.press("e");
    const swept = page.getByRole("region", { name: "Envelope" });
    await pick(swept, "Room swept by", "Upper link, left");
    const told = swept.getByText(/^Nowhere inside the room that is really swept, and at most [\d.]+ mm outside/);
    await told.waitFor();
    expect(Number(/at most ([\d.]+) mm/.exec((await told.textContent())!)![1])).toBeLessThanOrEqual(5);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("cuts the car open, and sees wheels at full bump and droop beside the present ones", async () => {
    const { page, faults, context } = await app.open({ width: 820, height: 900 });
    await untilChecked(page);
    await page.getByRole("dialog").waitFor({ state: "detached" });
    const canvas = page.locator("canvas").first();
    const whole = await canvas.screenshot();
    await page.keyboard.press("c");
    await page.getByRole("group", { name: "How the section lies" }).getByRole("button", { name: "across" }).click();
    const slider = page.getByRole("slider", { name: /Where it lies/ });
    await slider.fill("-30");
    expect(await slider.getAttribute("aria-valuetext")).toBe("30.0 mm behind the axle line");
    const cut = await canvas.screenshot();
    expect(cut.equals(whole)).toBe(false);
    await page.getByRole("button", { name: "off", exact: true }).click();
    await page.keyboard.press("h");
    await page.getByRole("button", { name: "full droop" }).click();
    await page.locator(".ghost-tags span").first().waitFor();
    expect(await page.locator(".ghost-tags span").first().textContent()).toMatch(/droop/);
    expect(faults).toEqual([]);
    await context.close();
  });
});
