import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { writeLog } from "../../src/buildlog/logfile.ts";
import { writeHtml } from "../../src/buildlog/report/html.ts";
import { smallScene } from "../app/smallScene.ts";
import { card } from "../buildlog/fixture.ts";
import { decision } from "../buildlog/logs.ts";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

/** What runs, or asks for something, wherever a text is taken for markup (names end in .invalid: RFC 2606). */
const IMAGE = '<img src=x onerror="globalThis.ran=1">';
const DRAWING = "<svg onload=globalThis.ran=1></svg>";
const SCRIPT = "\"'></p><script>globalThis.ran=1</script>";
const FRAME = "<iframe srcdoc='<script>top.ran=1</script>'>";
const LINK = "javascript:globalThis.ran=1";
const FETCHED = "<img src=//elsewhere.invalid/x.png>";
const ALL = [IMAGE, DRAWING, SCRIPT, FRAME, LINK, FETCHED, "<b>bold</b> [x](javascript:alert(1))"].join(" ");

/** A car with such texts wherever a file has one. */
function car() {
  const { points, members, bodies } = smallScene();
  const [upper, lower, toe] = members;
  return smallScene({
    title: `${IMAGE} ${DRAWING} ${SCRIPT} car`,
    notes: ALL,
    points: { ...points, [IMAGE]: { at: [10, 400, 500], how: ALL.slice(0, 500) }, [SCRIPT]: [0, 300, 300] },
    datums: [{ id: DRAWING, at: [0, 0, 0] }],
    members: [upper!, lower!, { ...toe!, id: FETCHED }],
    powertrain: { poses: [{ id: FRAME, about: [150, 0, 400], axis: [0, 1, 0], angle_deg: 3 }] },
    bodies: [
      { ...bodies[0]!, id: SCRIPT, role: LINK },
      { ...bodies[1]!, id: IMAGE, role: DRAWING },
    ],
    clearances: { default_mm: 10, accept: [{ a: "upper", b: IMAGE, why: ALL.slice(0, 500) }] },
  });
}

const LOG = {
  cards: [card({ number: 1, title: ALL, note: ALL, revision: DRAWING, fileName: IMAGE })],
  decisions: [decision({ state: "accepted", owner: SCRIPT, why: ALL })],
};

/** Nothing of it became part of the page, and nothing ran. */
async function isOnlyText(page: Page, where: string): Promise<void> {
  const seen = await page.evaluate(() => ({
    ran: Reflect.get(globalThis, "ran") ?? null,
    made: [
      ...document.querySelectorAll(
        "iframe, img[src=x], [onerror], [onload], a[href^='javascript:'], img[src*=invalid]",
      ),
    ].map(({ outerHTML }) => outerHTML),
  }));
  expect(seen, where).toEqual({ ran: null, made: [] });
}

async function openFile(page: Page, item: string, file: { name: string; mimeType: string; buffer: Buffer }) {
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: /^Scene/ }).click();
  await page.getByRole("menuitem", { name: item }).click();
  await (await chooser).setFiles(file);
}

describe("markup in whatever has a name or a note", () => {
  it("stays text in every place of the app, in what it refuses and in what it saves", async () => {
    const { page, faults, context } = await app.open({ noPicture: true, noPicker: true });
    await page.evaluate(() => Reflect.deleteProperty(window, "showSaveFilePicker"));
    page.on("dialog", (dialog) => {
      faults.push(`dialog: ${dialog.message()}`);
      void dialog.dismiss();
    });
    const json = (name: string, content: unknown) => ({
      name,
      mimeType: "application/json",
      buffer: Buffer.from(typeof content === "string" ? content : JSON.stringify(content)),
    });

    await openFile(page, "Open a scene file…", json(`${IMAGE}.json`, { format: ALL }));
    await page.getByText("Not opened").waitFor();
    await isOnlyText(page, "a refusal");

    await openFile(page, "Open a scene file…", json(`${SCRIPT.replaceAll("/", "")}.json`, car()));
    await page.getByText(IMAGE).first().waitFor();
    await untilChecked(page);
    await isOnlyText(page, "the verdicts");
    await page.getByRole("button", { name: "Points & parts" }).click();
    const list = page.getByRole("group", { name: "List" });
    for (const name of ["Parts", "Left, right", "The car", "Hard points"]) {
      await list.getByRole("button", { name }).click();
      await isOnlyText(page, name);
    }
    await page.locator("button.point-row", { hasText: IMAGE }).first().click();
    await page.getByRole("button", { name: "All points", exact: true }).waitFor();
    await isOnlyText(page, "a hard point in hand");

    await page.getByRole("button", { name: "Corner", exact: true }).click();
    await page.getByRole("button", { name: /^Make job card/ }).click();
    const dialog = page.getByRole("dialog");
    for (const box of await dialog.getByRole("textbox").all()) if (await box.isEditable()) await box.fill(ALL);
    await isOnlyText(page, "a job card in the making");
    await dialog.getByRole("button", { name: /^Keep/ }).click();
    await dialog.waitFor({ state: "detached" });
    await page.getByRole("button", { name: "Build log" }).click();
    await page.getByRole("article").first().waitFor();
    await page.getByLabel("Saved log").setInputFiles(json("log.json", writeLog(LOG)));
    await page
      .getByRole("checkbox", { name: /^Compare card/ })
      .nth(1)
      .waitFor();
    await isOnlyText(page, "the build log");
    await page.getByRole("button", { name: "Clash list" }).click();
    await isOnlyText(page, "the clash list");

    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save as a page to read" }).click();
    const saved = readFileSync(await (await download).path(), "utf8");
    expect(faults).toEqual([]);

    // whatever the page's own policy forbids, nothing in it may be there to be forbidden
    const policy = /<meta http-equiv="Content-Security-Policy"[^>]*>/;
    for (const html of [saved, writeHtml(LOG, { unit: "mm" })]) {
      expect(html).toMatch(policy);
      const reader = await context.newPage();
      reader.on("dialog", (shown) => {
        faults.push(`dialog: ${shown.message()}`);
        void shown.dismiss();
      });
      await reader.setContent(html.replace(policy, ""));
      await reader.getByRole("heading").first().waitFor();
      await isOnlyText(reader, "the page that was saved");
      await reader.close();
    }
    expect(faults).toEqual([]);
    await context.close();
  });
});
