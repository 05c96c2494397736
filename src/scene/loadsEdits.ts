import { withAside } from "./aside.ts";
import type { SceneDocument } from "./document.ts";
import { readable } from "./parts/parts.ts";

export type LoadsDocument = NonNullable<SceneDocument["loads"]>;

/** The document with other load records, read through; undefined takes a record out. Throws InputError as reading and resolving do. */
export function withLoads(document: SceneDocument, records: Partial<LoadsDocument>): SceneDocument {
  const loads: Record<string, unknown> = { ...document.loads, ...records };
  for (const [key, value] of Object.entries(loads)) if (value === undefined) delete loads[key];
  return readable(
    withAside(document, { loads: Object.keys(loads).length === 0 ? undefined : (loads as LoadsDocument) }),
  );
}
