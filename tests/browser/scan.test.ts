import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { applyPose, composePoses, rotationPose, translationPose } from "../../src/maths/pose.ts";
import { normalise, type Vec3 } from "../../src/maths/vec3.ts";
import { bumpyBall, stlOf } from "../scans/meshes.ts";
import { keptStep } from "./kept.ts";
import { browserApp, untilChecked } from "./openApp.ts";
import { choose, openScans } from "./openScans.ts";

const app = browserApp();
const SAMPLE = fileURLToPath(new URL("../../scenes/1-hub-and-arm-donor-links.json", import.meta.url));
const POINTS = ["upper.in", "lower.in", "arm.front"] as const;

/** Takes the car into the axes of the scan, mm. */
const SCAN_FROM_CAR = composePoses(translationPose([4000, -900, 250]), rotationPose(normalise([1, -2, 3]), 2));

/** A lump in the scanner's axes, in metres, with a hole in its top. */
function scanFile(cells: number) {
  const lump = bumpyBall(cells, 150, 3);
  const positions = new Float32Array(lump.positions.length);
  const kept: number[] = [];
  for (let t = 0; t < lump.indices.length; t += 3) {
    const corners = [...lump.indices.subarray(t, t + 3)];
    if (corners.some((v) => lump.positions[3 * v + 2]! < 145)) kept.push(...corners);
  }
  for (let i = 0; i < positions.length; i += 3) {
    const [x, y, z] = lump.positions.subarray(i, i + 3);
    const p = applyPose(SCAN_FROM_CAR, [x! + 100, y! + 200, z! + 330]);
    positions.set(
      p.map((value) => value / 1000),
      i,
    );
  }
  const buffer = Buffer.from(stlOf({ positions, indices: Uint32Array.from(kept) }));
  return { name: "engine.stl", mimeType: "model/stl", buffer };
}

function hardPoint(name: string): Vec3 {
  const { points } = JSON.parse(readFileSync(SAMPLE, "utf8"));
  return points[name].at ?? points[name];
}

describe("a builder brings in a scan", () => {
  it("from its file to a part of the car in one step, which is undone, redone and opened again", async () => {
    const { page, faults, context } = await app.open({ noPicker: true });
    await untilChecked(page);
    await openScans(page);
    await choose(page, scanFile(40));
    await page.getByRole("heading", { name: "What was found" }).waitFor();
    expect(await page.getByRole("radio", { name: /^metres/ }).isChecked()).toBe(true);
    await page.getByText(/^One hole or open rim/).waitFor();
    await page.getByText(/^Its surface is open/).waitFor();
    await page.getByRole("button", { name: "Mend what was found" }).click();
    await page.getByText(/Holes closed: 1\./).waitFor();
    await page.getByText(/^Its surface is closed/).waitFor();
    await page.getByRole("button", { name: "Next: place" }).click();

    await page.getByRole("button", { name: "Tap it on the scan" }).first().click();
    const view = (await page.getByRole("img", { name: "The scan in 3D" }).boundingBox())!;
    await expect
      .poll(async () => {
        // a tap before the scan is drawn hits nothing, and one more after a hit would pick in the car
        if (await page.getByRole("img", { name: "The scan in 3D" }).isVisible())
          await page.mouse.click(view.x + view.width / 2, view.y + view.height / 2);
        await page.waitForTimeout(1000);
        return page.getByRole("button", { name: "On the scan ✓" }).count();
      })
      .toBe(1);
    await page.getByRole("img", { name: "The car in 3D", exact: true }).last().waitFor();

    for (const [i, name] of POINTS.entries()) {
      const row = page.locator(".scan-pair").nth(i);
      await row.getByRole("button", { name: "Type the coordinates" }).click();
      for (const [k, axis] of ["x", "y", "z"].entries()) {
        const at = applyPose(SCAN_FROM_CAR, hardPoint(name));
        await row.getByRole("textbox", { name: `Scan's ${axis}` }).fill(String(at[k]!));
      }
      await row.getByRole("combobox", { name: `Point ${i + 1} in the car` }).click();
      await page.getByRole("option", { name, exact: true }).click();
    }
    await page.getByText(/The pairs are off by 0\.0 mm in the mean/).waitFor();
    await page.getByRole("button", { name: "Next: fit" }).click();
    await page.getByRole("button", { name: "Next: thin out" }).click();
    await page.getByText("thinned out, within 1.0 mm").click();
    await page.getByText(/triangles are left/).waitFor();
    await page.getByRole("button", { name: "Next: part" }).click();
    await page.getByRole("combobox", { name: "Rides on" }).click();
    await page.getByRole("option", { name: "the powertrain" }).click();
    await page.getByRole("button", { name: "Bring it in" }).click();
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.getByRole("region", { name: "Engine", exact: true }).waitFor();

    await page.getByRole("button", { name: "Undo: bring in engine" }).click();
    await page.getByRole("region", { name: "Engine", exact: true }).waitFor({ state: "detached" });
    await expect.poll(() => keptStep(page)).toBe(0);
    await page.getByRole("button", { name: /^Redo/ }).click();
    await expect.poll(() => keptStep(page)).toBe(1);
    await page.reload();
    await page.getByRole("button", { name: "Undo: bring in engine" }).waitFor();
    await page.getByRole("button", { name: "Points & parts" }).click();
    await page.getByRole("group", { name: "List" }).getByRole("button", { name: "Parts" }).click();
    await page.locator(".part-row", { hasText: /^Engine$/ }).click();
    await page.getByRole("button", { name: /^Size, faults/ }).click();
    await page.getByRole("heading", { name: "What was found" }).waitFor();
    expect(await page.getByRole("radio", { name: /^metres/ }).isChecked()).toBe(true);
    await page.getByRole("button", { name: "Thin out", exact: true }).click();
    expect(await page.getByRole("radio", { name: "thinned out, within 1.0 mm" }).isChecked()).toBe(true);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("stops a long reading at once, and is asked for a file again; the scene has not changed", async () => {
    const { page, faults, context } = await app.open({ noPicker: true, noPicture: true });
    await openScans(page);
    await choose(page, scanFile(230));
    await page.getByRole("button", { name: "Stop" }).click();
    await page.getByRole("button", { name: "Choose a file…" }).waitFor();
    await page.getByRole("button", { name: "Leave it" }).click();
    await page.getByRole("dialog").waitFor({ state: "detached" });
    expect(await page.getByRole("button", { name: "Undo", exact: true }).isDisabled()).toBe(true);
    expect(faults).toEqual([]);
    await context.close();
  });
});
