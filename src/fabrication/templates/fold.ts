import { InputError } from "../../scene/error.ts";

/** How plates are folded: where the neutral line lies, and the radius on the inside of a bend. */
export interface Folding {
  /** Distance of the line that keeps its length from the inside of the bend, by the thickness. */
  readonly kFactor: number;
  /** null: as much as the plate is thick. */
  readonly inside_mm: number | null;
}

/**
 * 0.64 t + 1.57 r for 90° in soft steel (Machinery's Handbook, "Bending Sheet Metal", from memory) is a neutral line at 0.64 / (π/2) of
 * the thickness. Benches differ: fold a strip of known length and measure.
 */
export const USUAL_FOLDING: Folding = { kFactor: 0.41, inside_mm: null };

/** Throws InputError `wrong-value` for a neutral line outside the plate and for a radius that is none. */
export function checkFolding({ kFactor, inside_mm }: Folding): void {
  if (!(kFactor >= 0 && kFactor <= 0.5))
    throw new InputError(
      "wrong-value",
      { path: "kFactor" },
      `a K factor of ${kFactor} puts the neutral line outside the inner half of the plate`,
      "0.3 to 0.5; fold a strip to find it",
    );
  if (inside_mm !== null && !(inside_mm > 0 && inside_mm <= 1000))
    throw new InputError(
      "wrong-value",
      { path: "bendRadius" },
      `an inside radius of ${inside_mm} mm`,
      "more than 0 mm",
    );
}

export interface Bend {
  readonly angle_deg: number;
  readonly inside_mm: number;
  /** Towards whoever looks at the template, or away. */
  readonly way: "up" | "down";
}

/**
 * Length of flat plate that a bend takes up: the arc of the neutral line, (π/180)·angle·(r + K·t) (Machinery's Handbook; the same as
 * SME's "Tool and Manufacturing Engineers Handbook" gives for bend allowance; both from memory).
 */
export function bendAllowance({ angle_deg, inside_mm }: Bend, thickness_mm: number, kFactor: number): number {
  return (Math.PI / 180) * angle_deg * (inside_mm + kFactor * thickness_mm);
}

/** A fold of the flat plate: from where to where along it the plate bends. */
export interface FoldZone extends Bend {
  readonly from_mm: number;
  readonly to_mm: number;
}

/** A strip laid flat: `flats_mm` between its ends and bends, one more than there are bends. */
export interface FlatStrip {
  readonly length_mm: number;
  readonly folds: readonly FoldZone[];
}

/** The strip that folds up into flats with bends between them; positions from its beginning. */
export function layFlat(
  flats_mm: readonly number[],
  bends: readonly Bend[],
  thickness_mm: number,
  kFactor: number,
): FlatStrip {
  const folds: FoldZone[] = [];
  let at = flats_mm[0]!;
  for (const [i, bend] of bends.entries()) {
    const to_mm = at + bendAllowance(bend, thickness_mm, kFactor);
    folds.push({ ...bend, from_mm: at, to_mm });
    at = to_mm + flats_mm[i + 1]!;
  }
  return { length_mm: at, folds };
}
