import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { SceneDocument } from "../../src/scene/document.ts";
import { withPoint } from "../../src/scene/points.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";

const SCENES = new URL("../../scenes/", import.meta.url);
const documents = readdirSync(SCENES)
  .filter((file) => file.endsWith(".json"))
  .map((file) => [file, readScene(readFileSync(new URL(file, SCENES), "utf8"), file)] as const);

/** Equal in every value, with no record in common: nothing is kept of it. */
const fresh = (document: SceneDocument): SceneDocument => structuredClone(document);

describe.each(documents)("bodies of %s", (_, document) => {
  const names = Object.keys(document.points);

  it("are the same after any point has moved as if resolved for the first time", () => {
    resolveScene(document);
    for (const [i, name] of names.entries()) {
      const [x, y, z] = resolveScene(document).points.get(name)!.at;
      const moved = withPoint(document, name, [x + 0.5, y + 0.25 * (i % 3), z - 0.125]);
      expect(resolveScene(moved).bodies).toEqual(resolveScene(fresh(moved)).bodies);
    }
  });

  it("are the very same where nothing that they hang on has moved", () => {
    const before = resolveScene(document);
    const after = resolveScene({ ...document, title: "another" });
    for (const [i, body] of after.bodies.entries()) expect(body.shape).toBe(before.bodies[i]!.shape);
  });
});
