import { SCENE_FORMAT, type SceneDocument, sceneSchema } from "./document.ts";
import { InputError } from "./error.ts";
import { explain } from "./explain.ts";
import { parseJson } from "./json.ts";
import { MIGRATIONS, migrate, type RawScene } from "./migrate.ts";
import { describe } from "./path.ts";
import { scanValue } from "./scan.ts";

export const SCENE_SIZE_LIMIT_BYTES = 20_000_000;
const FIRST_VERSION = 1;

/**
 * Reads a scene file of any version this program knows. `file` is its name as the user gave it.
 * Throws InputError: too-large, not-json, wrong-format, wrong-version, unknown-key, wrong-value, not-finite.
 */
export function readScene(text: string, file: string): SceneDocument {
  if (isLongerThan(text, SCENE_SIZE_LIMIT_BYTES)) {
    throw new InputError(
      "too-large",
      { file },
      "is larger than 20 MB",
      "a scene file; scans belong in mesh files beside it",
    );
  }
  const withoutMark = text.startsWith("\uFEFF") ? text.slice(1) : text;
  if (withoutMark.trim() === "") throw new InputError("not-json", { file }, "is empty", "a scene in JSON");
  return validateDocument(parseJson(withoutMark, file), file);
}

/** The same checks on a value that is JSON already, such as one kept by the browser. The input stays as it is. */
export function validateDocument(value: unknown, file: string): SceneDocument {
  scanValue(value, file);
  if (typeof value !== "object" || value === null || Array.isArray(value)) {
    throw new InputError("wrong-format", { file }, describe(value), `a record with "format": "${SCENE_FORMAT}"`);
  }
  const raw = value as RawScene;
  if (raw.format !== SCENE_FORMAT) {
    throw new InputError("wrong-format", { file, path: "format" }, describe(raw.format), `"${SCENE_FORMAT}"`);
  }
  const current = migrate(raw, MIGRATIONS, FIRST_VERSION, file);
  const parsed = sceneSchema.safeParse(current, { reportInput: false });
  if (!parsed.success) throw explain(parsed.error.issues, current, file);
  // the lifted copy and not the schema's: it keeps the builder's own order of keys
  return current as unknown as SceneDocument;
}

/** Whether the text takes more than `limit` bytes in UTF-8; a UTF-16 unit takes 1 to 3. */
function isLongerThan(text: string, limit: number): boolean {
  if (text.length * 3 <= limit) return false;
  return text.length > limit || new TextEncoder().encode(text).length > limit;
}
