import { type Circle, distanceToRing, type Flat, polygonOf } from "./drawing.ts";
import type { FlatPart, FoldLine } from "./flatPart.ts";

/** What plate rules ask at least. Editable sense, not law: the shop that cuts and folds knows its own. */
export const PLATE_RULES = {
  /** Inside radius of a bend, by thickness: common practice, no source. */
  insidePerThickness: 1,
  /** Edge of a hole to where a bend begins, by thickness: common practice, no source. */
  holeToFoldPerThickness: 2,
  /** Flat beside a bend, over all from its outside, by thickness: common practice, no source. */
  flangePerThickness: 4,
  /** A hole's width by thickness, cut by laser: common practice, no source. */
  holePerThickness: 1,
  /** Centre of a hole to the edge, by its diameter: EN 1993-1-8:2005, table 3.3, e1 and e2 (from memory). */
  edgePerHole: 1.2,
  /** Centre to centre of two holes, by the larger diameter: the same table, p1 (from memory). */
  pitchPerHole: 2.2,
} as const;

export type PlateRule = "inside-radius" | "hole-to-fold" | "flange" | "hole-size" | "hole-to-edge" | "hole-pitch";

/** A rule that a plate falls short of: what it has and what the rule asks, mm. */
export interface PlateWarning {
  readonly rule: PlateRule;
  readonly is_mm: number;
  readonly least_mm: number;
  /** Which hole or fold, counted from 1 as they are drawn from left to right. */
  readonly which: number;
}

const CLOSE_ENOUGH_mm = 1e-6;

/** Every hole and bend that stands below a rule. Holes that are not round are held to the distances between edges alone. */
export function plateWarnings(part: FlatPart): PlateWarning[] {
  const { thickness_mm: t, outline, folds } = part;
  const holes = part.holes.filter((hole): hole is typeof hole & Circle => hole.kind === "circle");
  const found: PlateWarning[] = [];
  const ask = (rule: PlateRule, which: number, is_mm: number, least_mm: number) => {
    if (is_mm < least_mm - CLOSE_ENOUGH_mm) found.push({ rule, is_mm, least_mm, which });
  };
  for (const [i, fold] of folds.entries()) {
    ask("inside-radius", i + 1, fold.inside_mm, PLATE_RULES.insidePerThickness * t);
    for (const flat_mm of flatsBeside(part, i)) {
      // over all: the flat, and the bend seen from outside
      ask("flange", i + 1, flat_mm + fold.inside_mm + t, PLATE_RULES.flangePerThickness * t);
    }
  }
  for (const [i, hole] of holes.entries()) {
    const { centre, diameter_mm } = hole;
    ask("hole-size", i + 1, diameter_mm, PLATE_RULES.holePerThickness * t);
    ask("hole-to-edge", i + 1, distanceToRing(centre, outline), PLATE_RULES.edgePerHole * diameter_mm);
    for (const fold of folds) {
      const edge_mm = distanceToLine(centre, fold) - fold.allowance_mm / 2 - diameter_mm / 2;
      ask("hole-to-fold", i + 1, edge_mm, PLATE_RULES.holeToFoldPerThickness * t);
    }
    for (const other of holes.slice(0, i)) {
      const pitch_mm = Math.hypot(centre[0] - other.centre[0], centre[1] - other.centre[1]);
      ask("hole-pitch", i + 1, pitch_mm, PLATE_RULES.pitchPerHole * Math.max(diameter_mm, other.diameter_mm));
    }
  }
  return found;
}

/** Flat plate left at a fold that ends at the plate's own end; flats between two folds are as wide as the part wants them. */
function flatsBeside({ outline, folds }: FlatPart, index: number): number[] {
  const fold = folds[index]!;
  const across: Flat = [fold.to[1] - fold.from[1], fold.from[0] - fold.to[0]];
  const length = Math.hypot(...across);
  const along = (p: Flat) => ((p[0] - fold.from[0]) * across[0] + (p[1] - fold.from[1]) * across[1]) / length;
  const ends = polygonOf(outline, 0.05).map(along);
  const others = folds.filter((_, i) => i !== index).map(({ from }) => along(from));
  const flats: number[] = [];
  if (!others.some((at) => at > 0)) flats.push(Math.max(...ends) - fold.allowance_mm / 2);
  if (!others.some((at) => at < 0)) flats.push(-Math.min(...ends) - fold.allowance_mm / 2);
  return flats;
}

function distanceToLine(p: Flat, { from, to }: FoldLine): number {
  const [du, dv] = [to[0] - from[0], to[1] - from[1]];
  return Math.abs((p[0] - from[0]) * dv - (p[1] - from[1]) * du) / Math.hypot(du, dv);
}
