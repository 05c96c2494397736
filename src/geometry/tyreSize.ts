import { parseTyre } from "../scene/tyre.ts";

export const INCH_mm = 25.4;

export interface TyreSize {
  /** Unloaded. */
  readonly overallDiameter_mm: number;
  /** Over the sidewalls, on the rim that is fitted. */
  readonly sectionWidth_mm: number;
  /** Of the bead seat: the rim code in inches. */
  readonly rimDiameter_mm: number;
  readonly rimWidth_mm: number;
}

/**
 * Sizes from the designation ("205/55R16") on a rim of the given width. UN R30 §6.1.1.1: S = S1 + K·(A − A1) with K = 0.4
 * (radial tyres), A the rim's width and A1 = x·S1 the theoretical rim's; §6.1.2.1: D = d + 2H with H = S1·aspect/100.
 * x is left to the tyre's maker: 0.70 from aspect 50 up, 0.85 below (European tyre standard for 45 to 30; from memory).
 * d is taken as the rim code in inches. Throws InputError where the designation cannot be read.
 */
export function tyreSize(tyre: string, rimWidth_in: number): TyreSize {
  const { sectionWidth_mm: nominalWidth_mm, aspect, rimDiameter_in } = parseTyre(tyre);
  const rimWidth_mm = rimWidth_in * INCH_mm;
  const theoreticalRim_mm = (aspect >= 50 ? 0.7 : 0.85) * nominalWidth_mm;
  const rimDiameter_mm = rimDiameter_in * INCH_mm;
  return {
    overallDiameter_mm: rimDiameter_mm + (2 * nominalWidth_mm * aspect) / 100,
    sectionWidth_mm: nominalWidth_mm + 0.4 * (rimWidth_mm - theoreticalRim_mm),
    rimDiameter_mm,
    rimWidth_mm,
  };
}
