import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import type { ProjectRecord, StepRecord } from "../../src/app/projects/records.ts";
import { stepsOf } from "../../src/app/projects/stepRecords.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { randomOf } from "../kinematics/random.ts";
import { startOwnBrowser } from "./ownBrowser.ts";

interface Step {
  /** How far the point was moved since the first step, mm. */
  readonly by: number;
  readonly title: string;
}

/** A project as it should be kept: every step, and which of them is shown. */
interface Project {
  readonly id: string | null;
  readonly steps: readonly Step[];
  readonly at: number;
  readonly isSample: boolean;
  readonly isDeleted: boolean;
}

interface Work {
  readonly projects: readonly Project[];
  readonly openId: string;
}

/** One thing a builder does, and what should be kept once it is done. */
interface Act {
  readonly name: string;
  readonly next: readonly Project[];
  run(page: Page): Promise<void>;
}

/** How the kills went. */
export interface KillFigures {
  readonly rounds: number;
  /** Acts that were done before a kill, of all rounds. */
  readonly acts: number;
  /** Kills in the middle of an act. */
  readonly inAct: number;
  /** Reopened with all acts that were done, or with the one more that the kill fell in. */
  readonly whole: number;
  /** Reopened without the last act that was done. */
  readonly lastMissing: number;
  /** Of those rounds whose acts come as fast as the keys are taken: without more than the last. */
  readonly moreMissing: number;
  /** Of all acts that were missing, how long before its kill the oldest was done, ms. */
  readonly oldestMissing_ms: number;
  /** What was kept and should not have been so; empty: nothing. */
  readonly wrong: readonly string[];
}

const POINT = "upper.in";
/** Acts of a round before the one that the kill falls in. */
const MOST_BEFORE = 4;
/** After the beginning of an act its save is under way, or done, or not begun: the kill comes somewhere in this. */
const KILL_WITHIN_ms = 400;
/** Acts at most of a round whose keys are pressed as fast as they are taken, whatever the page shows. */
const MOST_FAST = 12;

/**
 * Works in the app as a builder does (moves, undo, redo, new projects, copies, names, deleting, putting back), kills the
 * browser at a random moment, opens it again, and looks whether what it holds is the work as it stood after the last act,
 * the one before it, or the one that the kill fell in: every step of every project, not the newest alone. Where acts come faster than a
 * disk can take them more than the last may be missing, but never one that was done before one that is there.
 */
