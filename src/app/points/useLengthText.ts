import { useState } from "react";
import { formatLength, parseLength } from "../../scene/length.ts";
import type { Unit } from "../store/state.ts";

export interface LengthText {
  /** What stands in the field: as typed while the builder types, else the value. */
  readonly text: string;
  /** Why what stands there is no length; null: it is one. */
  readonly trouble: string | null;
  /** The typed length where it is more than a plain number ("440+4", "9 7/16"), mm. */
  readonly worked_mm: number | null;
  type(text: string): void;
  /** Leaving the field: a length is shown plainly from now on, nonsense stays for mending. */
  leave(): void;
  /** Forgets what was typed. */
  clear(): void;
}

/**
 * The text of a field for a length. Every text that is one is told at once through `onChange` (mm); the value itself is
 * the caller's. A bare number means the shown unit.
 */
export function useLengthText(value_mm: number, unit: Unit, onChange: (value_mm: number) => void): LengthText {
  const [typed, setTyped] = useState<Typed | null>(null);
  // another unit, or a value changed from outside, makes what was typed stale
  const current = typed && typed.unit === unit && (typed.mm === null || isSame(typed.mm, value_mm)) ? typed : null;
  return {
    text: current?.text ?? formatLength(value_mm, unit),
    trouble: current?.trouble ?? null,
    worked_mm: current && !isPlain(current.text) ? current.mm : null,
    type(text) {
      const length = parseLength(text, unit);
      setTyped({ text, unit, mm: length.ok ? length.mm : null, trouble: length.ok ? null : length.message });
      if (length.ok && !isSame(length.mm, value_mm)) onChange(length.mm);
    },
    leave() {
      if (current?.mm != null) setTyped(null);
    },
    clear() {
      setTyped(null);
    },
  };
}

interface Typed {
  readonly text: string;
  readonly unit: Unit;
  /** null: it is no length. */
  readonly mm: number | null;
  readonly trouble: string | null;
}

/** A value comes back through a datum's axes, a few units in the last place away. */
function isSame(a_mm: number, b_mm: number): boolean {
  return Math.abs(a_mm - b_mm) < 1e-6;
}

function isPlain(text: string): boolean {
  return /^\s*[+\-−]?[\d.,]*\s*$/.test(text);
}
