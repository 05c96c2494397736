import { create } from "zustand";
import { BAR_mm, type Correction, correctionFor } from "../../fabrication/templates/checkBars.ts";
import { type Folding, USUAL_FOLDING } from "../../fabrication/templates/fold.ts";

interface TemplatesLook {
  /** Templates that are not taken, by id. */
  readonly leftOut: readonly string[];
  /** Parts folded from one plate. */
  readonly folded: readonly string[];
  readonly folding: Folding;
  /** What the 100 mm bars of the last print measured. */
  readonly across_mm: number;
  readonly down_mm: number;
  /** Files for a cutter without notes. */
  readonly bare: boolean;
}

/** Neither saved nor undone. */
export const useTemplates = create<TemplatesLook>()(() => ({
  leftOut: [],
  folded: [],
  folding: USUAL_FOLDING,
  across_mm: BAR_mm,
  down_mm: BAR_mm,
  bare: false,
}));

/** With it if it was without, and the other way round. */
export function turned(ids: readonly string[], id: string): string[] {
  return ids.includes(id) ? ids.filter((one) => one !== id) : [...ids, id];
}

/** null: no printer is so far off. */
export function scaleFor(measured_mm: number): number | null {
  try {
    return correctionFor(measured_mm);
  } catch {
    return null;
  }
}

export function chosenCorrection({ across_mm, down_mm }: TemplatesLook): Correction | null {
  const [across, down] = [scaleFor(across_mm), scaleFor(down_mm)];
  return across === null || down === null ? null : { across, down };
}
