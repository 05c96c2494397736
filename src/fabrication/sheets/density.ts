import type { MaterialRecord } from "../../scene/loadRecords.ts";

/** EN 1991-1-1 table A.4 has steel at 77.0 to 78.5 kN/m³; 7850 kg/m³ is the value in use (EN 10365 sections). */
export const STEEL_kg_per_m3 = 7850;
/** EN 1999-1-1, 3.2.5. */
export const ALUMINIUM_kg_per_m3 = 2700;

/** Aluminium alloys bend three times as easily as steel: EN 1999-1-1 has 70 GPa, EN 1993-1-1 has 210 GPa. */
const ALUMINIUM_BELOW_MPa = 100_000;

/** Density of a material by its id: aluminium where the scene's own record of it is as elastic as that, else steel. */
export function densityOf(material: string | null, own: readonly MaterialRecord[]): number {
  const elastic_MPa = own.find(({ id }) => id === material)?.elastic_MPa;
  return elastic_MPa !== undefined && elastic_MPa < ALUMINIUM_BELOW_MPa ? ALUMINIUM_kg_per_m3 : STEEL_kg_per_m3;
}
