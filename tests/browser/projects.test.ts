import type { BrowserContext, Page } from "playwright-core";
import { describe, expect, inject, it } from "vitest";
import { browserApp } from "./openApp.ts";

const app = browserApp();

/** The project is shown; whether its check is done does not matter here. */
async function untilOpen(page: Page): Promise<void> {
  await page.getByRole("button", { name: /^Scene: / }).waitFor();
  await page.getByRole("button", { name: /^Undo/ }).first().waitFor();
}

/** Pages with the point in hand; its fields may be made anew, and another click would let go of it. */
const holding = new WeakSet<Page>();

/** Moves a point as a builder does, by typing, and keeps the move; resolves as soon as the step is made. */
async function keepMove(page: Page, by: string): Promise<void> {
  await page.getByRole("button", { name: "Points & parts" }).click();
  const out = page.getByRole("textbox", { name: "Out" });
  const row = page.getByRole("button", { name: /^Upper link, inboard end/ });
  if (!holding.has(page)) {
    await row.waitFor();
    if ((await out.count()) === 0) await row.click();
    holding.add(page);
  }
  await out.fill(`${await out.inputValue()}${by}`);
  await page.getByRole("button", { name: "Keep this move" }).click();
}

async function crash(context: BrowserContext, page: Page): Promise<void> {
  const session = await context.newCDPSession(page);
  // the page never answers
  void session.send("Page.crash").catch(() => {});
  await page.waitForEvent("crash");
  await page.close();
}

async function openAgain(context: BrowserContext, where = inject("address")): Promise<Page> {
  const page = await context.newPage();
  await page.goto(where);
  await untilOpen(page);
  return page;
}

async function openMenu(page: Page, item: string | RegExp): Promise<void> {
  await page.getByRole("button", { name: /^Scene/ }).click();
  await page.getByRole("menuitem", { name: item }).click();
}

const undoName = (page: Page): Promise<string | null> =>
  page.getByRole("button", { name: /^Undo/ }).first().getAttribute("aria-label");

describe("a tab that is killed", () => {
  it("right after an edit loses nothing of it, nor any step before it", async () => {
    const { page, context } = await app.open({ noPicture: true });
    await untilOpen(page);
    let last: string | null = null;
    for (let i = 0; i < 3; i++) await keepMove(page, "+1");
    last = await undoName(page);
    expect(last).toMatch(/^Undo: .+/);
    await crash(context, page);
    const again = await openAgain(context);
    expect(await undoName(again)).toBe(last);
    for (let i = 0; i < 3; i++) await again.getByRole("button", { name: /^Undo/ }).first().click();
    expect(await undoName(again)).toBe("Undo");
    await context.close();
  });

  it("in the middle of many edits costs at most the last one", async () => {
    const { page, context } = await app.open({ noPicture: true });
    await untilOpen(page);
    for (let i = 0; i < 4; i++) await keepMove(page, "+1");
    // back and forth as fast as the keys are taken, and gone in the middle of it
    const pressed = (async () => {
      for (let i = 0; i < 40; i++) await page.keyboard.press(i % 2 ? "Control+Shift+z" : "Control+z");
    })().catch(() => {});
    await page.waitForTimeout(150);
    await crash(context, page);
    await pressed;
    const again = await openAgain(context);
    await openMenu(again, "Steps…");
    expect(await again.getByRole("list").getByRole("listitem").count()).toBe(5);
    const shown = await again.locator("[aria-current=step]").textContent();
    expect(shown).toMatch(/^[34]/);
    await context.close();
  });
});

