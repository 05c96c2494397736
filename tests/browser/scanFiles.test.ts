import { describe, expect, it } from "vitest";
import { shellsOf } from "../../src/geometry/shells.ts";
import { boxMesh } from "../bench/meshes.ts";
import { binaryPly, glb, obj } from "../geometry/meshWriters.ts";
import { bumpyBall, stlOf } from "../scans/meshes.ts";
import { browserApp } from "./openApp.ts";
import { choose, openScans } from "./openScans.ts";

const app = browserApp();

describe("a scan's file", () => {
  it("reads OBJ, PLY and GLB, each with its size; what is no mesh is told and nothing is lost", async () => {
    const { page, faults, context } = await app.open({ noPicker: true, noPicture: true });
    const ball = shellsOf(bumpyBall(8, 150, 3));
    const files = [
      { name: "ball.obj", buffer: obj(ball), unit: "millimetres" },
      { name: "ball.ply", buffer: binaryPly(ball, true), unit: "millimetres" },
      // metres are what the format prescribes
      { name: "ball.glb", buffer: glb({ ...ball, positions: ball.positions.map((mm) => mm / 1000) }), unit: "metres" },
    ];
    await openScans(page);
    await choose(page, { name: "notes.obj", mimeType: "", buffer: Buffer.from("no mesh at all") });
    await page.getByRole("alert").filter({ hasText: "notes.obj" }).waitFor();
    for (const { name, buffer, unit } of files) {
      await choose(page, { name, mimeType: "", buffer: Buffer.from(buffer) });
      await page.getByRole("heading", { name: "What was found" }).waitFor();
      await page
        .getByText(`${ball.indices.length / 3} triangles`)
        .first()
        .waitFor();
      await page.getByText("Nothing: one closed surface.").waitFor();
      expect(await page.getByRole("radio", { name: new RegExp(`^${unit}`) }).isChecked()).toBe(true);
      await page.getByRole("button", { name: "Leave it" }).click();
      await page.getByRole("dialog").waitFor({ state: "detached" });
      await page.getByRole("button", { name: "Bring in a scan" }).click();
    }
    expect(faults).toEqual([]);
    await context.close();
  });

  it("is turned by a machined face that must lie on the ground", async () => {
    const { page, faults, context } = await app.open({ noPicker: true });
    await openScans(page);
    const { points, triangles } = boxMesh([40, 300, 330], [160, 120, 90], [8, 6, 6]);
    const buffer = Buffer.from(
      stlOf({ positions: Float32Array.from(points.flat()), indices: Uint32Array.from(triangles) }),
    );
    await choose(page, { name: "casing.stl", mimeType: "model/stl", buffer });
    await page.getByText("Nothing: one closed surface.").waitFor();
    await page.getByRole("button", { name: "Next: place" }).click();
    await page.getByRole("button", { name: "Next: fit" }).click();
    await page.getByRole("button", { name: "Add a flat" }).click();
    // it is picked on the scan next
    await page.getByRole("button", { name: "Tap the flat on the scan", pressed: true }).waitFor();
    const view = (await page.getByRole("img", { name: "The scan in 3D" }).boundingBox())!;
    await expect
      .poll(async () => {
        // a tap before the scan is drawn hits nothing
        if (await page.getByRole("img", { name: "The scan in 3D" }).isVisible())
          await page.mouse.click(view.x + view.width / 2, view.y + view.height / 2);
        await page.waitForTimeout(1000);
        return page.getByText(/^A flat of \d+ points/).count();
      })
      .toBe(1);
    await page.getByRole("combobox", { name: "Lies in" }).click();
    await page.getByRole("option", { name: "the ground" }).click();
    await page.getByText(/^The fit holds 3 of the 6 ways it can move/).waitFor();
    await page.getByText(/Off by 0\.0/).waitFor();
    await page.getByRole("button", { name: "Next: thin out" }).click();
    await page.getByRole("button", { name: "Next: part" }).click();
    await page.getByRole("button", { name: "Bring it in" }).click();
    await page.getByRole("button", { name: "Undo: bring in casing" }).waitFor();
    expect(faults).toEqual([]);
    await context.close();
  });
});
