import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { ALLOWED, packageFolders, readPackage, thirdPartyText } from "../../src/cli/serving/thirdParty.ts";
import { judgeAudit } from "../audit.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));
const read = (file: string) => readFileSync(join(root, file), "utf8");
const about = JSON.parse(read("package.json"));
const lock = JSON.parse(read("package-lock.json"));
const list = read("assets/third-party.txt");
const listed = new Map(
  [...list.matchAll(/^- (\S+) (\S+): (\S+?)(?:,| \(|$)/gm)].map(([, name, version, license]) => [
    name!,
    { version, license },
  ]),
);

describe("the list of works of others", () => {
  it("names a licence that may be shipped for each, in the version that the lock holds", () => {
    expect(listed.size).toBeGreaterThan(40);
    for (const [name, { version, license }] of listed) {
      expect(ALLOWED, name).toContain(license);
      const locked = lock.packages[`node_modules/${name}`];
      expect(locked?.version, name).toBe(version);
      if (locked.license) expect(license, name).toBe(locked.license);
    }
  });

  it("holds every package that the app's own source asks for", () => {
    const rooms = readdirSync(join(root, "src"), { recursive: true, encoding: "utf8" }).filter(
      (file) => /[.](ts|tsx)$/.test(file) && !/^cli|wasm.(assembly|compile)/.test(file),
    );
    const asked = new Set<string>();
    for (const file of rooms) {
      const text = read(join("src", file));
      for (const [, isType, name] of text.matchAll(
        /^\s*(?:import|export)\s+(type\s)?(?:[^"';]*?\sfrom\s+)?"([^".][^"]*)"/gm,
      )) {
        if (!isType && !name!.startsWith("node:"))
          asked.add(
            name!
              .split("/")
              .slice(0, name!.startsWith("@") ? 2 : 1)
              .join("/"),
          );
      }
    }
    expect(asked.size).toBeGreaterThan(20);
    expect([...asked].filter((name) => !listed.has(name))).toEqual([]);
  });

  it("holds a text for every one", () => {
    const heads = [...list.matchAll(/^={78}\n(.+)$/gm)].flatMap(([, names]) => names!.split(", "));
    expect(heads.sort()).toEqual([...listed].map(([name, { version }]) => `${name} ${version}`).sort());
  });

  it("is refused for a package whose licence may not be shipped", () => {
    // it is under a licence of its own kind and only serves the tests
    expect(() => thirdPartyText(root, ["node_modules/axe-core", "node_modules/lightningcss"])).not.toThrow();
    expect(() => readPackage(root, "node_modules/caniuse-lite")).toThrow(/CC-BY-4[.]0/);
  });
});

describe("folders of packages", () => {
  it("are found in what a build names", () => {
    const ids = [
      "/p/node_modules/a/b.js",
      "/p/node_modules/@c/d/e.js?url",
      "\0/p/node_modules/a/node_modules/f/g.js",
      "/p/src/h.ts",
      "\0vite/preload",
    ];
    expect([...packageFolders(ids, "/p/")]).toEqual([
      "node_modules/a",
      "node_modules/@c/d",
      "node_modules/a/node_modules/f",
    ]);
  });
});

describe("dependencies", () => {
  const own = { ...about.dependencies, ...about.devDependencies };

  it("are asked for in one exact version each", () => {
    for (const [name, version] of Object.entries(own)) expect(version, name).toMatch(/^\d+[.]\d+[.]\d+(-[\w.]+)?$/);
  });

  it("are locked, each with the hash of what must come, from the registry alone", () => {
    expect(lock.lockfileVersion).toBe(3);
    for (const [place, entry] of Object.entries(lock.packages as Record<string, Record<string, unknown>>)) {
      if (place === "") continue;
      // a strong hash (Subresource Integrity, W3C); sha1 is none
      expect(entry.integrity, place).toMatch(/^sha512-[A-Za-z0-9+/]{86}==$/);
      expect(entry.link, place).toBeUndefined();
      if (entry.resolved !== undefined) expect(entry.resolved, place).toMatch(/^https:[/][/]/);
    }
    for (const [name, version] of Object.entries(own))
      expect(lock.packages[`node_modules/${name}`].version).toBe(version);
  });

  it("run no script when they are installed, but those that are named", () => {
    const scripted = Object.entries(lock.packages as Record<string, { hasInstallScript?: boolean; optional?: boolean }>)
      .filter(([, { hasInstallScript, optional }]) => hasInstallScript && !optional)
      .map(([place]) => place.replace(/.*node_modules[/]/, ""));
    expect([...new Set(scripted)].sort()).toEqual(Object.keys(about.allowScripts).sort());
  });

  it("that the program needs to run are those that its source asks for", () => {
    const all = readdirSync(join(root, "src"), { recursive: true, encoding: "utf8" })
      .filter((file) => /[.](ts|tsx|mjs|css)$/.test(file))
      .map((file) => read(join("src", file)))
      .join("\n");
    const unused = Object.keys(about.dependencies).filter((name) => !all.includes(`"${name}`));
    expect(unused).toEqual([]);
  });
});

describe("the audit", () => {
  const answer = (counts: object) => JSON.stringify({ metadata: { vulnerabilities: { total: 1, ...counts } } });

  it("stops at what is high or critical, tells lesser things", () => {
    expect(judgeAudit(answer({ high: 1 }))[0]).toBe(false);
    expect(judgeAudit(answer({ critical: 2 }))[0]).toBe(false);
    expect(judgeAudit(answer({ moderate: 1 }))).toEqual([true, expect.stringContaining("1 moderate")]);
  });

  it("passes a registry over that keeps no list, and says so", () => {
    for (const none of ["", "<html>", '{"message":"405 Method Not Allowed"}', '{"error":{"code":"ENOAUDIT"}}']) {
      expect(judgeAudit(none)).toEqual([true, expect.stringContaining("nothing was audited")]);
    }
  });
});
