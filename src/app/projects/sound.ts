import { z } from "zod";
import { InputError } from "../../scene/error.ts";
import { validateDocument } from "../../scene/read.ts";
import type { SavedSession } from "../store/session.ts";
import type { ProjectRecord, StepRecord } from "./records.ts";

/** Whether what the browser's database gives back is what was put there: a disk may fail, and people try things. */

/** What a Date can be (ECMA-262, time values); anything else cannot be shown. */
const MOST_ms = 8.64e15;
const time_ms = z.number().min(-MOST_ms).max(MOST_ms);

const projectSchema = z.looseObject({
  id: z.string(),
  title: z.string(),
  made_ms: time_ms,
  changed_ms: time_ms,
  revision: z.int(),
  steps: z.int(),
  at: z.int(),
  points: z.number(),
  parts: z.number(),
  bytes: z.number(),
  sample: z.string().nullable(),
  meshes: z.array(z.looseObject({ path: z.string(), bytesId: z.string(), bytes: z.number() })),
  deleted_ms: time_ms.nullable(),
});

export function isSoundProject(value: unknown): value is ProjectRecord {
  return projectSchema.safeParse(value).success;
}

export function isSoundStep({ stepName, fileName, size, whole }: StepRecord): boolean {
  const isWhole = whole === undefined || (typeof whole === "object" && whole !== null && "points" in whole);
  return typeof stepName === "string" && typeof fileName === "string" && Number.isFinite(size) && isWhole;
}

/** Whether a document could be opened as a file too. */
export function isSoundScene(document: unknown): boolean {
  try {
    validateDocument(document, "");
    return true;
  } catch (error) {
    if (error instanceof InputError) return false;
    throw error;
  }
}

const show = z.enum(["solid", "glass", "off"]);
const sessionFields = {
  unit: z.enum(["mm", "in"]),
  theme: z.enum(["daylight", "garage"]),
  show: z.object({ chassis: show, powertrain: show, hub: show, arms: show }),
  wheels: z.enum(["together", "opposed"]),
  cautionsRead: z.boolean(),
  stayAwake: z.boolean(),
} satisfies { readonly [K in keyof SavedSession]: z.ZodType<SavedSession[K]> };

/** What of a kept session can be used; the rest stays as it is at a first visit. */
export function soundSession(kept: unknown): Partial<SavedSession> {
  if (typeof kept !== "object" || kept === null) return {};
  const fields = Object.entries(sessionFields).flatMap(([key, schema]) => {
    const read = schema.safeParse((kept as Record<string, unknown>)[key]);
    return read.success ? [[key, read.data]] : [];
  });
  return Object.fromEntries(fields);
}

export function isTime(value: unknown): value is number {
  return time_ms.safeParse(value).success;
}
