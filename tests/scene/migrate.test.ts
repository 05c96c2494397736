import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { SCENE_VERSION } from "../../src/scene/document.ts";
import { MIGRATIONS, type Migration, migrate } from "../../src/scene/migrate.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { refusal } from "./fixture.ts";

/** A made-up history: version 1 renamed `name`, version 2 turned a length from inches to millimetres. */
const chain: readonly Migration[] = [
  {
    from: 0,
    what: "name became title",
    step: ({ name, ...raw }) => ({ ...raw, title: name }),
  },
  {
    from: 1,
    what: "lengths in millimetres",
    step: (raw) => {
      const wheel = raw.wheel as { radius: number };
      wheel.radius *= 25.4;
      return raw;
    },
  },
];
const oldest = () => ({ version: 0, name: "old", wheel: { radius: 10 } });

describe("migrations", () => {
  it("lift a record step by step from wherever it stands", () => {
    const newest = { version: 2, title: "old", wheel: { radius: 254 } };
    expect(migrate(oldest(), chain, 0)).toEqual(newest);
    expect(migrate({ version: 1, title: "old", wheel: { radius: 10 } }, chain, 0)).toEqual(newest);
    expect(migrate(newest, chain, 0)).toEqual(newest);
  });

  it("leave their input as it is, even when a step writes to what it is given", () => {
    const input = oldest();
    const result = migrate(input, chain, 0);
    expect(input).toEqual(oldest());
    expect(result.wheel).not.toBe(input.wheel);
  });

  it("refuse a version that is newer, older, missing or no whole number, and say which can be read", () => {
    for (const version of [3, -1, undefined, null, "1", 1.5]) {
      const error = refusal(() => migrate({ version }, chain, 0, "car.json"));
      expect([error.code, error.path]).toEqual(["wrong-version", "version"]);
      expect(error.message).toMatch(/^car\.json: version: .+; wanted: version 0 to 2$/);
    }
    expect(refusal(() => migrate({ version: 3 }, chain, 0)).message).toMatch(
      /newer than this program, which reads up to 2/,
    );
  });

  it("must follow each other without a gap, which is the program's fault and no input error", () => {
    for (const broken of [[chain[1]!], [chain[0]!, { ...chain[1]!, from: 2 }], [chain[0]!, chain[0]!]]) {
      expect(() => migrate(oldest(), broken, 0)).toThrow(/gap/);
    }
  });

  it("lead from version 1 to the version that is written", () => {
    expect(MIGRATIONS.map(({ from }) => from)).toEqual(Array.from({ length: SCENE_VERSION - 1 }, (_, i) => i + 1));
  });

  it.each(Array.from({ length: SCENE_VERSION }, (_, i) => i + 1))(
    "a saved file of version %i still opens",
    (version) => {
      const text = readFileSync(new URL(`../fixtures/scene-version-${version}.json`, import.meta.url), "utf8");
      expect(JSON.parse(text).version).toBe(version);
      expect(resolveScene(readScene(text, "saved.json")).members.length).toBeGreaterThan(0);
    },
  );
});
