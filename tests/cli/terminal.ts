import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll } from "vitest";

export const root = fileURLToPath(new URL("../..", import.meta.url));

/** A folder for one test file's files, gone after it. */
export function testFolder(): { at(name: string): string; save(name: string, text: string): string } {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "elbowroom-"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const at = (name: string) => join(folder, name);
  return {
    at,
    save(name, text) {
      writeFileSync(at(name), text);
      return at(name);
    },
  };
}

/** The program as a terminal runs it. */
export function run(...args: string[]): { status: number | null; out: string; err: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, ["src/cli/boot.mjs", ...args], {
    cwd: root,
    encoding: "utf8",
    maxBuffer: 50_000_000,
  });
  return { status, out: stdout, err: stderr };
}
