import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { de } from "../../../src/app/text/de/index.ts";
import { en } from "../../../src/app/text/en/index.ts";
import { proseIn } from "./proseInSource.ts";

const APP = new URL("../../../src/app/", import.meta.url);
const sources = readdirSync(APP, { recursive: true, encoding: "utf8" })
  .filter((file) => /\.tsx?$/.test(file) && !/^(text|node_modules|public)\//.test(file))
  .map((file) => ({ file, source: readFileSync(new URL(file, APP), "utf8") }));

/** "tools.close" → "Close". */
function flat(part: object, before = ""): [key: string, text: string][] {
  return Object.entries(part).flatMap(([key, value]) =>
    typeof value === "string" ? [[before + key, value] as [string, string]] : flat(value, `${before}${key}.`),
  );
}

const english = new Map(flat(en));
const gaps = (text: string): string[] => [...text.matchAll(/{{(\w+)}}/g)].map((gap) => gap[1]!).sort();

describe("the catalogue", () => {
  it("is where all words of the interface are", () => {
    const elsewhere = sources
      .filter(({ file }) => !/^viewport\/shaders\//.test(file))
      .flatMap(({ file, source }) =>
        proseIn(source, file.endsWith("x") ? "tsx" : "ts").map(({ line, text }) => `${file}:${line} ${text}`),
      );
    expect(elsewhere).toEqual([]);
  });

  it("has no text that nothing shows", () => {
    const whole = sources.map(({ source }) => source).join("\n");
    const used = [...whole.matchAll(/\bt\(\s*(?:"([^"]+)"|`([^`]+)`)/g)].map(([, plain, made]) =>
      plain !== undefined ? exactly(plain) : exactly(made!).replace(/\\\$\\{.*?\\}/g, "[^.]+"),
    );
    const asked = new RegExp(`^(${used.join("|")})(_(zero|one|two|few|many|other))?$`);
    expect([...english.keys()].filter((key) => !asked.test(key))).toEqual([]);
  });

  it("is never asked without the values that its text wants", () => {
    const bare = sources.flatMap(({ source }) => [...source.matchAll(/\bt\("([^"]+)"\)/g)].map(([, key]) => key!));
    expect(bare.filter((key) => gaps(english.get(key) ?? "").length > 0)).toEqual([]);
  });

  it.each([
    ["en", en],
    ["de", de],
  ] as const)("is whole in %s: every plural, every value, nothing empty", (language, book) => {
    const told = new Map(flat(book));
    const plurals = new Intl.PluralRules(language).resolvedOptions().pluralCategories;
    const roots = new Set([...english.keys()].map((key) => /^(.*)_other$/.exec(key)?.[1]).filter((root) => root));
    for (const root of roots) {
      for (const plural of plurals) expect(told.has(`${root}_${plural}`), `${root}_${plural}`).toBe(true);
    }
    for (const [key, text] of told) {
      expect(text.trim(), key).not.toBe("");
      // the one of a plural may say it in words
      if (!/_(zero|one|two)$/.test(key)) expect(gaps(text), key).toEqual(gaps(english.get(key) ?? ""));
    }
  });
});

/** The text as a pattern that only itself matches. */
function exactly(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}
