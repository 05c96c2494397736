import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { browserApp, untilChecked, verdictsOf } from "./openApp.ts";

const scenes = fileURLToPath(new URL("../../scenes/", import.meta.url));
const [first, second] = readdirSync(scenes)
  .filter((name) => name.endsWith(".json"))
  .sort();
const sceneOf = (name: string) => resolveScene(readScene(readFileSync(scenes + name, "utf8"), name));
const app = browserApp();

describe("a builder opens the app", () => {
  it("reads the cautions first, then sees the first scene with its check done", async () => {
    const { page, faults, context } = await app.open({ firstStart: true });
    const cautions = page.getByRole("dialog");
    await cautions.waitFor();
    const words = ((await cautions.textContent()) ?? "").toLowerCase();
    for (const word of ["spring out", "stands", "engineer", "local codes", "never bend"]) expect(words).toContain(word);
    await cautions.getByRole("button", { name: "I will check on the car" }).click();
    await untilChecked(page);
    await page.getByRole("button", { name: `Scene: ${sceneOf(first!).title}` }).waitFor();
    expect((await verdictsOf(page)).some((line) => /^Upper link meets sump/.test(line))).toBe(true);
    await page.reload();
    await untilChecked(page);
    expect(await page.getByRole("dialog").count()).toBe(0);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("steps the wheel by keys and by dragging the flag, together and opposed", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    const left = page.getByRole("slider", { name: "Left wheel travel" });
    const right = page.getByRole("slider", { name: "Right wheel travel" });
    await left.focus();
    await page.keyboard.press("ArrowUp");
    expect(await left.getAttribute("aria-valuenow")).toBe("1");
    await page.keyboard.press("Shift+ArrowUp");
    expect(await left.getAttribute("aria-valuenow")).toBe("11");
    expect(await right.getAttribute("aria-valuenow")).toBe("11");
    expect(await left.getAttribute("aria-valuetext")).toMatch(/11 bump, clash/);
    await page.getByRole("group", { name: "Wheels" }).getByRole("button", { name: "opposed" }).click();
    await left.focus();
    await page.keyboard.press("Home");
    await page.keyboard.press("Shift+ArrowUp");
    expect(await left.getAttribute("aria-valuenow")).toBe("10");
    expect(await right.getAttribute("aria-valuenow")).toBe("-10");
    const box = (await left.boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2, box.y + 60, { steps: 8 });
    await page.mouse.up();
    expect(Number(await left.getAttribute("aria-valuenow"))).toBeGreaterThan(30);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("goes to the touch of the worst clash at its worst state", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    const before = await page.locator("canvas").first().screenshot();
    await page.getByRole("button", { name: /^Upper link meets sump/ }).click();
    await page.getByRole("img", { name: /^Close look/ }).waitFor();
    const row = page.getByRole("button", { name: /^Upper link meets sump/ });
    expect(await row.getAttribute("aria-expanded")).toBe("true");
    const told = /at ([+−]\d+)/.exec((await row.textContent())!);
    const left = page.getByRole("slider", { name: "Left wheel travel" });
    if (told)
      expect(Number(await left.getAttribute("aria-valuenow"))).toBeCloseTo(Number(told[1]!.replace("−", "-")), 0);
    const after = await page.locator("canvas").first().screenshot();
    expect(after.equals(before)).toBe(false);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("moves the upper link's inner point until the verdicts show it clear, and undoes it exactly", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    const solved = sceneOf(second!).points.get("upper.in")!.at;
    const asItWas = await verdictsOf(page);
    await page.getByRole("button", { name: "Points & parts" }).click();
    await page.locator("button.point-row", { hasText: "Upper link, inboard end" }).click();
    for (const [name, value] of [
      ["Forward", solved[0]],
      ["Out", solved[1]],
      ["Up", solved[2]],
    ] as const) {
      await page.getByRole("textbox", { name }).fill(String(value));
    }
    await page.getByText("not kept yet").waitFor();
    await page.getByRole("button", { name: "Keep this move" }).click();
    await page.getByRole("button", { name: "Corner", exact: true }).click();
    await untilChecked(page);
    const lines = await verdictsOf(page);
    expect(lines.filter((line) => /^Upper link meets/.test(line))).toEqual([]);
    await page.getByRole("button", { name: /^Undo/ }).click();
    await untilChecked(page);
    await expect.poll(() => verdictsOf(page), { timeout: 60_000 }).toEqual(asItWas);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("makes a job card, and finds it after a reload", async () => {
    const { page, faults, context } = await app.open();
    await untilChecked(page);
    await page.getByRole("button", { name: /^Upper link meets sump/ }).click();
    await page.getByRole("button", { name: /^Make job card/ }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByRole("img", { name: /as shown now/ }).waitFor();
    await dialog.getByLabel("Title").fill("Donor links hung in");
    await dialog.getByLabel("Note").fill("Upper link into the sump. No bracket yet.");
    expect(await dialog.textContent()).toMatch(/spring out, on stands/);
    await dialog.getByRole("button", { name: /^Keep/ }).click();
    await dialog.waitFor({ state: "detached" });
    await page.reload();
    await untilChecked(page);
    await page.getByRole("button", { name: "Build log" }).click();
    await page.getByText("Donor links hung in").first().waitFor();
    await page.getByText("No bracket yet").first().waitFor();
    expect(faults).toEqual([]);
    await context.close();
  });
});
