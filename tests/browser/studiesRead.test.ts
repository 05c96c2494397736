import { describe, expect, it } from "vitest";
import { axeProgram, faultsOf } from "./axeFaults.ts";
import { browserApp, untilChecked } from "./openApp.ts";

const app = browserApp();

describe("for a screen reader", () => {
  it("names, roles and contrast are right in the studies of moves, jig and as built", async () => {
    const { page, faults, context } = await app.open({ noPicture: true });
    await page.evaluate(axeProgram);
    await untilChecked(page);
    const isClean = async (what: string) => expect(await faultsOf(page), what).toEqual([]);
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.keyboard.press("t");
    const studies = page.getByRole("region", { name: "Studies" });
    const choose = async (study: string) => {
      await studies.getByRole("combobox", { name: "Study" }).click();
      await page.getByRole("option", { name: study }).click();
    };
    await choose("What clears it");
    await studies.getByText("Which points, how far, what must hold").click();
    await studies.getByRole("checkbox", { name: "Camber keeps to a range" }).click();
    await isClean("moves");
    await choose("Jig and tolerances");
    await studies.getByRole("button", { name: /^Arm, pivot/ }).click();
    await isClean("the jig's mounts");
    await studies.getByRole("button", { name: "All together" }).click();
    await studies.getByRole("img").first().waitFor();
    await isClean("all together");
    await studies.getByRole("button", { name: "Put right" }).click();
    await studies.getByRole("textbox", { name: "Toe wanted" }).fill("0.4");
    await studies.getByRole("button", { name: "Try it: Arm, pivot" }).waitFor();
    await isClean("where a mount must go");
    await choose("As built");
    await studies.getByText("Slots, shims and adjusters: 0 told").click();
    await studies.getByRole("button", { name: "Add what can be set" }).click();
    await studies.getByText("Rehearse weld pull").click();
    await studies.getByRole("button", { name: "Work it out as built" }).click();
    await studies.getByRole("region", { name: "As built" }).waitFor();
    await isClean("as built");
    expect(faults).toEqual([]);
    await context.close();
  });
});