export async function killAndReopen(
  address: string,
  {
    rounds,
    seed,
    fastShare = 1 / 3,
    tell = () => {},
  }: { rounds: number; seed: number; fastShare?: number; tell?(line: string): void },
): Promise<KillFigures> {
  const random = randomOf(seed);
  const profile = mkdtempSync(join(tmpdir(), "elbowroom-profile-"));
  const figures = {
    rounds: 0,
    acts: 0,
    inAct: 0,
    whole: 0,
    lastMissing: 0,
    moreMissing: 0,
    oldestMissing_ms: 0,
    wrong: [] as string[],
  };
  try {
    let browser = await startOwnBrowser(profile);
    await begin(browser.page, address);
    for (let round = 0; round < rounds; round++) {
      let work = await workOf(browser.page);
      /** As kept should be after each act of this round; the one that is being done included. */
      const stood = [lookOf(work.projects)];
      const doneAt_ms: number[] = [];
      let name = "nothing";
      let killedAt_ms: number | null = null;
      const kill = (): void => {
        killedAt_ms ??= performance.now();
        browser.kill();
      };
      let way: "undo" | "redo" | null = null;
      const isFast = random() < fastShare;
      const last = Math.floor(random() * (isFast ? MOST_FAST : MOST_BEFORE));
      const wait_ms = random() * KILL_WITHIN_ms;
      try {
        while (killedAt_ms === null) {
          if (isFast && doneAt_ms.length === 1) way = wayOf(work);
          const act = nextAct(work, random, way);
          name = act.name;
          stood.push(lookOf(act.next));
          if (doneAt_ms.length >= last) setTimeout(kill, wait_ms);
          await act.run(browser.page);
          if (!isFast) await shown(browser.page);
          doneAt_ms.push(performance.now());
          work = await known(browser.page, act.next);
        }
      } catch (error) {
        if (killedAt_ms === null) throw new Error(`seed ${seed}, round ${round}, ${name}: ${(error as Error).message}`);
      }
      await browser.gone;
      browser = await startOwnBrowser(profile);
      await reopen(browser.page, address);
      const kept = lookOf((await workOf(browser.page)).projects);
      const place = stood.lastIndexOf(kept);
      const done = doneAt_ms.length;
      figures.rounds++;
      figures.acts += done;
      if (stood.length > done + 1) figures.inAct++;
      if (place >= 0 && place < done)
        figures.oldestMissing_ms = Math.max(figures.oldestMissing_ms, killedAt_ms! - doneAt_ms[place]!);
      if (place >= done) figures.whole++;
      else if (place === done - 1) figures.lastMissing++;
      else if (isFast && place >= 0) figures.moreMissing++;
      else
        figures.wrong.push(
          `seed ${seed}, round ${round}, killed in ${name} (${done} done): ${kept}; not ${stood.slice(-3).join("; nor ")}`,
        );
      tell(
        `round ${round}: ${done} acts${isFast ? ", fast" : ""}, killed in ${name}, place ${place} of ${stood.length - 1}`,
      );
    }
    browser.kill();
    await browser.gone;
  } finally {
    rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
  return figures;
}

/** The first visit, until all of it is kept. */
export async function begin(page: Page, address: string): Promise<void> {
  await open(page, address);
  await page.getByRole("button", { name: "I will check on the car" }).click();
  await untilOpen(page);
  await page.waitForFunction(() => location.hash.startsWith("#project/"));
  // what was read of the cautions is kept too, so that no later visit begins with them
  await page.waitForFunction(
    () =>
      new Promise<boolean>((resolve) => {
        const opening = indexedDB.open("elbowroom-projects");
        opening.onsuccess = () => {
          const stores = opening.result.transaction(["settings", "projects"]);
          const session = stores.objectStore("settings").get("session");
          const count = stores.objectStore("projects").count();
          stores.oncomplete = () => {
            opening.result.close();
            resolve(session.result?.cautionsRead === true && count.result === 1);
          };
        };
      }),
  );
}

/** A later visit; rejects where the page has something to tell of what was kept. */
export async function reopen(page: Page, address: string): Promise<void> {
  await open(page, address);
  await untilOpen(page);
  await page.waitForFunction(() => location.hash.startsWith("#project/"));
  const told = await page.getByRole("alert").allTextContents();
  if (told.length > 0) throw new Error(`at the reopening: ${told.join(" ")}`);
}

/** Without a picture, which would only take the processor's time. */
async function open(page: Page, address: string): Promise<void> {
  await page.addInitScript(() => {
    HTMLCanvasElement.prototype.getContext = () => null;
  });
  await page.goto(address);
}

async function untilOpen(page: Page): Promise<void> {
  await page.getByRole("button", { name: /^Scene: / }).waitFor();
  await page.getByRole("button", { name: /^Undo/ }).first().waitFor();
}

/** A builder goes on once the page shows what was done: the frame after the next has it. */
function shown(page: Page): Promise<void> {
  return page.evaluate(
    () => new Promise<void>((resolve) => requestAnimationFrame(() => requestAnimationFrame(() => resolve()))),
  );
}

/** What the browser's database holds, every step rebuilt from its record. */
export async function workOf(page: Page): Promise<Work> {
  const { projects, steps } = await page.evaluate(
    () =>
      new Promise<{ projects: ProjectRecord[]; steps: StepRecord[] }>((resolve, reject) => {
        const opening = indexedDB.open("elbowroom-projects");
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const stores = opening.result.transaction(["projects", "steps"]);
          const projects = stores.objectStore("projects").getAll();
          const steps = stores.objectStore("steps").getAll();
          stores.onerror = () => reject(stores.error);
          stores.oncomplete = () => {
            opening.result.close();
            resolve({ projects: projects.result, steps: steps.result });
          };
        };
      }),
  );
  const openId = decodeURIComponent(new URL(page.url()).hash.replace("#project/", ""));
  return {
    openId,
    projects: projects.map((record) => {
      const runs = stepsOf(steps.filter(({ project }) => project === record.id));
      const rebuilt = runs[0]?.steps ?? [];
      if (runs.length !== 1 || rebuilt.length !== record.steps) {
        throw new Error(`${record.title}: ${runs.map((run) => run.steps.length)} of ${record.steps} steps`);
      }
      return {
        id: record.id,
        steps: rebuilt.map(({ document }) => ({
          by: Math.round(Math.abs(outOf(document) - outOf(rebuilt[0]!.document))),
          title: document.title,
        })),
        at: record.at,
        isSample: record.sample !== null,
        isDeleted: record.deleted_ms !== null,
      };
    }),
  };
}

