import { InputError } from "../../scene/error.ts";
import type { CutPart } from "./cutParts.ts";
import type { Corner, Flat, Ring } from "./drawing.ts";
import type { FlatPart, FoldLine } from "./flatPart.ts";
import { type Bend, type FlatStrip, type Folding, layFlat } from "./fold.ts";
import { ringOf } from "./roundOff.ts";

/** How a part can come from one folded plate: `always`, as a strap does; `wanted`, in place of pieces welded together; null: it cannot. */
export function foldingOf({ made }: CutPart): "always" | "wanted" | null {
  if (made?.as === "bar clamp") return "always";
  return made?.as === "clevis" && (made.base_mm as number) > 0 ? "wanted" : null;
}

/** The part as one flat plate. Throws InputError `wrong-value` where its bends do not fit. */
export function foldedPlate(part: CutPart, folding: Folding): FlatPart {
  return part.made?.as === "bar clamp" ? strap(part, folding) : channel(part, folding);
}

/**
 * A clevis from one plate of the lugs' thickness: lug, base, lug. Gap between the lugs and pin to mounting face stay as drawn; seen from
 * inside, so that both lugs fold up.
 */
function channel(part: CutPart, { kFactor, inside_mm }: Folding): FlatPart {
  const { gap_mm, plate_mm, width_mm, reach_mm, pin_mm, base_mm } = sizes(part);
  const radius_mm = inside_mm ?? plate_mm!;
  const leg_mm = reach_mm! + base_mm! - plate_mm! - radius_mm;
  const floor_mm = gap_mm! - 2 * radius_mm;
  if (leg_mm <= 0) throw doesNotFit(part, `the lugs end within the bend, ${(-leg_mm).toFixed(1)} mm short`);
  if (floor_mm < 0) throw doesNotFit(part, `the two bends need ${(-floor_mm).toFixed(1)} mm more between the lugs`);
  const bend: Bend = { angle_deg: 90, inside_mm: radius_mm, way: "up" };
  const strip = layFlat([leg_mm, floor_mm, leg_mm], [bend, bend], plate_mm!, kFactor);
  const half = width_mm! / 2;
  // from pin to pin, round beyond both
  const outline: Ring = {
    kind: "ring",
    corners: [
      { at: [0, -half], bulge: 0 },
      { at: [strip.length_mm, -half], bulge: 1 },
      { at: [strip.length_mm, half], bulge: 0 },
      { at: [0, half], bulge: 1 },
    ] satisfies Corner[],
  };
  const hole = (u: number) => ({
    kind: "circle" as const,
    centre: [u, 0] as Flat,
    diameter_mm: pin_mm!,
    flats_mm: pin_mm!,
  });
  return {
    ...common(part, kFactor),
    thickness_mm: plate_mm!,
    outline,
    holes: [hole(0), hole(strip.length_mm)],
    folds: foldLines(strip, half),
    differs:
      Math.abs(base_mm! - plate_mm!) > 1e-6
        ? [{ what: "base-thickness", drawn_mm: base_mm!, folded_mm: plate_mm! }]
        : [],
  };
}

/** A strap about a bush with two feet, laid flat; seen from inside: it folds up about the bush and its feet down. */
function strap(part: CutPart, { kFactor, inside_mm }: Folding): FlatPart {
  const { bush_mm, width_mm, plate_mm, reach_mm, feet_mm } = sizes(part);
  const radius_mm = inside_mm ?? plate_mm!;
  const leg_mm = reach_mm! - plate_mm! - radius_mm;
  const foot_mm = feet_mm! / 2 - bush_mm! / 2 - plate_mm! - radius_mm;
  if (leg_mm < 0) throw doesNotFit(part, `its legs end ${(-leg_mm).toFixed(1)} mm before the bends of the feet`);
  if (foot_mm <= 0) throw doesNotFit(part, `its feet end within the bend, ${(-foot_mm).toFixed(1)} mm short`);
  const foot: Bend = { angle_deg: 90, inside_mm: radius_mm, way: "down" };
  const round: Bend = { angle_deg: 180, inside_mm: bush_mm! / 2, way: "up" };
  const strip = layFlat([foot_mm, leg_mm, leg_mm, foot_mm], [foot, round, foot], plate_mm!, kFactor);
  const half = width_mm! / 2;
  return {
    ...common(part, kFactor),
    thickness_mm: plate_mm!,
    outline: ringOf([
      [0, -half],
      [strip.length_mm, -half],
      [strip.length_mm, half],
      [0, half],
    ]),
    holes: [],
    folds: foldLines(strip, half),
    differs: [],
  };
}

function sizes({ made }: CutPart): Readonly<Record<string, number>> {
  return made as unknown as Record<string, number>;
}

function common(part: CutPart, kFactor: number) {
  return { kind: "plate", id: part.id, of: part.id, count: 1, sides: part.sides, kFactor, stands: null } as const;
}

function foldLines({ folds }: FlatStrip, half_mm: number): FoldLine[] {
  return folds.map(({ from_mm, to_mm, ...bend }) => {
    const middle = (from_mm + to_mm) / 2;
    return { ...bend, from: [middle, -half_mm], to: [middle, half_mm], allowance_mm: to_mm - from_mm };
  });
}

function doesNotFit({ id }: CutPart, wrong: string): InputError {
  return new InputError(
    "wrong-value",
    { path: "bendRadius" },
    `${id} does not fold with this inside radius: ${wrong}`,
    "a smaller inside radius, or a part with more room",
  );
}
