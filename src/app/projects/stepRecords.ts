import type { SceneDocument } from "../../scene/document.ts";
import { type Change, changeBetween, changed } from "./change.ts";
import type { Step, StepRecord } from "./records.ts";
import { isSoundStep } from "./sound.ts";

/**
 * Writes steps as records. A step is the change from the one before; a whole document comes again as soon as the changes
 * since the last whole one weigh as much as it does, so that writing stays within twice the least and reading within
 * twice a document.
 */
export function stepRecords(project: string, steps: readonly Step[], from: number, before: Weights): StepRecord[] {
  const records: StepRecord[] = [];
  let { whole, since } = before;
  for (let index = from; index < steps.length; index++) {
    const { document, stepName, fileName } = steps[index]!;
    const base = { project, index, stepName, fileName };
    const earlier = steps[index - 1];
    const change = earlier ? changeBetween(earlier.document, document) : null;
    const size = JSON.stringify(change).length;
    if (earlier && since + size < whole) {
      since += size;
      records.push({ ...base, change, size });
    } else {
      whole = JSON.stringify(document).length;
      since = 0;
      records.push({ ...base, whole: document, size: whole });
    }
  }
  return records;
}

/** What a kept record weighs, in characters. */
export interface StepSize {
  readonly whole: boolean;
  readonly size: number;
}

export function sizeOf({ whole, size }: StepRecord): StepSize {
  return { whole: whole !== undefined, size };
}

/** What the last whole document weighs, and the changes since. */
export interface Weights {
  readonly whole: number;
  readonly since: number;
}

export function weightsOf(sizes: readonly StepSize[]): Weights {
  const at = sizes.findLastIndex(({ whole }) => whole);
  return { whole: sizes[at]?.size ?? 0, since: sizes.slice(at + 1).reduce((sum, { size }) => sum + size, 0) };
}

/**
 * Steps out of their records, in order. Steps that share parts share them again. What cannot be rebuilt (a record
 * missing or damaged) ends a run; the next whole record begins another: `runs` holds them with the index each begins at.
 */
export function stepsOf(records: readonly StepRecord[]): { readonly from: number; readonly steps: Step[] }[] {
  const runs: { from: number; steps: Step[] }[] = [];
  let expected = Number.NaN;
  let last: SceneDocument | null = null;
  for (const record of records) {
    if (record.index !== expected) last = null;
    const document = rebuilt(record, last);
    if (document) {
      if (last === null || runs.length === 0) runs.push({ from: record.index, steps: [] });
      runs.at(-1)!.steps.push({ document, stepName: record.stepName, fileName: record.fileName });
    }
    last = document;
    expected = record.index + 1;
  }
  return runs;
}

function rebuilt(record: StepRecord, before: SceneDocument | null): SceneDocument | null {
  const { whole, change } = record;
  if (!isSoundStep(record)) return null;
  if (whole) return before ? shared(before, whole) : whole;
  if (before === null || change === undefined) return null;
  try {
    return change === null ? { ...before } : (changed(before, change) as SceneDocument);
  } catch {
    return null;
  }
}

/** The same as `whole`, sharing with the step before what is alike. */
function shared(before: SceneDocument, whole: SceneDocument): SceneDocument {
  const change: Change | null = changeBetween(before, whole);
  return change === null ? { ...before } : (changed(before, change) as SceneDocument);
}
