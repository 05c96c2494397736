import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Locator, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { ledgerRows, tallies } from "../../src/app/corner/ledgerRows.ts";
import { pieces } from "../../src/app/text/en/pieces.ts";
import type { SceneDocument, ShapeDocument } from "../../src/scene/document.ts";
import { piecesOf, typedPiece } from "../../src/scene/parts/pieces.ts";
import { readScene } from "../../src/scene/read.ts";
import { checkDocument } from "../check/checkDocument.ts";
import { placesOf } from "../scene/setup/answers.ts";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();
const path = fileURLToPath(new URL("../../scenes/1-hub-and-arm-donor-links.json", import.meta.url));
const file = readScene(readFileSync(path, "utf8"), "1.json");

/** What a builder would have on paper for each question of the set-up; the rest is left out. */
function onPaper(document: SceneDocument): Readonly<Record<string, readonly string[]>> {
  const { wheel, travel, damper, driveshaft, powertrain } = document;
  const [pulling, overrun] = powertrain!.poses!;
  const numbers = (values: readonly number[]) => values.map(String);
  const places = Object.entries(placesOf(document)).map(
    ([name, at]) => [name, numbers(at as readonly number[])] as const,
  );
  const right = driveshaft!.right!;
  const [x, y, z] = right.inner as readonly number[];
  return {
    ...Object.fromEntries(places),
    title: [document.title],
    "wheel.tyre": [wheel.tyre],
    "wheel.rimWidth_in": [String(wheel.rimWidth_in)],
    "wheel.rimOffset_mm": [String(wheel.rimOffset_mm)],
    "wheel.toe_deg": [String(wheel.toe_deg)],
    "wheel.camber_deg": [String(wheel.camber_deg)],
    "upper.tube": ["28"],
    "lower.tube": ["30"],
    "travel.bump_mm": [String(travel.bump_mm)],
    "travel.droop_mm": [String(travel.droop_mm)],
    "engine.rock": numbers(pulling!.about as readonly number[]),
    "rock.pulling_deg": [String(pulling!.angle_deg)],
    "rock.overrun_deg": [String(overrun!.angle_deg)],
    ...Object.fromEntries(
      Object.entries(damper!).flatMap(([key, value]) =>
        typeof value === "number" ? [[`damper.${key}`, [String(value)]]] : [],
      ),
    ),
    ...Object.fromEntries(
      Object.entries(driveshaft!).flatMap(([key, value]) =>
        typeof value === "number" ? [[`shaft.${key}`, [String(value)]]] : [],
      ),
    ),
    "shaft.right.inner": [String(x), String(-y!), String(z)],
    "shaft.right.shortest_mm": [String(right.shortest_mm)],
    "shaft.right.longest_mm": [String(right.longest_mm)],
  };
}

const CHOSEN: Readonly<Record<string, string>> = {
  sides: "Both sides",
  "links.bush": "Bushes on bolts that run fore and aft",
  "rock.there": "Yes, place it",
  "damper.there": "Yes, place it",
  "damper.on": "The hub side",
  "spring.there": "Yes, place it",
  "stop.there": "Yes, place it",
  "shaft.there": "Yes, place it",
  "shaft.right": "No, measured by itself",
};

/** Answers what is on the paper and skips the rest, question by question as they are asked. */
async function answerAll(page: Page): Promise<void> {
  const paper = onPaper(file);
  const sheet = page.getByRole("region", { name: "Guided set-up" });
  for (let i = 0; i < 120; i++) {
    const id = await sheet.getAttribute("data-question");
    if (id === null || id === "") return;
    const values = paper[id];
    if (values) {
      const fields = sheet.locator(".measure-input");
      for (const [k, value] of values.entries()) await fields.nth(k).fill(value);
      await fields.nth(values.length - 1).press("Enter");
    } else if (CHOSEN[id]) {
      await sheet.getByRole("button", { name: CHOSEN[id], exact: true }).click();
    } else {
      await sheet.getByRole("button", { name: /^Skip/ }).click();
    }
    await page.locator(`[data-question]:not([data-question="${id}"])`).waitFor();
  }
}

/** Pastes each text into its field, one after the other: a trip to the page for each would take the longest of all. */
async function pasteAll(form: Element, texts: Readonly<Record<string, string>>): Promise<void> {
  for (const [key, text] of Object.entries(texts)) {
    const field = form.querySelector<HTMLInputElement | HTMLTextAreaElement>(`[data-field="${key}"]`)!;
    // a busy page may take the focus elsewhere between the two
    for (let attempt = 0; attempt < 20 && field.value !== text; attempt++) {
      field.focus();
      field.select();
      document.execCommand("insertText", false, text);
      await new Promise((drawn) => setTimeout(drawn, 10 * attempt));
    }
  }
}

async function typePieces(page: Page, dialog: Locator, shape: ShapeDocument): Promise<void> {
  for (const [i, piece] of piecesOf(shape)!.entries()) {
    await dialog.getByRole("button", { name: `+ ${pieces.kinds[piece.kind]}` }).click();
    const form = dialog.getByRole("region", { name: `${i + 1} ${pieces.kinds[piece.kind]}` });
    const { texts } = typedPiece(piece, "mm");
    await form.evaluate(pasteAll, texts);
  }
  await dialog.getByRole("button", { name: "Keep the part" }).click();
  const refused = dialog.getByRole("alert").first();
  if ((await refused.count()) > 0) throw new Error(`not kept: ${await dialog.getByRole("alert").allTextContents()}`);
  await page.getByRole("dialog").waitFor({ state: "detached" });
}

async function pick(page: Page, within: Locator, label: string, option: string): Promise<void> {
  await within.getByRole("combobox", { name: label, exact: true }).click();
  await page.getByRole("option", { name: option, exact: true }).click();
}

