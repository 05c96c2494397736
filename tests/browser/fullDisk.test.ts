import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterEach, beforeEach, describe, expect, inject, it } from "vitest";
import { begin, move, reopen, workOf } from "./kills.ts";
import { type OwnBrowser, startOwnBrowser } from "./ownBrowser.ts";
import { hasSmallDisk, makeSmallDisk, type SmallDisk } from "./smallDisk.ts";

const PATIENCE_ms = 300_000;
const MOST_MOVES = 40;
/** As long as a save may take until it is kept or refused; where it takes longer one more move is made. */
const SAVE_ms = 500;

/** How far out the point stands at each kept step of the only project, mm from where it is drawn. */
async function keptMoves(page: Page): Promise<number[]> {
  const { projects } = await workOf(page);
  return projects.flatMap(({ steps }) => steps.map(({ by }) => by));
}

async function untilKept(page: Page, moves: number): Promise<void> {
  await expect.poll(() => keptMoves(page), { timeout: PATIENCE_ms }).toHaveLength(moves + 1);
}

const movesTo = (last: number): number[] => Array.from({ length: last + 1 }, (_, by) => by);

const fullAlert = (page: Page) => page.getByRole("alert").filter({ hasText: "storage is full" });

describe.skipIf(!hasSmallDisk())("a disk that is full to the last byte", () => {
  let disk: SmallDisk;
  let browser: OwnBrowser;
  let moves: number;
  const start = async (): Promise<OwnBrowser> => startOwnBrowser(join(disk.folder, "profile"), disk.through);
  const kill = async (): Promise<void> => {
    browser.kill();
    await browser.gone;
  };
  const startAgain = async (): Promise<void> => {
    browser = await start();
    await reopen(browser.page, inject("address"));
  };

  /** Moves until the disk, of which no byte is left, is told as full: some may still fit into what the database has of it. */
  beforeEach(async () => {
    disk = await makeSmallDisk();
    browser = await start();
    await begin(browser.page, inject("address"));
    await move(browser.page);
    await move(browser.page);
    await untilKept(browser.page, 2);
    disk.fill();
    const offer = fullAlert(browser.page).getByRole("button", { name: "Save a file" });
    for (moves = 2; moves < MOST_MOVES && !(await offer.isVisible()); moves++) {
      await move(browser.page);
      await browser.page.waitForTimeout(SAVE_ms);
    }
    expect(await offer.isVisible()).toBe(true);
  }, PATIENCE_ms);
  afterEach(async () => {
    await kill();
    await disk.remove();
  }, PATIENCE_ms);

  it("is told with a file offered, and a browser that is killed then still has what was kept before", {
    timeout: PATIENCE_ms,
  }, async () => {
    await kill();
    disk.makeRoom();
    await startAgain();
    // what was refused may have reached the disk all the same
    const kept = await keptMoves(browser.page);
    expect(kept.length).toBeGreaterThan(2);
    expect(kept).toEqual(movesTo(moves).slice(0, kept.length));
  });

  it("once there is room keeps all, and a browser that is killed then loses nothing of it", {
    timeout: PATIENCE_ms,
  }, async () => {
    disk.makeRoom();
    await move(browser.page);
    await fullAlert(browser.page).waitFor({ state: "detached" });
    await untilKept(browser.page, moves + 1);
    // what the log of the browser's database is filled with is let go of once it has begun another
    const names = () => browser.page.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name));
    await expect.poll(names, { timeout: PATIENCE_ms }).not.toContain("elbowroom-fresh-log");
    await kill();
    await startAgain();
    expect(await keptMoves(browser.page)).toEqual(movesTo(moves + 1));
  });
});
