import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { studyCorner } from "../studies/studyCorner.ts";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

/** The acceptance stories' corner with nothing but its rail in the way, on both sides. */
const corner = () => {
  const drawn = studyCorner({ sides: "both", title: "Rail in the way", tessellation_mm: 0.5 });
  const { powertrain: _powertrain, ...still } = drawn;
  return { ...still, clearances: { default_mm: 0, rules: [{ a: "sump-rail", b: "upper", mm: 10 }] } };
};

async function openScene(page: Page): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: /^Scene/ }).click();
  await page.getByRole("menuitem", { name: "Open a scene file…" }).click();
  const buffer = Buffer.from(JSON.stringify(corner()));
  await (await chooser).setFiles({ name: "rail.json", mimeType: "application/json", buffer });
  await page.getByRole("button", { name: "Scene: Rail in the way" }).waitFor();
}

describe("a builder asks what clears a tight pair, how exactly to weld it, and what came of it", () => {
  it("tries the smallest move and keeps it, reads the jig, enters a welded mount and its correction", async () => {
    const { page, faults, context } = await app.open({ noPicker: true, noPicture: true });
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await openScene(page);
    await untilChecked(page);
    const verdicts = page.getByRole("region", { name: "Verdicts" });
    await verdicts
      .getByRole("button", { name: /Upper link passes sump rail/ })
      .first()
      .click();
    await verdicts.getByRole("button", { name: "What clears it" }).click();
    const studies = page.getByRole("region", { name: "Studies" });
    // under way it can be stopped, and asked again
    await studies.getByRole("button", { name: "Stop" }).click();
    await studies.getByText("Stopped.").waitFor();
    await studies.getByRole("button", { name: "cut to suit" }).click();
    await studies.getByText("Which points, how far, what must hold").click();
    for (const name of ["Arm, pivot", "Lower link, inboard end"]) await studies.getByRole("checkbox", { name }).click();
    await studies.getByRole("button", { name: "Find the smallest moves" }).click();
    const proved = studies.getByRole("listitem").filter({ hasText: "Everything clears." }).first();
    await proved.getByRole("button", { name: "Try it" }).click();
    await untilChecked(page);
    await studies.getByRole("button", { name: "Keep it" }).click();
    await studies.getByText("From before your change.").waitFor();
    await page.getByRole("button", { name: /^Undo: upper link, inboard end/ }).click();
    await studies.getByText("From before your change.").waitFor({ state: "detached" });

    const choose = async (study: string) => {
      await studies.getByRole("combobox", { name: "Study" }).click();
      await page.getByRole("option", { name: study }).click();
    };
    await choose("Jig and tolerances");
    await studies.getByRole("button", { name: /^Arm, pivot.*closer than you place it/s }).click();
    await studies.getByRole("row", { name: /^1 mm out −0\.12\d°/ }).waitFor();
    await studies.getByRole("button", { name: "All together" }).click();
    expect(await studies.getByRole("img").count()).toBe(4);
    await studies.getByRole("button", { name: "Clearances" }).click();
    await studies.getByRole("button", { name: "Look at every clearance" }).click();
    await studies
      .getByRole("button", { name: /Upper link and sump rail: \d+ ± \d+ mm/ })
      .first()
      .waitFor();
    await studies.getByRole("button", { name: "Put right" }).click();
    await studies.getByRole("checkbox", { name: "Camber is to be right" }).click();
    await studies.getByRole("textbox", { name: "Toe wanted" }).fill("-0.1");
    await studies.getByRole("button", { name: "Try it: Arm, pivot" }).click();
    await untilChecked(page);
    await studies.getByRole("button", { name: "Put it back" }).click();

    await choose("As built");
    for (const [way, place] of Object.entries({ forward: "430", out: "638", up: "327" })) {
      await studies.getByRole("textbox", { name: `Left Arm, pivot, ${way}, welded` }).fill(place);
    }
    await page.keyboard.press("Enter");
    await studies.getByRole("button", { name: "Work it out as built" }).click();
    await studies.getByRole("img", { name: /left wheel toe \+0\.[34]\d°, right wheel toe \+0\.15°/ }).waitFor();
    await studies.getByRole("button", { name: "Enter it as corrected: Arm, pivot" }).first().click();
    await studies.getByRole("button", { name: "Work it out again" }).click();
    await studies
      .getByText("The left wheel stands as meant.")
      .or(studies.getByText("What brings the left back"))
      .waitFor();
    await studies.getByRole("img", { name: /left wheel toe \+0\.15°, right wheel toe \+0\.15°/ }).waitFor();
    expect(faults).toEqual([]);
    await context.close();
  });
});
