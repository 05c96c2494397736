import type { SceneDocument } from "./document.ts";
import { partOfJoint } from "./jointNames.ts";
import type { JobDocument } from "./serviceRecords.ts";

/** The document's service records with a part under another id. */
export function withServiceRenamed(document: SceneDocument, from: string, to: string): SceneDocument {
  const { service } = document;
  if (!service) return document;
  const isMember = document.members.some(({ id }) => id === from);
  const renamed = (name: string): string => {
    if (name === from) return to;
    return isMember && partOfJoint(name) === from ? to + name.slice(from.length) : name;
  };
  const { fasteners, jobs } = service;
  return {
    ...document,
    service: {
      ...service,
      ...(fasteners ? { fasteners: fasteners.map((each) => ({ ...each, on: renamed(each.on) })) } : {}),
      ...(jobs ? { jobs: jobs.map((job) => renamedIn(job, renamed)) } : {}),
    },
  };
}

function renamedIn(job: JobDocument, renamed: (name: string) => string): JobDocument {
  const removed = job.removed ? { removed: job.removed.map(renamed) } : {};
  if (job.kind === "reach") return { ...job, ...removed };
  const steps = job.steps.map((step) => (step.kind === "swing" ? { ...step, member: renamed(step.member) } : step));
  return { ...job, ...removed, parts: job.parts.map(renamed), steps };
}

/** The document without fasteners and jobs that need these parts; `gone`: ids of bodies and units. */
export function withoutServiceOf(document: SceneDocument, gone: readonly string[]): SceneDocument {
  const { service } = document;
  if (!service) return document;
  const isGone = (name: string): boolean => gone.includes(name) || gone.includes(partOfJoint(name));
  const fasteners = service.fasteners?.filter(({ on }) => !gone.includes(on));
  const kept = new Set(fasteners?.map(({ id }) => id));
  const jobs = service.jobs?.flatMap((job): JobDocument[] => {
    const removed = job.removed ? { removed: job.removed.filter((name) => !isGone(name)) } : {};
    if (job.kind === "reach") return kept.has(job.fastener) ? [{ ...job, ...removed }] : [];
    const parts = job.parts.filter((part) => !gone.includes(part));
    const isWhole = parts.length > 0 && job.steps.every((step) => step.kind !== "swing" || !gone.includes(step.member));
    return isWhole ? [{ ...job, ...removed, parts }] : [];
  });
  const { service: _, ...rest } = document;
  const records = Object.entries({ ...service, fasteners, jobs }).filter(([, list]) => list && list.length > 0);
  return records.length === 0 ? rest : { ...rest, service: Object.fromEntries(records) };
}
