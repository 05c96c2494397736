import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { compileKernel } from "../../../src/clearance/wasm/compile.ts";

it("holds what the kernel's source compiles to: if not, `npm run kernel`", async () => {
  const folder = mkdtempSync(join(tmpdir(), "kernel-"));
  try {
    const fresh = await compileKernel(folder);
    const stored = readFileSync(new URL("../../../src/clearance/wasm/kernel.generated.ts", import.meta.url), "utf8");
    expect(stored === fresh, "kernel.generated.ts is stale").toBe(true);
  } finally {
    rmSync(folder, { recursive: true });
  }
});
