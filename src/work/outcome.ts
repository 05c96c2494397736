import { InputError, type InputErrorCode } from "../scene/error.ts";

/** What crosses a worker's border in place of a thrown error: bad input keeps its code and its place. */
export type Outcome<T> =
  | { readonly kind: "done"; readonly value: T }
  | { readonly kind: "stopped" }
  | {
      readonly kind: "bad-input";
      readonly code: InputErrorCode;
      readonly file: string;
      readonly path: string;
      readonly wrong: string;
      readonly wanted: string;
    };

/** Thrown through a job's promise when somebody stopped it. */
export function stoppedError(): DOMException {
  return new DOMException("the job was stopped", "AbortError");
}

/** A machine room that failed for a reason of its own, not of the input; the worker behind it has been replaced. */
export class WorkError extends Error {
  override readonly name = "WorkError";
}

/** Why work broke off, for a WorkError. */
export function reasonOf(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  // browsers word it differently, and none of them says it plainly
  return /alloc|memory|array length/i.test(message) ? `out of memory (${message})` : message;
}

export class StoppedError extends Error {
  override readonly name = "StoppedError";
}

/** Runs `work` and tells how it ended; what is neither bad input nor a stop is a fault of the program and is thrown on. */
export async function outcomeOf<T>(work: () => T | Promise<T>): Promise<Outcome<T>> {
  try {
    return { kind: "done", value: await work() };
  } catch (error) {
    if (error instanceof StoppedError) return { kind: "stopped" };
    if (error instanceof InputError) {
      const { code, file, path, wrong, wanted } = error;
      return { kind: "bad-input", code, file, path, wrong, wanted };
    }
    throw error;
  }
}

/** The value, or the error that the outcome stands for. */
export function unwrap<T>(outcome: Outcome<T>): T {
  if (outcome.kind === "done") return outcome.value;
  if (outcome.kind === "stopped") throw stoppedError();
  throw new InputError(outcome.code, outcome, outcome.wrong, outcome.wanted);
}
