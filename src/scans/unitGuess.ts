import type { LengthUnit } from "../scene/meshFiles.ts";

/** How likely a size is for something that is scanned to build a rear corner round it. */
export type SizeLikelihood = "usual" | "possible" | "odd";

export interface UnitReading {
  readonly unit: LengthUnit;
  /** Longest side of the box round everything, read in that unit. */
  readonly longest_mm: number;
  readonly likelihood: SizeLikelihood;
  /** The format says so: a GLB file's numbers are metres (glTF 2.0 §3.4). */
  readonly isStandard: boolean;
}

export interface UnitGuess {
  /** Likeliest first. */
  readonly readings: readonly UnitReading[];
  /** No other unit gives a size that could be: the builder is asked all the same. */
  readonly isPlain: boolean;
}

/** An engine, a wheel, a wheel house or a whole corner: common practice, no source. */
const USUAL_mm = [300, 2500] as const;
/** From a bracket to a whole car. */
const POSSIBLE_mm = [30, 6000] as const;

const UNITS: readonly (readonly [LengthUnit, number])[] = [
  ["mm", 1],
  ["m", 1000],
  ["cm", 10],
  ["in", 25.4],
];
const RANK: Readonly<Record<SizeLikelihood, number>> = { usual: 0, possible: 1, odd: 2 };

/** What the numbers of a mesh file may be read in: `longest` is the longest side of the box round it, in the file's own unit. */
export function guessUnit(longest: number, fileName: string): UnitGuess {
  const isGlb = /\.glb$/i.test(fileName);
  const readings = UNITS.map(([unit, mm]): UnitReading => {
    const longest_mm = longest * mm;
    return { unit, longest_mm, likelihood: likelihoodOf(longest_mm), isStandard: isGlb && unit === "m" };
  });
  const rank = (reading: UnitReading) => RANK[reading.likelihood] - (reading.isStandard ? 0.5 : 0);
  // sorting keeps the order of units that are equally likely
  readings.sort((a, b) => rank(a) - rank(b));
  return { readings, isPlain: readings.filter(({ likelihood }) => likelihood !== "odd").length === 1 };
}

function likelihoodOf(size_mm: number): SizeLikelihood {
  if (size_mm >= USUAL_mm[0] && size_mm <= USUAL_mm[1]) return "usual";
  return size_mm >= POSSIBLE_mm[0] && size_mm <= POSSIBLE_mm[1] ? "possible" : "odd";
}
