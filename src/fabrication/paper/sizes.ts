export type Paper = "a4" | "letter";

export const PAPERS: readonly Paper[] = ["a4", "letter"];

export const PAPER_mm: Readonly<Record<Paper, { readonly width: number; readonly height: number }>> = {
  // ISO 216
  a4: { width: 210, height: 297 },
  // ANSI/ASME Y14.1, size A: 8.5 × 11 in
  letter: { width: 215.9, height: 279.4 },
};

/**
 * White kept around a sheet, mm. Printers leave 4 to 6 mm blank (common practice, no source); the left edge has room for the holes of a
 * binder (ISO 838: 12 mm to their centres).
 */
export const MARGIN_mm = { left: 18, right: 10, top: 10, bottom: 10 } as const;

/** PDF user space is in points of 1/72 inch (ISO 32000-1, 8.3.2.3). */
export const POINTS_PER_mm = 72 / 25.4;
