import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { writeHeapSnapshot } from "node:v8";
import { expect, it } from "vitest";
import { sizesOf } from "./heap.ts";

it("sums what is held apart from what the engine compiles", () => {
  const folder = mkdtempSync(join(tmpdir(), "heap-"));
  try {
    const sizes = () => sizesOf(JSON.parse(readFileSync(writeHeapSnapshot(join(folder, "all")), "utf8")));
    const before = sizes();
    const held = new Array(1_000_000).fill(0).map((_, i) => i + 0.5);
    const after = sizes();
    // 8 bytes a number of an array of doubles
    expect(after.held_bytes - before.held_bytes).toBeGreaterThan(8e6 - 1e6);
    expect(Math.abs(after.code_bytes - before.code_bytes)).toBeLessThan(2e6);
    expect(held.length).toBe(1_000_000);
  } finally {
    rmSync(folder, { recursive: true });
  }
}, 120_000);
