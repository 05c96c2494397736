import type { Missing, NoteId, ScreenRow, SourceId } from "./finding.ts";

/** The screening's codes in English, for the terminal; the app has its own texts for them. */
export const SOURCES: Readonly<Record<SourceId, string>> = {
  bar: "Gere, Mechanics of Materials; Shigley, Mechanical Engineering Design; Timoshenko & Gere, Theory of Elastic Stability",
  boltTable: "EN 1993-1-8 table 3.4",
  pinTable: "EN 1993-1-8 table 3.9, type A",
  netSection: "EN 1993-1-1, 6.2.3",
  weld: "EN 1993-1-8, 4.5.3.3 (simplified method); the runs as lines: Blodgett, Design of Welded Structures (from memory)",
  maker: "the maker's figure",
  builder: "the maker's figure as the builder gives it",
};

export const NOTES: Readonly<Record<NoteId, string>> = {
  "lone leg": "bending by what rides on the arm is taken by this leg alone: nothing tells how the legs share it",
  "strut leg": "the leg as a beam from its top to its foot; piston rod and guide are the maker's",
  "ball cut": "bending from the mount beyond the cut alone; its whole force taken as a pull",
  "hinge cut": "bending from the mounts beyond the cut alone; their whole force taken as a pull",
  "drawn bow": "the bow is as the link is drawn",
  "bolt bending": "the bending of a bolt in single shear is not in the formula: a bolt held on both sides is the mend",
  "no bolt axis": "no bolt axis is told: the whole force is taken across the bolt",
  edge: "the whole force is taken towards the edge that is told, whichever way it pulls",
  "along runs": "the whole force is taken along the runs and tipping them, whichever way it pulls",
};

const SIZES = {
  link: "the tube: diameter, wall, material",
  wishbone: "the legs' tubes: diameter, wall, material",
  strut: "the leg's tube: diameter, wall, material; its rod is the maker's",
  ball: "the arm's section where it is weakest, and its material",
  hinge: "the arm's section where it is weakest, and its material",
} as const;

export function tellMissing(missing: Missing): string {
  switch (missing.what) {
    case "tube":
      return SIZES[missing.kind];
    case "leg":
      return `the ${missing.leg} leg's tube`;
    case "bolt":
      return "the bolt: thread, class, shear planes";
    case "bolt class":
      return `the shear strength of a bolt of class ${missing.class}: EN 1993-1-8 does not go so far, ask the maker`;
    case "plate":
      return "the plate: thickness, hole, edge distances, material";
    case "weld":
      return "the weld: throat or leg, length, runs, material";
    case "weld factor":
      return `the weld factor of ${missing.material}: ask the maker of the filler`;
    case "rating":
      return "the static rating of its rod end, ball joint or bush: ask its maker";
    case "material":
      return `what ${missing.material} is: it stands neither among the scene's materials nor in the table`;
  }
}

/** "Johnson: A·Sy·(…) / N". */
export function tellFormula({ governedBy, formula }: Pick<ScreenRow, "governedBy" | "formula">): string {
  return governedBy === null ? formula : `${governedBy}: ${formula}`;
}

export function tellSource({ source, told }: Pick<ScreenRow, "source" | "told">): string {
  return source === "maker" && told !== null ? told : SOURCES[source];
}