const MOUNTS: Readonly<Record<string, string>> = {
  powertrain: "the powertrain",
  carrier: "the hub side",
  driveshaft: "driveshaft",
  "damper-upper": "damper rod",
  "damper-lower": "damper body",
};

describe("the sample corner with donor links, from nothing", () => {
  it("is built through the interface alone, and gives the verdicts of the file", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    await page.getByRole("button", { name: /^Scene/ }).click();
    await page.getByRole("menuitem", { name: "Begin a corner…" }).click();
    await page.getByRole("button", { name: "Ask me one measurement at a time" }).click();
    await answerAll(page);
    await page.getByRole("button", { name: "Put the set-up away" }).click();

    await page.getByRole("button", { name: "Points & parts" }).click();
    const list = page.getByRole("group", { name: "List" });
    await list.getByRole("button", { name: "The car" }).click();
    await page.getByRole("button", { name: /^Wanted gaps/ }).click();
    const gaps = page.getByRole("dialog");
    await gaps.getByRole("textbox", { name: "Parts that share a joint may meet within" }).fill("50");
    await gaps.getByRole("textbox", { name: "Round parts are drawn to within" }).fill("0.2");
    await gaps.getByRole("button", { name: "Keep it" }).click();
    await page.getByRole("dialog").waitFor({ state: "detached" });

    await list.getByRole("button", { name: "Parts" }).click();
    for (const { id, on, role, mirror, shape } of file.bodies) {
      await page.getByRole("button", { name: "Build from pieces" }).click();
      const dialog = page.getByRole("dialog");
      await dialog.getByRole("textbox", { name: "Name", exact: true }).fill(id);
      if (role) await dialog.getByRole("textbox", { name: /^Role/ }).fill(role);
      if (MOUNTS[on]) await pick(page, dialog, "Rides on", MOUNTS[on]);
      if (mirror) await dialog.getByRole("checkbox", { name: "Its image on the right too" }).check();
      await typePieces(page, dialog, shape);
      await page.getByRole("button", { name: "All parts" }).click();
    }
    for (const { id, kind, body } of file.members) {
      const group = page.getByRole("region", { name: kind === "link" ? "Arms" : "Hub side", exact: true });
      await group.getByRole("button", { name: kind === "link" ? new RegExp(`^${id} link`, "i") : /^Arm/ }).click();
      await page.getByRole("button", { name: /: rename, copy, delete$/ }).click();
      await page.getByRole("menuitem", { name: "Draw from pieces…" }).click();
      const dialog = page.getByRole("dialog");
      while ((await dialog.getByRole("button", { name: "Take this piece out" }).count()) > 0) {
        await dialog.getByRole("button", { name: "Take this piece out" }).click();
      }
      await typePieces(page, dialog, body!);
      await page.getByRole("button", { name: "All parts" }).click();
    }

    // rules may name roles only once some part has them, or one like it
    await list.getByRole("button", { name: "The car" }).click();
    await page.getByRole("button", { name: /^Wanted gaps/ }).click();
    for (const [i, { a, b, mm }] of file.clearances.rules!.entries()) {
      const rule = gaps.getByRole("group", { name: `Rules ${i + 1}` });
      if ((await rule.count()) === 0) await gaps.getByRole("button", { name: "Add a rule" }).click();
      await pick(page, rule, "Between", termName(a));
      await pick(page, rule, "and", termName(b));
      await rule.getByRole("textbox", { name: "Gap" }).fill(String(mm));
    }
    await gaps.getByRole("button", { name: "Keep it" }).click();
    await page.getByRole("dialog").waitFor({ state: "detached" });

    await page.getByRole("button", { name: "Corner", exact: true }).click();
    await untilChecked(page);
    const expected = await checkDocument(file);
    const counts = tallies(ledgerRows(expected));
    const verdicts = page.getByRole("region", { name: "Verdicts" });
    for (const kind of ["clash", "tight", "clear"] as const) {
      await verdicts.getByRole("button", { name: `${counts[kind]} ${kind}`, exact: true }).waitFor();
    }

    // no test can answer the system's own dialog; without it the browser downloads
    await page.evaluate(() => Reflect.deleteProperty(window, "showSaveFilePicker"));
    const saved = page.waitForEvent("download");
    await page.getByRole("button", { name: /^Scene/ }).click();
    await page.getByRole("menuitem", { name: /^Save the scene as a file/ }).click();
    const built = readScene(readFileSync(await (await saved).path(), "utf8"), "built.json");
    expect(built.title).toBe(file.title);
    expect(placesOf(built)).toMatchObject(placesOf(file));
    const result = await checkDocument(built);
    expect(result.pairs.map(({ side, a, b, verdict }) => `${side} ${a} ${b} ${verdict}`)).toEqual(
      expected.pairs.map(({ side, a, b, verdict }) => `${side} ${a} ${b} ${verdict}`),
    );
    for (const [i, pair] of result.pairs.entries()) {
      // numbers in texts carry a ten-thousandth of a millimetre
      expect(Math.abs(pair.clearance_mm - expected.pairs[i]!.clearance_mm)).toBeLessThan(0.01);
    }
    expect(result.limits.map(({ side, what, verdict }) => `${side} ${what} ${verdict}`)).toEqual(
      expected.limits.map(({ side, what, verdict }) => `${side} ${what} ${verdict}`),
    );
    expect(faults).toEqual([]);
    await context.close();
  }, 600_000);
});

function termName(term: string): string {
  if (term === "*") return "everything";
  if (term.startsWith("role:")) return `all with the role ${term.slice(5)}`;
  return term.charAt(0).toUpperCase() + term.slice(1);
}