describe("two tabs on one project", () => {
  it("the second looks on, follows, and takes over when asked; neither writes over the other", async () => {
    const { page: first, faults, context } = await app.open({ noPicture: true });
    await untilOpen(first);
    await keepMove(first, "+1");
    const second = await openAgain(context, first.url());
    await second.getByText(/open in another tab/).waitFor();
    await keepMove(second, "+5");
    await second.getByText("Nothing was changed.").waitFor();
    await keepMove(first, "+2");
    const step = await undoName(first);
    await expect.poll(() => undoName(second)).toBe(step);
    await second.getByRole("button", { name: "Change it here" }).click();
    await first.getByText(/open in another tab/).waitFor();
    await expect.poll(() => second.getByText(/open in another tab/).count()).toBe(0);
    await second.getByRole("button", { name: /^Undo/ }).first().click();
    await expect.poll(() => undoName(first)).toBe(await undoName(second));
    // the other tab closes: the one that looked on has the project
    await second.close();
    await expect.poll(() => first.getByText(/open in another tab/).count(), { timeout: 10_000 }).toBe(0);
    await keepMove(first, "+3");
    expect(await undoName(first)).toMatch(/^Undo: .+/);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("the second may go on with a copy", async () => {
    const { page: first, faults, context } = await app.open({ noPicture: true });
    await untilOpen(first);
    const title = await first.getByRole("button", { name: /^Scene/ }).getAttribute("aria-label");
    const second = await openAgain(context, first.url());
    await second.getByRole("button", { name: "Go on with a copy" }).click();
    await second.getByRole("button", { name: `${title}, copy` }).waitFor();
    // the browser tells its address a moment after the page has written it
    await expect.poll(() => second.url()).not.toBe(first.url());
    await keepMove(second, "+4");
    await second.reload();
    await untilOpen(second);
    expect(await second.getByText(/open in another tab/).count()).toBe(0);
    expect(await undoName(second)).toMatch(/^Undo: .+/);
    expect(await undoName(first)).toBe("Undo");
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe("projects", () => {
  it("are begun, renamed, duplicated, deleted and put back, by keyboard alone", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    await untilOpen(page);
    await page.getByRole("button", { name: /^Scene/ }).focus();
    await page.keyboard.press("Enter");
    // the menu takes the keys a moment after it is there
    const item = page.getByRole("menuitem", { name: "Projects…" });
    await expect.poll(() => item.evaluate((element) => element === document.activeElement)).toBe(true);
    await page.keyboard.press("Enter");
    const dialog = page.getByRole("dialog", { name: "Projects" });
    await dialog.waitFor();
    await dialog.getByRole("button", { name: /^Rename/ }).focus();
    await page.keyboard.press("Enter");
    await page.keyboard.type("Barn find, left");
    await page.keyboard.press("Enter");
    await dialog.getByRole("button", { name: /^Barn find, left/ }).waitFor();
    await dialog.getByRole("button", { name: "Duplicate Barn find, left" }).focus();
    await page.keyboard.press("Enter");
    const copy = dialog.getByRole("button", { name: /^Barn find, left, copy/ });
    await copy.waitFor();
    await dialog.getByRole("button", { name: "Delete Barn find, left, copy" }).focus();
    await page.keyboard.press("Enter");
    await dialog.getByRole("button", { name: "Undo" }).waitFor();
    expect(await copy.count()).toBe(0);
    await dialog.getByRole("button", { name: "Undo" }).focus();
    await page.keyboard.press("Enter");
    await copy.waitFor();
    await copy.focus();
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Scene: Barn find, left, copy" }).waitFor();
    expect(await undoName(page)).toBe("Undo: copy as Barn find, left, copy");
    expect(faults).toEqual([]);
    await context.close();
  });

  it("show their steps by name; choosing one goes back to it, and forth again", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    await untilOpen(page);
    for (let i = 0; i < 3; i++) await keepMove(page, "+1");
    const last = await undoName(page);
    await page.getByRole("button", { name: "Steps" }).click();
    const steps = page.getByRole("dialog", { name: "Steps" }).getByRole("list").getByRole("button");
    await expect.poll(() => steps.count()).toBe(4);
    await steps.last().click();
    await page.keyboard.press("Escape");
    expect(await undoName(page)).toBe("Undo");
    await page.getByRole("button", { name: "Steps" }).click();
    await steps.first().click();
    await page.keyboard.press("Escape");
    expect(await undoName(page)).toBe(last);
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe("storage", () => {
  it("that is full is told with a file offered, and the work saved once there is room", async () => {
    const { page, context } = await app.open({ noPicture: true });
    await untilOpen(page);
    await page.evaluate(() => {
      const put = IDBObjectStore.prototype.put;
      Object.assign(window, { thereIsRoom: () => Object.assign(IDBObjectStore.prototype, { put }) });
      IDBObjectStore.prototype.put = () => {
        throw new DOMException("no room", "QuotaExceededError");
      };
    });
    await keepMove(page, "+1");
    const alert = page.getByRole("alert").filter({ hasText: "storage is full" });
    await alert.getByRole("button", { name: "Save a file" }).waitFor();
    await page.evaluate(() => (window as unknown as { thereIsRoom(): void }).thereIsRoom());
    await keepMove(page, "+1");
    await alert.waitFor({ state: "detached" });
    await page.reload();
    await untilOpen(page);
    await page.getByRole("button", { name: /^Undo/ }).first().click();
    expect(await undoName(page)).toMatch(/^Undo: .+/);
    await context.close();
  });

  it("that is refused from the start is told with a file offered, and the page works all the same", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    await page.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException("denied", "SecurityError");
      };
    });
    await page.reload();
    // what was read of the cautions is not kept either
    await page.getByRole("button", { name: "I will check on the car" }).click();
    await untilOpen(page);
    const alert = page.getByRole("alert").filter({ hasText: "does not let the page store anything" });
    await alert.getByRole("button", { name: "Save a file" }).waitFor();
    await keepMove(page, "+1");
    expect(await undoName(page)).toMatch(/^Undo: .+/);
    await page.evaluate(() => Reflect.deleteProperty(window, "showSaveFilePicker"));
    const saved = page.waitForEvent("download");
    await alert.getByRole("button", { name: "Save a file" }).click();
    expect((await saved).suggestedFilename()).toMatch(/\.json$/);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("that was thrown away is noticed at the next visit, and under an open page", async () => {
    const { page, context } = await app.open({ noPicture: true });
    await untilOpen(page);
    await keepMove(page, "+1");
    const clear = (where: Page) =>
      where.evaluate(
        () =>
          new Promise<void>((done, fail) => {
            const request = indexedDB.deleteDatabase("elbowroom-projects");
            request.onsuccess = () => done();
            request.onerror = () => fail(request.error);
          }),
      );
    await clear(page);
    await keepMove(page, "+1");
    const gone = page.getByRole("alert").filter({ hasText: "thrown away" });
    await gone.getByText(/saved anew/).waitFor();
    await gone.getByRole("button", { name: "Close" }).click();
    await page.reload();
    await untilOpen(page);
    expect(await undoName(page)).toMatch(/^Undo: .+/);
    await clear(page);
    await page.goto(inject("address"));
    await page.getByRole("button", { name: "I will check on the car" }).click();
    await gone.getByText(/1 project/).waitFor();
    await gone.getByRole("button", { name: "Open a scene file" }).waitFor();
    await context.close();
  });
});

describe("a scene file", () => {
  it("is saved where the picker says, and by Ctrl+S to the same file again, after a reload too", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    await untilOpen(page);
    // the browser's private folder stands in for the disk: its files are written to in the same way
    await page.addInitScript(() => {
      Object.assign(window, {
        picked: 0,
        async showSaveFilePicker({ suggestedName }: { suggestedName: string }) {
          (window as unknown as { picked: number }).picked++;
          return (await navigator.storage.getDirectory()).getFileHandle(suggestedName, { create: true });
        },
      });
    });
    await page.reload();
    await untilOpen(page);
    const picked = () => page.evaluate(() => (window as unknown as { picked: number }).picked);
    const onDisk = (key: string) =>
      page.evaluate(async (key) => {
        for await (const entry of (await navigator.storage.getDirectory()).values()) {
          return JSON.parse(await (await (entry as FileSystemFileHandle).getFile()).text())[key];
        }
      }, key);
    await page.keyboard.press("Control+s");
    await page.getByText(/^Saved as .+\.json\.$/).waitFor();
    const before = await onDisk("points");
    await keepMove(page, "+7");
    await page.keyboard.press("Control+s");
    await expect.poll(() => onDisk("points")).not.toEqual(before);
    expect(await picked()).toBe(1);
    await page.reload();
    await untilOpen(page);
    await page.getByRole("button", { name: /^Undo/ }).first().click();
    await openMenu(page, /^Save to .+\.json/);
    await expect.poll(() => onDisk("points")).toEqual(before);
    expect(await picked()).toBe(0);
    expect(faults).toEqual([]);
    await context.close();
  });
});