/** The work after an act: ids of new projects as the page has them, and which is open. */
async function known(page: Page, projects: readonly Project[]): Promise<Work> {
  const openId = decodeURIComponent(new URL(page.url()).hash.replace("#project/", ""));
  if (projects.every(({ id }) => id !== null)) return { projects, openId };
  const ids = new Set(projects.map(({ id }) => id));
  const isNew = !ids.has(openId);
  const fresh = isNew ? openId : (await workOf(page)).projects.find(({ id }) => !ids.has(id))?.id;
  return { projects: projects.map((one) => (one.id === null ? { ...one, id: fresh ?? null } : one)), openId };
}

/** How far out the point that is moved lies, mm; as a list or with what is known of it. */
function outOf({ points }: SceneDocument): number {
  const point = points[POINT]!;
  return (Array.isArray(point) ? point : (point as { readonly at: readonly number[] }).at)[1]!;
}

function lookOf(projects: readonly Project[]): string {
  return projects
    .map(({ steps, at, isDeleted }) => {
      const told = steps.map(({ by, title }) => `${title} +${by}`).join("; ");
      return `[${told}] at ${at}${isDeleted ? ", deleted" : ""}`;
    })
    .sort()
    .join(" | ");
}

const isUntouched = (one: Project): boolean => one.isSample && one.steps.length === 1 && !one.isDeleted;

/** Where there is more to go through: one way only, so that no state comes twice. */
function wayOf({ projects, openId }: Work): "undo" | "redo" {
  const { at, steps } = projects.find(({ id }) => id === openId)!;
  return at >= steps.length / 2 ? "undo" : "redo";
}

