import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("..", import.meta.url));
const src = join(root, "src");

/** Rooms top to bottom: a file imports from its own room and from rooms of a row above it, never from below or beside. */
const ROWS = [
  ["maths"],
  ["scene"],
  ["geometry"],
  ["kinematics"],
  ["clearance"],
  ["scans"],
  ["check"],
  ["studies", "loads", "fabrication"],
  ["buildlog"],
  ["work"],
  ["app", "cli"],
];
const rowOf = new Map(ROWS.flatMap((rooms, row) => rooms.map((room) => [room, row] as const)));

const files = readdirSync(src, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && /\.(ts|tsx|mjs)$/.test(entry.name))
  .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
  .map((path) => ({ path, name: relative(src, path).replaceAll("\\", "/"), text: readFileSync(path, "utf8") }));

function importsOf(text: string): { source: string; typeOnly: boolean }[] {
  const pattern = /(?:^|\n)\s*(import|export)\s+(type\s)?(?:[^"';]*?\sfrom\s+)?"([^"]+)"|import\(\s*"([^"]+)"\s*\)/g;
  return [...text.matchAll(pattern)].map((match) => ({
    source: (match[3] ?? match[4])!,
    typeOnly: Boolean(match[2]),
  }));
}

const roomOf = (name: string) => name.split("/")[0]!;

describe("the walls of the house", () => {
  it("names every folder of src as a room", () => {
    const folders = readdirSync(src, { withFileTypes: true }).map((entry) => entry.name);
    expect(folders.filter((folder) => !rowOf.has(folder))).toEqual([]);
  });

  it.each(files.map((file) => [file.name, file] as const))("%s imports only from above", (_, file) => {
    const room = roomOf(file.name);
    for (const { source } of importsOf(file.text)) {
      if (!source.startsWith(".")) continue;
      const target = relative(src, resolve(dirname(file.path), source)).replaceAll("\\", "/");
      // scenes and styles lie outside the rooms
      if (target.startsWith("../")) continue;
      const targetRoom = roomOf(target);
      if (targetRoom === room) continue;
      expect(rowOf.get(targetRoom), `${file.name} imports ${source}`).toBeLessThan(rowOf.get(room)!);
    }
  });

  it("lets kinematics know no triangles and nothing of three", () => {
    const leaks = files
      .filter((file) => roomOf(file.name) === "kinematics")
      .flatMap((file) => importsOf(file.text).map(({ source }) => `${file.name}: ${source}`))
      .filter((line) => /geometry|: three/.test(line));
    expect(leaks).toEqual([]);
  });

  it("lets clearance know nothing of how a pose is solved", () => {
    const leaks = files
      .filter((file) => roomOf(file.name) === "clearance")
      .flatMap((file) => importsOf(file.text).map(({ source }) => `${file.name}: ${source}`))
      .filter((line) => /kinematics/.test(line));
    expect(leaks).toEqual([]);
  });

  it("keeps three in geometry, clearance and the app", () => {
    const leaks = files
      .filter((file) => !["geometry", "clearance", "app"].includes(roomOf(file.name)))
      .filter((file) => importsOf(file.text).some(({ source }) => source === "three" || source.startsWith("three/")))
      .map((file) => file.name);
    expect(leaks).toEqual([]);
  });

  it("keeps three-mesh-bvh behind one file", () => {
    const users = files.filter((file) => importsOf(file.text).some(({ source }) => source === "three-mesh-bvh"));
    expect(users.map((file) => roomOf(file.name))).toEqual(users.length ? ["clearance"] : []);
  });

  it("keeps React, its kin and the document object model in the app", () => {
    const leaks = files
      .filter((file) => roomOf(file.name) !== "app")
      .filter(
        (file) =>
          importsOf(file.text).some(({ source }) =>
            /^(react|zustand|zundo|@react-three|@base-ui|idb-keyval)/.test(source),
          ) || /\b(document\.(create|get|query)|window\.|localStorage)/.test(file.text),
      )
      .map((file) => file.name);
    expect(leaks).toEqual([]);
  });

  it("keeps the top level to the agreed list", () => {
    const allowed = new Set([
      "README.md",
      "DEVELOPERS.md",
      "package.json",
      "package-lock.json",
      "tsconfig.json",
      "vite.config.ts",
      "src",
      "scenes",
      "tests",
      "assets",
      "node_modules",
      "dist",
    ]);
    const extra = readdirSync(root).filter((name) => !name.startsWith(".") && !allowed.has(name));
    expect(extra).toEqual([]);
  });
});
