import { readFileSync } from "node:fs";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { readScene } from "../../../src/scene/read.ts";

/** A sample scene as its file has it, with some of its records in place of those. */
export function sample(name: string, changes: Partial<SceneDocument> = {}): SceneDocument {
  const text = readFileSync(new URL(`../../../scenes/${name}.json`, import.meta.url), "utf8");
  return { ...readScene(text, name), ...changes };
}

/** The cells of simple comma-separated values: none of them holds a quote or a line break. */
export function cells(csv: string): Record<string, string>[] {
  const [heading, ...rows] = csv
    .trimEnd()
    .split("\n")
    .map((line) => line.split(","));
  return rows.map((row) => Object.fromEntries(heading!.map((name, i) => [name, row[i] ?? ""])));
}
