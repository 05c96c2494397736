import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { runCheck } from "../../src/cli/checkVerb.ts";
import { loadScene } from "../../src/cli/loadScene.ts";
import { solidHash } from "../../src/geometry/content.ts";
import { translationPose } from "../../src/maths/pose.ts";
import { readyMesh } from "../../src/scans/readyMesh.ts";
import { thinWithin } from "../../src/scans/thin.ts";
import { withScan } from "../../src/scene/parts/scan.ts";
import { writeScene } from "../../src/scene/write.ts";
import { smallScene } from "../app/smallScene.ts";
import { bumpyBall, stlOf } from "./meshes.ts";

const folder = mkdtempSync(join(tmpdir(), "scan-"));
afterAll(() => rmSync(folder, { recursive: true }));

const BALL = bumpyBall(24, 150, 4);
const READING = { unit: "mm", repair: null, thinned: null } as const;

async function sceneWith(within_mm: number): Promise<string> {
  const bytes = stlOf(BALL);
  const whole = await readyMesh(bytes, "ball.stl", READING);
  const { thinned } = (await thinWithin(whole, within_mm))!;
  const reading = { ...READING, thinned };
  const pose = translationPose([0, 0, 900]);
  const scan = { id: "ball", on: "powertrain", role: null, file: "ball.stl", reading, pose };
  writeFileSync(join(folder, "ball.stl"), bytes);
  const path = join(folder, "car.json");
  writeFileSync(path, writeScene(withScan(smallScene(), scan)));
  return path;
}

test("the terminal reads the same mesh as the page from the scene and the original file, and tells what it relies on", async () => {
  const path = await sceneWith(1);
  const { document, meshFiles } = await loadScene(path);
  const body = document.bodies.at(-1)!;
  if (body.shape.kind !== "mesh") throw new Error("the scan is no mesh");
  const again = await readyMesh(stlOf(BALL), "ball.stl", { ...READING, thinned: body.shape.thinned ?? null });
  expect(solidHash(meshFiles.get("ball.stl")!)).toBe(solidHash(again));
  expect(again.indices.length).toBeLessThan(BALL.indices.length);
  const { output } = await runCheck(path, { json: true, travel: undefined, pose: undefined });
  const { pairs } = JSON.parse(output) as { pairs: { a: string; b: string; within_mm?: number }[] };
  const own = pairs.filter(({ a, b }) => a === "ball" || b === "ball");
  expect(own.length).toBeGreaterThan(0);
  expect(own.every(({ within_mm }) => within_mm === 1)).toBe(true);
  expect(pairs.filter((pair) => !own.includes(pair)).every(({ within_mm }) => within_mm === undefined)).toBe(true);
});
