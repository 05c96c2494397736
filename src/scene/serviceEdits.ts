import { withAside } from "./aside.ts";
import type { SceneDocument } from "./document.ts";
import { readable } from "./parts/parts.ts";

export type ServiceDocument = NonNullable<SceneDocument["service"]>;

/** The document with other service records, read through; undefined or an empty list takes one out. Throws InputError as reading and resolving do. */
export function withService(document: SceneDocument, records: Partial<ServiceDocument>): SceneDocument {
  return readable(withAside(document, { service: whole({ ...document.service, ...records }) }));
}

function whole(service: ServiceDocument): ServiceDocument | undefined {
  const kept = Object.fromEntries(Object.entries(service).filter(([, list]) => list !== undefined && list.length > 0));
  return Object.keys(kept).length === 0 ? undefined : (kept as ServiceDocument);
}
