import { withAside } from "./aside.ts";
import type { SceneDocument } from "./document.ts";
import { readable } from "./parts/parts.ts";
import type { FastenerDocument, JobDocument, ToolDocument } from "./serviceRecords.ts";

export type ServiceDocument = NonNullable<SceneDocument["service"]>;

/** The document with other service records, read through; undefined or an empty list takes one out. Throws InputError as reading and resolving do. */
export function withService(document: SceneDocument, records: Partial<ServiceDocument>): SceneDocument {
  return readable(withAside(document, { service: whole({ ...document.service, ...records }) }));
}

function whole(service: ServiceDocument): ServiceDocument | undefined {
  const kept = Object.fromEntries(Object.entries(service).filter(([, list]) => list !== undefined && list.length > 0));
  return Object.keys(kept).length === 0 ? undefined : (kept as ServiceDocument);
}

/** A job with what it brings along: its fastener and its tools. */
export interface JobRecords {
  readonly job: JobDocument;
  readonly fastener?: FastenerDocument;
  readonly tools?: readonly ToolDocument[];
}

/**
 * The document with a job in the place of the one that was called `before` (null: as the last one). A fastener or tool of an id that is there
 * takes its place; those that only the job before used go. Throws InputError as reading and resolving do.
 */
export function withJob(document: SceneDocument, before: string | null, records: JobRecords): SceneDocument {
  const { job, fastener, tools = [] } = records;
  const jobs = document.service?.jobs ?? [];
  const place = jobs.findIndex(({ id }) => id === before);
  const kept = before === null ? (document.service ?? {}) : withoutOwn(document.service ?? {}, before);
  return withService(document, {
    fasteners: fastener ? put(kept.fasteners ?? [], fastener) : kept.fasteners,
    tools: tools.reduce(put<ToolDocument>, kept.tools ?? []),
    jobs: place < 0 ? [...jobs, job] : jobs.with(place, job),
  });
}

/** The document without the job, and without the fastener and tools that only it used. */
export function withoutJob(document: SceneDocument, id: string): SceneDocument {
  const { fasteners, tools, jobs } = withoutOwn(document.service ?? {}, id);
  return withService(document, { fasteners, tools, jobs });
}

function withoutOwn(service: ServiceDocument, id: string): ServiceDocument {
  const gone = service.jobs?.find((job) => job.id === id);
  const jobs = service.jobs?.filter((job) => job.id !== id) ?? [];
  if (gone?.kind !== "reach") return { ...service, jobs };
  const others = jobs.filter((job) => job.kind === "reach");
  return {
    jobs,
    fasteners: (service.fasteners ?? []).filter(
      (each) => each.id !== gone.fastener || others.some(({ fastener }) => fastener === each.id),
    ),
    tools: (service.tools ?? []).filter(
      (each) => !gone.tools.includes(each.id) || others.some(({ tools }) => tools.includes(each.id)),
    ),
  };
}

function put<Item extends { readonly id: string }>(list: readonly Item[], item: Item): Item[] {
  const place = list.findIndex(({ id }) => id === item.id);
  return place < 0 ? [...list, item] : list.with(place, item);
}
