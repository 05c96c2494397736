import { describe, expect, test } from "vitest";
import type { SceneDocument } from "../../src/scene/document.ts";
import { InputError } from "../../src/scene/error.ts";
import { meshFilesOf } from "../../src/scene/meshFiles.ts";
import { validateDocument } from "../../src/scene/read.ts";
import { smallScene } from "../app/smallScene.ts";

type Shape = SceneDocument["bodies"][number]["shape"];

function withMeshes(...shapes: object[]): SceneDocument {
  const bodies = shapes.map((shape, i) => ({
    id: `scan-${i}`,
    on: "chassis",
    shape: { kind: "mesh", file: "scan.stl", unit: "mm", ...shape } as Shape,
  }));
  return smallScene({ bodies });
}

function fault(work: () => unknown): InputError {
  try {
    work();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("it was not refused");
}

describe("how a scene says that a mesh file is read", () => {
  test("repair and thinning are kept as they are written", () => {
    const reading = { repair: { weldWithin_mm: 0.01, holesUpTo_mm: 40 }, thinned: { within_mm: 0.5, error_mm: 0.2 } };
    const document = withMeshes(reading);
    expect(() => validateDocument(document, "")).not.toThrow();
    expect(meshFilesOf(document)).toMatchObject([{ file: "scan.stl", unit: "mm", ...reading }]);
  });

  test.each([
    [{ thinned: { within_mm: 0, error_mm: 0.2 } }, "thinned.within_mm"],
    [{ thinned: { within_mm: 1 } }, "thinned.error_mm"],
    [{ repair: { weldWithin_mm: -1 } }, "repair.weldWithin_mm"],
  ])("%j is refused by its path", (reading, path) => {
    expect(fault(() => validateDocument(withMeshes(reading), "")).path).toContain(path);
  });

  test("one file cannot be read in two ways", () => {
    const thinned = { within_mm: 0.5, error_mm: 0.2 };
    expect(meshFilesOf(withMeshes({ thinned }, { thinned: { ...thinned } }))).toHaveLength(1);
    expect(fault(() => meshFilesOf(withMeshes({ thinned }, {})))).toMatchObject({
      code: "mesh",
      path: "bodies[1].shape.thinned",
      wanted: "one reading for one file",
    });
    expect(fault(() => meshFilesOf(withMeshes({}, { repair: { straysBelow_mm: 3 } }))).path).toContain("repair");
  });
});
