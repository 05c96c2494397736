import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

/** The first scene with the upper link's inboard end in hand. */
async function openPoint(options: Parameters<typeof app.open>[0] = {}) {
  // verdicts are not waited for: a point can be moved while they are worked out
  const opened = await app.open(options);
  const { page } = opened;
  await page
    .getByRole("button", { name: /^Points( & parts)?$/ })
    .first()
    .click();
  await page.locator("button.point-row", { hasText: "Upper link, inboard end" }).click();
  if (!options.noPicture) await page.locator(".held-mark .held").waitFor();
  return opened;
}

async function middleOf(page: Page, selector: string) {
  const box = (await page.locator(selector).boundingBox())!;
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** The middle of a mark over the picture once it rests there: it comes to rest where the picture has been drawn. */
async function restOf(page: Page, selector: string) {
  let now = { x: 0, y: 0 };
  await expect
    .poll(async () => {
      const last = now;
      await page.waitForTimeout(300);
      now = await middleOf(page, selector);
      return now.x === last.x && now.y === last.y;
    })
    .toBe(true);
  return now;
}

const numberIn = async (page: Page, label: string) =>
  Number((await page.getByRole("textbox", { name: new RegExp(`^${label}`) }).inputValue()).replace("−", "-"));

describe("a builder drags a hard point", () => {
  it("by mouse along an arm: that number changes, the others stay, and it is kept as one step", async () => {
    const { page, faults, context } = await openPoint();
    const before = await Promise.all(["Forward", "Out", "Up"].map((label) => numberIn(page, label)));
    const arm = page.locator(".held-mark .arm", { hasText: "up" }).locator("circle");
    const box = (await arm.boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x, y - 15);
    await page.mouse.move(x, y - 30);
    const tag = page.locator(".drag-tag");
    await tag.waitFor();
    expect(await tag.textContent()).toMatch(/cut to suit/);
    expect(await tag.textContent()).toMatch(/Upper link [\d.]+ → [\d.]+/);
    await page.mouse.up();
    const after = await Promise.all(["Forward", "Out", "Up"].map((label) => numberIn(page, label)));
    expect(after.slice(0, 2)).toEqual(before.slice(0, 2));
    expect(after[2]!).toBeGreaterThan(before[2]! + 5);
    await page.getByRole("button", { name: "Keep this move" }).click();
    await page.getByRole("button", { name: /^Undo: upper link, inboard end [\d.]+ up/ }).click();
    await expect.poll(() => numberIn(page, "Up")).toBe(before[2]);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("by keyboard along an arm, and holds a direction by its key", async () => {
    const { page, faults, context } = await openPoint();
    const before = await numberIn(page, "Out");
    const arm = page.getByRole("slider", { name: "Upper link, inboard end, out" });
    await arm.focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Shift+ArrowRight");
    await expect.poll(() => numberIn(page, "Out")).toBeCloseTo(before + 11, 6);
    const up = page.getByRole("group", { name: "It may go" }).getByRole("button", { name: "up" });
    expect(await up.getAttribute("aria-pressed")).toBe("true");
    await page.keyboard.press("u");
    expect(await up.getAttribute("aria-pressed")).toBe("false");
    await page.keyboard.press("Escape");
    await expect.poll(() => numberIn(page, "Out")).toBe(before);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("by finger freely, broken off by a second finger", async () => {
    const { page, faults, context } = await openPoint({ width: 820, height: 1180, touch: true });
    const before = await numberIn(page, "Up");
    const { x, y } = await restOf(page, ".held-mark .held");
    const client = await context.newCDPSession(page);
    const touch = (type: "touchStart" | "touchMove" | "touchEnd", ...points: readonly (readonly [number, number])[]) =>
      client.send("Input.dispatchTouchEvent", {
        type,
        touchPoints: points.map(([px, py], id) => ({ x: px, y: py, id })),
      });
    await touch("touchStart", [x, y]);
    await touch("touchMove", [x + 10, y - 20]);
    await touch("touchMove", [x + 20, y - 40]);
    await page.locator(".drag-tag").waitFor();
    await touch("touchEnd");
    await expect.poll(() => numberIn(page, "Up")).toBeGreaterThan(before + 5);
    const moved = await numberIn(page, "Up");
    for (const other of ["the picture", "a panel over it"]) {
      const now = await restOf(page, ".held-mark .held");
      const panel = await middleOf(page, ".dock-group >> nth=0");
      await touch("touchStart", [now.x, now.y]);
      await touch("touchMove", [now.x, now.y + 30]);
      await expect.poll(() => numberIn(page, "Up")).toBeLessThan(moved - 5);
      await touch(
        "touchStart",
        [now.x, now.y + 30],
        other === "the picture" ? [now.x, now.y - 40] : [panel.x, panel.y],
      );
      await touch("touchEnd");
      await expect.poll(() => numberIn(page, "Up"), { message: other }).toBe(moved);
    }
    expect(faults).toEqual([]);
    await context.close();
  });
});

/** Whether the point beside the pointer says so while it is pulled to one place after another. */
async function pulledUntil(page: Page, words: RegExp, places: readonly (readonly [number, number])[]) {
  const tag = page.locator(".drag-tag");
  for (const [x, y] of places) {
    await page.mouse.move(x, y);
    await tag.waitFor();
    // one answer to a frame
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
    if (words.test((await tag.textContent())!)) return true;
  }
  return false;
}

describe("a builder picks a hard point in the picture", () => {
  it("pulls it in a plane, onto another point and to an edge of a part", async () => {
    const { page, faults, context } = await openPoint();
    await page.getByRole("button", { name: "All points", exact: true }).click();
    const { x: px, y: py } = await middleOf(page, ".mark-button[aria-label='Lower link, inboard end']");
    await page.mouse.click(px, py);
    await page.getByRole("region", { name: "Lower link, inboard end" }).waitFor();
    const free = page.getByRole("group", { name: "It may go" });
    await free.getByRole("button", { name: "forward" }).click();
    const before = await Promise.all(["Forward", "Out", "Up"].map((label) => numberIn(page, label)));
    const { x, y } = await middleOf(page, ".held-mark .held");
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x - 20, y - 15, { steps: 3 });
    await page.locator(".drag-tag").waitFor();
    await page.mouse.up();
    const after = await Promise.all(["Forward", "Out", "Up"].map((label) => numberIn(page, label)));
    expect(after[0]).toBe(before[0]);
    expect(after[1]).not.toBe(before[1]);
    expect(after[2]).not.toBe(before[2]);
    // the grid is whole millimetres
    expect([after[1]! % 1, after[2]! % 1]).toEqual([0, 0]);

    await free.getByRole("button", { name: "forward" }).click();
    await page.getByRole("group", { name: "Snaps to" }).getByRole("button", { name: "parts" }).click();
    const held = await middleOf(page, ".held-mark .held");
    const other = await middleOf(page, ".mark-button[aria-label='Upper link, inboard end']");
    await page.mouse.move(held.x, held.y);
    await page.mouse.down();
    await page.mouse.move(held.x, held.y - 8);
    expect(await pulledUntil(page, /on upper\.in/, [[other.x, other.y + 3]])).toBe(true);
    // past the inner joint of the driveshaft, whose rim is an edge
    const across = Array.from({ length: 12 }, (_, i) => [held.x - 28 + 4 * i, held.y - 40] as const);
    expect(await pulledUntil(page, /(edge|corner) of /, across)).toBe(true);
    await page.keyboard.press("Escape");
    await page.mouse.up();
    await expect.poll(() => numberIn(page, "Out")).toBe(after[1]);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("bolts it up elsewhere: lengths stay, angles and verdicts change while it is pulled", async () => {
    const { page, faults, context } = await openPoint();
    await untilChecked(page);
    await page.getByRole("button", { name: "Bolt up" }).click();
    const box = (await page.locator(".held-mark .arm", { hasText: "up" }).locator("circle").boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x, y - 8);
    await page.mouse.move(x, y - 16);
    const tag = page.locator(".drag-tag");
    await tag.waitFor();
    await expect.poll(() => tag.textContent()).toMatch(/bolted up/);
    await expect.poll(() => tag.textContent()).toMatch(/(Toe|Camber) at ride height [−\d.]+° → [−\d.]+°/);
    await expect.poll(() => tag.textContent()).toMatch(/leaves \d+ clash/);
    expect(await tag.textContent()).not.toMatch(/Upper link [\d.]+ → /);
    await page.mouse.up();
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe("a builder compares left and right", () => {
  it("by what was measured on the right: how far apart, and what it does to the wheels", async () => {
    const { page, faults, context } = await openPoint({ noPicture: true });
    const [forward, out, up] = await Promise.all(["Forward", "Out", "Up"].map((label) => numberIn(page, label)));
    await page.getByRole("button", { name: "All points", exact: true }).click();
    await page.getByRole("group", { name: "List" }).getByRole("button", { name: "Left, right" }).click();
    const field = (way: string) => page.getByRole("textbox", { name: `Right Upper link, inboard end, ${way}` });
    await field("forward").fill(String(forward));
    await field("out").fill(String(out! - 3));
    await field("up").fill(`${up}+4`);
    await field("up").press("Enter");
    await page.getByRole("button", { name: "Undo: right upper link, inboard end measured" }).waitFor();
    await page.getByText("3.0 inboard").waitFor();
    await page.getByText("4.0 up").waitFor();
    // √(3² + 4²) = 5
    await page.getByText(/Farthest apart: Upper link, inboard end, 5\.0 mm/).waitFor();
    await page.getByText(/^Thrust line/).waitFor();
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe("a builder tapes a hard point", () => {
  it("finds the mistyped tape, mends it and keeps the place", async () => {
    const { page, faults, context } = await openPoint();
    await page.getByRole("button", { name: "Place it by tape…" }).click();
    const dialog = page.getByRole("dialog");
    const stud = async (number: number, place: readonly number[], tape: string) => {
      for (const [k, direction] of ["forward", "out", "up"].entries())
        await dialog.getByLabel(`Stud ${number}, ${direction}`).fill(String(place[k]));
      await dialog.getByLabel(`Tape ${number}`, { exact: true }).fill(tape);
    };
    await stud(1, [0, 0, 0], "838.7");
    await stud(2, [600, 0, 0], "739.9");
    await stud(3, [0, 700, 0], "545.3");
    await dialog.getByText("± 1.9, 1.4, 2.7").waitFor();
    await dialog.getByRole("button", { name: "One more stud" }).click();
    await stud(4, [600, 700, 0], "386.0");
    await dialog.getByText("Tape 4 is most likely mistyped").waitFor();
    await dialog.getByRole("button", { name: "Take 376.0 mm" }).click();
    await dialog.getByText("± 0.9, 0.9, 0.9").waitFor();
    await dialog.getByRole("button", { name: "Use this place" }).click();
    await page.getByRole("button", { name: /^Undo: upper link, inboard end by tape/ }).waitFor();
    expect(await numberIn(page, "Forward")).toBeCloseTo(430, 1);
    expect(faults).toEqual([]);
    await context.close();
  });
});
