import type { MaterialRecord } from "../../scene/loadRecords.ts";

export interface Material {
  readonly id: string;
  readonly yield_MPa: number;
  readonly ultimate_MPa: number;
  readonly elastic_MPa: number;
  /** Correlation factor of fillet welds, EN 1993-1-8 table 4.1; null: not known for it. */
  readonly weldFactor: number | null;
  readonly source: string;
}

/** EN 1993-1-1, 3.2.6. */
const STEEL_ELASTIC_MPa = 210_000;

const steel = (
  id: string,
  yield_MPa: number,
  ultimate_MPa: number,
  weldFactor: number | null,
  source: string,
): Material => ({
  id,
  yield_MPa,
  ultimate_MPa,
  elastic_MPa: STEEL_ELASTIC_MPa,
  weldFactor,
  source,
});

const SECTIONS = "EN 10025-2 table 7, least values for 3 to 16 mm";
const TUBES = "EN 10305-1, least values";

/** A few steels as delivered and not yet welded: welding and heating change them. A builder's certificate comes before any of these. */
export const MATERIALS: readonly Material[] = [
  steel("S235", 235, 360, 0.8, SECTIONS),
  steel("S275", 275, 410, 0.85, SECTIONS),
  steel("S355", 355, 470, 0.9, SECTIONS),
  steel("E235+N", 235, 340, 0.8, `${TUBES}; weld factor taken as S235's`),
  steel("E355+N", 355, 490, 0.9, `${TUBES}; weld factor taken as S355's`),
  steel("4130 N", 517, 655, null, "MIL-HDBK-5, condition N, wall up to 4.75 mm (from memory)"),
];

/** The scene's own materials come first; null: not known. */
export function materialOf(id: string, own: readonly MaterialRecord[]): Material | null {
  const mine = own.find((material) => material.id === id);
  if (!mine) return MATERIALS.find((material) => material.id === id) ?? null;
  return {
    id,
    yield_MPa: mine.yield_MPa,
    ultimate_MPa: mine.ultimate_MPa,
    elastic_MPa: mine.elastic_MPa ?? STEEL_ELASTIC_MPa,
    weldFactor: mine.weldFactor ?? null,
    source: mine.source ?? "the builder's own",
  };
}
