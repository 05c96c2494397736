import type { Page } from "playwright-core";
import { bumpyBall, stlOf } from "../scans/meshes.ts";

/** Waits until every pair of the shown scene is swept. */
async function checked(page: Page): Promise<void> {
  await page.locator("main[aria-busy=false]").waitFor();
}

const PULL_PAUSE_ms = 25;
const POINT = "Upper link, inboard end";

/** The list of points or of parts; what is in hand is put down. */
async function toList(page: Page, name: "Points" | "Parts"): Promise<void> {
  await page.getByRole("button", { name: "Points & parts" }).click();
  const choice = page.getByRole("group", { name: "List" });
  const back = page.getByRole("button", { name: /^All (points|parts)$/ });
  for (const next of [choice.getByRole("button", { name }), null]) {
    await choice.or(back).first().waitFor();
    if (await back.isVisible()) await back.click();
    await choice.waitFor();
    await next?.click();
  }
}

async function pointInHand(page: Page): Promise<void> {
  await toList(page, "Points");
  await page.locator("button.point-row", { hasText: POINT }).click();
  await page.locator(".held-mark .held").waitFor();
}

async function pointDown(page: Page): Promise<void> {
  await page.getByRole("button", { name: "All points", exact: true }).click();
  await page.locator(".held-mark .held").waitFor({ state: "detached" });
}

async function undo(page: Page): Promise<void> {
  await page.getByRole("button", { name: /^Undo: / }).click();
  await page.getByRole("button", { name: "Undo", exact: true }).waitFor();
  await checked(page);
}

/**
 * In the page before its own scripts, as text: a file picker that gives a scan at once. The picker of a browser that is led by a
 * script keeps every field that it was asked from, which would look like a leak of the page.
 */
export const GIVE_SCAN = `(() => {
  const bytes = Uint8Array.from(atob("${Buffer.from(stlOf(bumpyBall(40, 150, 3))).toString("base64")}"), (c) => c.charCodeAt(0));
  const scan = new File([bytes], "lump.stl");
  window.showOpenFilePicker = async () => [{ getFile: async () => scan }];
})()`;

/** What all chores together do, once each. */
export const DONE_IN_A_ROUND = {
  edits: 1,
  "undone steps": 1,
  "points pulled": 1,
  "wheel travels": 12,
  studies: 1,
  sheets: 2,
  dialogs: 5,
  scans: 1,
  "lights and units": 4,
} as const;

/** What a builder does over and over; each leaves everything as it was found. */
export const CHORES: Readonly<Record<string, (page: Page) => Promise<void>>> = {
  async "an edit, checked, and undone"(page) {
    await pointInHand(page);
    await page.getByRole("slider", { name: `${POINT}, out` }).focus();
    await page.keyboard.press("ArrowRight");
    await page.getByRole("button", { name: "Keep this move" }).click();
    await page.getByRole("button", { name: /^Undo: / }).waitFor();
    await checked(page);
    await undo(page);
    await pointDown(page);
  },

  async "a point pulled by the mouse, and put back"(page) {
    await pointInHand(page);
    const box = (await page.locator(".held-mark .arm", { hasText: "up" }).locator("circle").boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    // a second and a half, as a hand would: some dozens of checks
    for (let i = 0; i < 60; i++) {
      await page.mouse.move(x + (i % 3), y - 6 - i / 2);
      await page.waitForTimeout(PULL_PAUSE_ms);
    }
    await page.locator(".drag-tag").waitFor();
    await page.mouse.up();
    await page.getByRole("button", { name: "Put it back" }).first().click();
    await page.locator(".drag-tag").waitFor({ state: "detached" });
    await checked(page);
    await pointDown(page);
  },

  async "the wheel run through its travel"(page) {
    await page.getByRole("button", { name: "Corner", exact: true }).click();
    const slider = page.getByRole("slider", { name: "Left wheel travel" });
    await slider.focus();
    for (const key of ["Home", "End"]) await page.keyboard.press(key);
    for (let i = 0; i < 10; i++) await page.keyboard.press("ArrowLeft");
  },

  async "room for a point along a line"(page) {
    await page.getByRole("button", { name: "Corner", exact: true }).click();
    await page.keyboard.press("t");
    const sheet = page.getByRole("region", { name: "Studies" });
    const line = sheet.getByRole("button", { name: "Line", exact: true });
    if (!(await line.isVisible())) await sheet.getByText("Where may it live?").click();
    await line.click();
    await sheet.getByRole("button", { name: /^Look (for room|again)$/ }).click();
    await sheet.getByText(/^(No|\d+) places? of \d+ ha(s|ve) room\.$/).waitFor();
    await sheet.getByRole("button", { name: "Close", exact: true }).click();
    await sheet.waitFor({ state: "detached" });
  },

  async "the running gear and the loads"(page) {
    await page.getByRole("button", { name: "Corner", exact: true }).click();
    for (const [key, name] of [
      ["r", "Running gear"],
      ["l", "Loads"],
    ] as const) {
      await page.keyboard.press(key);
      const sheet = page.getByRole("region", { name });
      await sheet.waitFor();
      await sheet.getByRole("button", { name: "Close", exact: true }).first().click();
      await sheet.waitFor({ state: "detached" });
    }
  },

  async dialogs(page) {
    for (const name of ["Keys", "Cautions", "Projects", "Steps", "Paper and files"]) {
      await page.getByRole("button", { name: /^Scene: / }).click();
      await page.getByRole("menuitem", { name: new RegExp(`^${name}`) }).click();
      await page.getByRole("dialog").waitFor();
      await page.keyboard.press("Escape");
      await page.getByRole("dialog").waitFor({ state: "detached" });
    }
  },

  async "a scan opened and left"(page) {
    await toList(page, "Parts");
    await page.getByRole("button", { name: "Bring in a scan" }).click();
    await page.getByRole("button", { name: "Choose a file…" }).click();
    await page.getByRole("heading", { name: "What was found" }).waitFor();
    await page.getByRole("button", { name: "Next: place" }).click();
    await page.getByRole("img", { name: "The scan in 3D" }).waitFor();
    await page.getByRole("button", { name: "Leave it" }).click();
    await page.getByRole("dialog").waitFor({ state: "detached" });
  },

  async "the other light and unit, and back"(page) {
    for (const name of ["Garage", "in", "Daylight", "mm"]) {
      await page.getByRole("button", { name, exact: true }).click();
    }
    await page.getByRole("button", { name: "Corner", exact: true }).click();
    await checked(page);
  },
};
