import type { CheckResult, LimitVerdict, PairVerdict } from "../../src/check/result.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { Machine, type Watch } from "../../src/work/machine.ts";

const PATIENT: Watch = { onProgress() {}, isStopped: () => false, breathe: () => Promise.resolve() };

/** The whole check of a document, as the terminal runs it. */
export function checkDocument(document: SceneDocument, onlyPose?: string): Promise<CheckResult> {
  const machine = new Machine();
  return machine.check(machine.prepare(document, new Map(), { onlyPose }), document.title, PATIENT);
}

export function pairOf(result: CheckResult, a: string, b: string, side = "left"): PairVerdict {
  const found = result.pairs.find((pair) => pair.side === side && pair.a === a && pair.b === b);
  if (!found) throw new Error(`no pair ${a}, ${b} on the ${side}`);
  return found;
}

export function limitOf(result: CheckResult, what: string, side = "left"): LimitVerdict {
  const found = result.limits.find((limit) => limit.side === side && limit.what === what);
  if (!found) throw new Error(`no limit ${what} on the ${side}`);
  return found;
}