/** One that a builder might do now; one step more of the way while there is one. */
function nextAct({ projects, openId }: Work, random: () => number, way: "undo" | "redo" | null): Act {
  const mine = projects.find(({ id }) => id === openId);
  if (!mine) throw new Error("the open project is not among those kept");
  const { steps, at } = mine;
  const { by, title } = steps[at]!;
  const alive = projects.filter(({ isDeleted }) => !isDeleted);
  const [deleted, ...moreDeleted] = projects.filter(({ isDeleted }) => isDeleted);
  const put = (changed: Partial<Project>): Project[] =>
    projects.map((one) => (one === mine ? { ...one, ...changed } : one));
  const stepped = (change: Partial<Step>): Pick<Project, "steps" | "at"> => ({
    steps: [...steps.slice(0, at + 1), { by, title, ...change }],
    at: at + 1,
  });
  const name = `Corner ${Math.floor(random() * 1e6)}`;
  const acts: (Act & { readonly often: number })[] = [
    { name: "a move", often: 4, next: put(stepped({ by: by + 1 })), run: move },
    {
      name: "a new name",
      often: 1,
      next: put(stepped({ title: name })),
      run: (page) =>
        inProjects(page, async (row) => {
          await row.getByRole("button", { name: /^Rename/ }).click();
          await page.getByRole("textbox", { name: "New name" }).fill(name);
          await page.keyboard.press("Enter");
          await row.getByText(name, { exact: true }).waitFor();
        }),
    },
  ];
  if (at > 0) acts.push({ name: "undo", often: 2, next: put({ at: at - 1 }), run: press("Control+z") });
  if (at < steps.length - 1) {
    acts.push({ name: "redo", often: 2, next: put({ at: at + 1 }), run: press("Control+Shift+z") });
  }
  const onward = acts.find((act) => act.name === way);
  if (onward) return onward;
  if (alive.length < 6) {
    const sample = projects.find(isUntouched);
    if (sample !== mine) {
      const fresh = { ...BLANK, steps: [{ by: 0, title: SAMPLE_TITLE }] };
      acts.push({ name: "a sample", often: 1, next: sample ? projects : [...projects, fresh], run: openSample });
    }
    const names = new Set(projects.map((one) => one.steps[one.at]!.title));
    const copy = `${title}, copy`;
    // which number a copy of a copy gets is for other tests
    if (!title.includes(", copy") && !names.has(copy)) {
      const made = { ...BLANK, isSample: false, ...stepped({ title: copy }) };
      acts.push({
        name: "a copy",
        often: 1,
        next: [...projects, made],
        run: (page) =>
          inProjects(page, async (row) => {
            await row.getByRole("button", { name: /^Duplicate/ }).click();
            await page
              .getByRole("dialog")
              .getByRole("button", { name: `Rename ${copy}`, exact: true })
              .waitFor();
          }),
      });
    }
  }
  if (alive.length > 1) {
    acts.push({
      name: "a deletion",
      often: 1,
      next: put({ isDeleted: true }),
      run: (page) =>
        inProjects(page, async (row) => {
          const before = page.url();
          await row.getByRole("button", { name: /^Delete/ }).click();
          await page.waitForURL((url) => url.href !== before);
        }),
    });
  }
  if (deleted && moreDeleted.length === 0) {
    const back = projects.map((one) => (one === deleted ? { ...one, isDeleted: false } : one));
    acts.push({ name: "putting back", often: 1, next: back, run: fromDeleted(/^Put .* back$/) });
    const without = projects.filter((one) => one !== deleted);
    acts.push({ name: "deletion for good", often: 1, next: without, run: fromDeleted(/^Delete .* for good$/) });
  }
  const hat = acts.flatMap((act) => Array<Act>(act.often).fill(act));
  return hat[Math.floor(random() * hat.length)]!;
}

const SAMPLE_TITLE = "Hub-and-arm, donor links";
const BLANK: Omit<Project, "steps"> = { id: null, at: 0, isSample: true, isDeleted: false };

/** Moves a point out by 1 mm, as one step. */
export async function move(page: Page): Promise<void> {
  const undo = page.getByRole("button", { name: /^Undo/ }).first();
  await page.getByRole("button", { name: "Points & parts" }).click();
  const out = page.getByRole("textbox", { name: "Out" });
  const row = page.locator("button.point-row", { hasText: "Upper link, inboard end" });
  await out.or(row).first().waitFor();
  if ((await out.count()) === 0) await row.click();
  await out.fill(`${await out.inputValue()}+1`);
  await page.getByRole("button", { name: "Keep this move" }).click();
  await undo.waitFor();
}

function press(keys: string) {
  return async (page: Page): Promise<void> => {
    // keys rest while a field has the focus
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press(keys);
  };
}

async function openMenu(page: Page): Promise<void> {
  await page.getByRole("button", { name: /^Scene: / }).click();
  await page.getByRole("menu").waitFor();
}

async function openSample(page: Page): Promise<void> {
  const before = page.url();
  await openMenu(page);
  await page.getByRole("group", { name: "Sample scenes" }).getByRole("menuitem").first().click();
  await page.waitForURL((url) => url.href !== before);
}

async function inProjects(page: Page, act: (row: ReturnType<Page["locator"]>) => Promise<void>): Promise<void> {
  await openMenu(page);
  await page.getByRole("menuitem", { name: "Projects…" }).click();
  const dialog = page.getByRole("dialog", { name: "Projects" });
  await dialog.waitFor();
  await act(dialog.locator("li[data-open=true]"));
  await dialog.getByRole("button", { name: "Close" }).click();
  await dialog.waitFor({ state: "detached" });
}

function fromDeleted(name: RegExp) {
  return (page: Page): Promise<void> =>
    inProjects(page, async () => {
      await page.locator("details.project-gone summary").click();
      const button = page.locator("details.project-gone").getByRole("button", { name });
      await button.click();
      await button.waitFor({ state: "detached" });
    });
}
