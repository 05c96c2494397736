import { useId, useLayoutEffect, useState } from "react";
import { formatLength, type LengthReferences, parseLength } from "../../scene/length.ts";
import type { Unit } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import { lengthFaultText } from "./lengthFaultText.ts";
import { setTroubled, usePointsLook } from "./pointsStore.ts";

export interface LengthText {
  /** What stands in the field: as typed while the builder types, else the value. */
  readonly text: string;
  /** Why what stands there is no length; null: it is one. */
  readonly trouble: string | null;
  /** The typed length where it is more than a plain number ("440+4", "+5", "9 7/16"), mm. */
  readonly worked_mm: number | null;
  /** What is typed begins with a minus: a place below zero, which is easily meant as a step. */
  readonly isBelowZero: boolean;
  type(text: string): void;
  /** Leaving the field: a length is shown plainly from now on, nonsense stays for mending. */
  leave(): void;
  /** Forgets what was typed. */
  clear(): void;
}

export interface LengthTextOptions {
  /** The value is a step from where the point is, not a place: every sign is the step's own. */
  readonly isStep?: boolean;
  /** Points that a sum behind = may name. */
  readonly references?: LengthReferences;
}

/**
 * The text of a field for a length. Every text that is one is told at once through `onChange` (mm); the value itself is
 * the caller's. A bare number means the shown unit; a leading plus adds to the value that stood there before typing.
 * Nothing is kept while a field holds what is no length (`setTroubled`).
 */
export function useLengthText(
  value_mm: number,
  unit: Unit,
  onChange: (value_mm: number) => void,
  { isStep = false, references }: LengthTextOptions = {},
): LengthText {
  const [typed, setTyped] = useState<Typed | null>(null);
  const document = useApp((state) => state.document);
  const letGo = usePointsLook((look) => look.letGo);
  const current = typed && isCurrent(typed) ? typed : null;
  const trouble = current?.trouble ?? null;
  const id = useId();
  useLayoutEffect(() => {
    setTroubled(id, trouble !== null);
    return () => setTroubled(id, false);
  }, [id, trouble]);
  return {
    text: current?.text ?? formatLength(value_mm, unit, { signed: isStep }),
    trouble,
    worked_mm: current && !isPlain(current.text) ? current.mm : null,
    isBelowZero: current !== null && !isStep && /^\s*[-−–]/.test(current.text),
    type(text) {
      const base_mm = current?.base_mm ?? value_mm;
      const length = parseLength(text, unit, references);
      const mm = length.ok ? (!isStep && adds(text) ? base_mm : 0) + length.mm : null;
      setTyped({ text, unit, ...nowKept(), base_mm, mm, trouble: length.ok ? null : lengthFaultText(length) });
      if (mm !== null && !isSame(mm, value_mm)) onChange(mm);
    },
    leave() {
      if (current?.mm != null) setTyped(null);
    },
    clear() {
      setTyped(null);
    },
  };

  /** Another unit, a kept or undone step, or a value changed from outside makes what was typed stale. */
  function isCurrent(text: Typed): boolean {
    if (text.unit !== unit || text.document !== document) return false;
    return text.mm === null ? text.letGo === letGo : isSame(text.mm, value_mm);
  }
}

/** Asked anew: holding the point, which the first letter does, may have changed it since the field was drawn. */
function nowKept(): Pick<Typed, "document" | "letGo"> {
  return { document: app.getState().document, letGo: usePointsLook.getState().letGo };
}

interface Typed {
  readonly text: string;
  readonly unit: Unit;
  readonly document: object | null;
  readonly letGo: number;
  /** The value that stood in the field before typing. */
  readonly base_mm: number;
  /** null: it is no length. */
  readonly mm: number | null;
  readonly trouble: string | null;
}

/** A value comes back through a datum's axes, a few units in the last place away. */
function isSame(a_mm: number, b_mm: number): boolean {
  return Math.abs(a_mm - b_mm) < 1e-6;
}

function adds(text: string): boolean {
  return /^\s*\+/.test(text);
}

function isPlain(text: string): boolean {
  return /^\s*[-−–]?[\d.,]*\s*$/.test(text);
}
