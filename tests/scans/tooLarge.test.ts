import { mkdtempSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { CheckResult } from "../../src/check/result.ts";
import { runCheck } from "../../src/cli/checkVerb.ts";
import { runTogether } from "../../src/cli/togetherVerb.ts";
import type { BodyDocument } from "../../src/scene/document.ts";
import { InputError } from "../../src/scene/error.ts";
import { writeScene } from "../../src/scene/write.ts";
import { smallScene } from "../app/smallScene.ts";

const folder = mkdtempSync(join(tmpdir(), "large-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** A binary STL says in bytes 80 to 83 how many triangles of 50 bytes follow (the format's own description); these are empty. */
const TRIANGLES = 2_258_698;
const header = new Uint8Array(84);
new DataView(header.buffer).setUint32(80, TRIANGLES, true);
writeFileSync(join(folder, "body.stl"), header);
truncateSync(join(folder, "body.stl"), 84 + 50 * TRIANGLES);

const SCAN: BodyDocument = { id: "body-scan", on: "chassis", shape: { kind: "mesh", file: "body.stl", unit: "mm" } };
/** Rides on both hubs, with a piece beside the scan: left out as a whole. */
const BRACKET: BodyDocument = {
  id: "bracket",
  on: "carrier",
  shape: {
    kind: "group",
    parts: [
      { kind: "box", size_mm: [40, 20, 20], at: [0, 600, 480] },
      { kind: "mesh", file: "body.stl", unit: "mm" },
    ],
  },
};
const SAID = `body.stl: it has ${TRIANGLES} triangles; wanted: at most 2000000: thin the mesh out first`;

function write(name: string, more: readonly BodyDocument[], only?: readonly string[]): string {
  const small = smallScene();
  const bodies = [...small.bodies.filter(({ id }) => !only || only.includes(id)), ...more];
  const path = join(folder, name);
  writeFileSync(path, writeScene({ ...small, bodies }));
  return path;
}

const options = { json: true, travel: undefined, pose: undefined };

describe("a part whose mesh is larger than what is read", () => {
  const path = write("car.json", [SCAN, BRACKET]);

  it("is told as not checked, and everything else is checked as without it", async () => {
    const { output, status } = await runCheck(path, options);
    const bare = JSON.parse((await runCheck(write("bare.json", []), options)).output) as CheckResult;
    const { unchecked, ...result } = JSON.parse(output) as CheckResult;
    expect(unchecked?.map(({ id }) => id)).toEqual(["body-scan", "bracket"]);
    expect(unchecked?.every(({ file, wrong, wanted }) => `${file}: ${wrong}; wanted: ${wanted}` === SAID)).toBe(true);
    expect(bare.pairs.length).toBeGreaterThan(10);
    expect({ ...result, scene: bare.scene }).toEqual(bare);
    expect(status).toBe(2);
  });

  it("is said by name in the sentences, and nothing clashing is not told as all clear", async () => {
    const quiet = write("quiet.json", [SCAN], ["rail"]);
    const { output, status } = await runCheck(quiet, { ...options, json: false });
    expect(output).toContain(`NOT CHECKED, left out: body-scan: ${SAID}\n`);
    expect(output).toMatch(/: 0 clash,/);
    expect(status).toBe(2);
  });

  it("refuses what would be wrong without it", async () => {
    const error: unknown = await runTogether(path, options).catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(InputError);
    expect((error as InputError).message).toBe(SAID);
  });
});
