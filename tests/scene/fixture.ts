import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { InputError, type InputErrorCode } from "../../src/scene/error.ts";
import { validateDocument } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import type { Scene } from "../../src/scene/scene.ts";

/** A saved file that holds every record of version 1. */
export const SAVED_VERSION_1 = readFileSync(new URL("../fixtures/scene-version-1.json", import.meta.url), "utf8");

// biome-ignore lint/suspicious/noExplicitAny: tests break the record in ways that its type forbids
export type Loose = any;

/** The saved scene as a record that a test may spoil. */
export const looseScene = (): Loose => JSON.parse(SAVED_VERSION_1);

/** The scene after `spoil`, read and resolved as if it came from `car.json`. */
export function sceneAfter(spoil: (scene: Loose) => void): Scene {
  const raw = looseScene();
  spoil(raw);
  return resolveScene(validateDocument(raw, "car.json"), "car.json");
}

/** What `act` is refused with; anything but an InputError fails the test. */
export function refusal(act: () => unknown): InputError {
  try {
    act();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("nothing was refused");
}

/** Values to put at JSON paths such as `members[1].inboard` or `points["a b"].at`; undefined takes the key away. */
export type Changes = Readonly<Record<string, unknown>>;

export function applyChanges(scene: Loose, changes: Changes): void {
  for (const [path, value] of Object.entries(changes)) {
    const keys = [...path.matchAll(/\["([^"]*)"\]|\[(\d+)\]|([^.[\]]+)/g)].map((key) => key[1] ?? key[2] ?? key[3]!);
    const last = keys.pop()!;
    const parent = keys.reduce((at, key) => at[key], scene);
    if (value === undefined) delete parent[last];
    else parent[last] = structuredClone(value);
  }
}

/** What is changed, in words and by path; the path that must be named; what the message must say. */
export type Refused = readonly [what: string, changes: Changes, path: string, message: RegExp];

/** Each change to the saved scene must be refused with this code, at its path, in one line. */
export function itRefuses(code: InputErrorCode, table: readonly Refused[]): void {
  it.each(table)("%s", (_, changes, path, message) => {
    const error = refusal(() => sceneAfter((scene) => applyChanges(scene, changes)));
    expect([error.code, error.path]).toEqual([code, path]);
    expect(error.message).toMatch(message);
    expect(error.message).toMatch(/^car\.json: [^\n]+; wanted: [^\n]+$/);
    expect(error.message).not.toMatch(/invalid/i);
  });
}
