import { InputError } from "./error.ts";
import { describe } from "./path.ts";

export type RawScene = Record<string, unknown>;

/** Lifts a file from version `from` to `from + 1`. `step` gets a copy that it may change, and returns the new record. */
export interface Migration {
  readonly from: number;
  /** What changed, for people. */
  readonly what: string;
  readonly step: (raw: RawScene) => RawScene;
}

/** Version 1 is the first: nothing to lift yet. A change of meaning adds its step at the end. */
export const MIGRATIONS: readonly Migration[] = [];

/**
 * Lifts a raw record to the newest version that the chain reaches (`first` when it is empty); the input stays as it is.
 * Throws InputError `wrong-version` for a version that is missing, older than the chain or newer than this program; a
 * chain with a gap is a fault of the program and throws a plain Error.
 */
export function migrate(raw: RawScene, migrations: readonly Migration[], first: number, file = ""): RawScene {
  for (const [i, migration] of migrations.entries()) {
    if (migration.from !== first + i) throw new Error(`migration chain has a gap at version ${first + i}`);
  }
  const newest = first + migrations.length;
  const version = Object.hasOwn(raw, "version") ? raw.version : undefined;
  const wanted = migrations.length === 0 ? `version ${newest}` : `version ${first} to ${newest}`;
  const refuse = (wrong: string) => new InputError("wrong-version", { file, path: "version" }, wrong, wanted);
  if (typeof version !== "number" || !Number.isInteger(version)) throw refuse(describe(version));
  if (version > newest) throw refuse(`version ${version} is newer than this program, which reads up to ${newest}`);
  if (version < first) throw refuse(`version ${version} never existed`);

  let lifted = structuredClone(raw);
  for (const migration of migrations.slice(version - first)) {
    lifted = { ...migration.step(lifted), version: migration.from + 1 };
  }
  return lifted;
}
