import { create } from "zustand";
import { InputError } from "../../scene/error.ts";
import { type JobRecords, withJob, withoutJob } from "../../scene/serviceEdits.ts";
import type { JobDocument } from "../../scene/serviceRecords.ts";
import { app } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { openJob, useServiceLook } from "./serviceStore.ts";

/** Which form is open; `job`: the id of the one that is changed, null for a new one. */
export interface ServiceForm {
  readonly kind: JobDocument["kind"];
  readonly job: string | null;
}

export const useServiceForm = create<{ readonly open: ServiceForm | null }>()(() => ({ open: null }));

export function openServiceForm(open: ServiceForm): void {
  useServiceForm.setState({ open });
}

export function closeServiceForm(): void {
  useServiceForm.setState({ open: null });
}

/** Puts a job into the document as one step, which starts no check; null when done, else why it cannot be. */
export function keepJob(before: string | null, records: JobRecords): InputError | null {
  const { id } = records.job;
  try {
    app.getState().editAside(t("service.edits.keep", { job: id }), (document) => withJob(document, before, records));
    if (before !== null && useServiceLook.getState().job === before) openJob(id);
    return null;
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
}

export function removeJob(id: string): void {
  app.getState().editAside(t("service.edits.remove", { job: id }), (document) => withoutJob(document, id));
}
