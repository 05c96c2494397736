import { existsSync, readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { MADE } from "./cases/made.ts";
import type { Door, Handed } from "./door.ts";

const folder = fileURLToPath(new URL("cases/", import.meta.url));

/** What was once not opened as it should be, and what is known to take programs down: files by door, and what code makes. */
export function savedCases(door: Door): readonly { readonly name: string; handed(): Handed }[] {
  const own = `${folder}${door.name}/`;
  const files = existsSync(own) ? readdirSync(own).sort() : [];
  return [
    ...files.map((name) => ({
      name,
      handed: () => ({ file: `saved.${door.ending}`, content: new Uint8Array(readFileSync(own + name)) }),
    })),
    ...(MADE[door.name] ?? []).map(({ name, make }) => ({
      name,
      handed: () => ({ file: `made.${door.ending}`, content: make() }),
    })),
  ];
}
