import type { ScanLook, ScanStage } from "../../scans/scanRoom.ts";
import type { UnitReading } from "../../scans/unitGuess.ts";
import type { InputError } from "../../scene/error.ts";
import type { LengthUnit } from "../../scene/meshFiles.ts";
import type { Unit } from "../store/state.ts";
import { lengthText, wantedText } from "../words/number.ts";
import type { MatchDraft, Patch, ScanStep } from "./scanStore.ts";

export const STEP_NAMES: Readonly<Record<ScanStep, string>> = {
  file: "File",
  faults: "Size and faults",
  place: "Place",
  fit: "Fit",
  thin: "Thin out",
  part: "Part",
};

export const UNIT_NAMES: Readonly<Record<LengthUnit, string>> = {
  mm: "millimetres",
  cm: "centimetres",
  m: "metres",
  in: "inches",
};

const STAGES: Readonly<Record<ScanStage, string>> = {
  reading: "Reading the file…",
  joining: "Joining its corners…",
  looking: "Looking for holes and loose pieces…",
  mending: "Mending…",
  drawing: "Making it ready to look at…",
  thinning: "Thinning out, and proving by how much it is off…",
};

export function stageText(stage: ScanStage): string {
  return STAGES[stage];
}

export function count(value: number): string {
  return value.toLocaleString("en-GB");
}

export function refusalSentence({ file, wrong, wanted }: Pick<InputError, "file" | "wrong" | "wanted">): string {
  const said = `${wrong.charAt(0).toUpperCase()}${wrong.slice(1)}. Wanted: ${wanted}.`;
  return file ? `${file}: ${said}` : said;
}

/** "0.62 m over all, which suits an engine or a wheel". */
export function unitReason({ longest_mm, likelihood, isStandard }: UnitReading): string {
  const size = longest_mm >= 1000 ? `${(longest_mm / 1000).toFixed(2)} m` : `${longest_mm.toPrecision(3)} mm`;
  const suits = {
    usual: "the size of an engine, a wheel or a corner",
    possible: "possible for a bracket or a whole car",
    odd: longest_mm < 30 ? "too small for a part of a corner" : "larger than a car",
  }[likelihood];
  return `${size} long: ${suits}${isStandard ? "; what the format prescribes" : ""}`;
}

/** What was found, a sentence each, the gravest first. */
export function faultSentences({ report }: ScanLook, unit: Unit): string[] {
  const { holes, shells, flipped, oddEdges, dropped, openEdges } = report;
  const [largest] = holes;
  const strays = shells.slice(1);
  const lines: string[] = [];
  if (largest) {
    lines.push(
      holes.length === 1
        ? `One hole or open rim, ${lengthText(largest.across_mm, unit)} across (${count(openEdges)} open edges).`
        : `${count(holes.length)} holes and open rims, the largest ${lengthText(largest.across_mm, unit)} across (${count(openEdges)} open edges in all).`,
    );
  }
  if (strays.length > 0) {
    lines.push(
      strays.length === 1
        ? `One loose piece beside the main one, ${lengthText(strays[0]!.size_mm, unit)} over its box.`
        : `${count(strays.length)} loose pieces beside the main one, the largest ${lengthText(strays[0]!.size_mm, unit)} over its box, the smallest ${lengthText(strays.at(-1)!.size_mm, unit)}.`,
    );
  }
  if (oddEdges > 0) lines.push(`${count(oddEdges)} edges where the surface branches or twists.`);
  if (flipped > 0) lines.push(`${count(flipped)} faces looked the wrong way: turned with their neighbours.`);
  if (dropped > 0) lines.push(`${count(dropped)} triangles without an area or there twice: left out.`);
  return lines;
}

/** What a check of it relies on. */
export function reliesText(isClosed: boolean): string {
  return isClosed
    ? "Its surface is closed: a part that is wholly inside it is found as a clash."
    : "Its surface is open: parts are held against the surface alone. One that is wholly behind it is not found.";
}

export function doneText({ done, triangles }: ScanLook): string {
  const parts = [
    done.verticesWelded > 0 ? `Corners joined: ${count(done.verticesWelded)}.` : "",
    done.straysLeftOut > 0 ? `Loose pieces left out: ${count(done.straysLeftOut)}.` : "",
    done.holesClosed > 0 ? `Holes closed: ${count(done.holesClosed)}.` : "",
    done.holesLeftOpen > 0 ? `Left open, not flat enough for a lid: ${count(done.holesLeftOpen)}.` : "",
    `Triangles: ${count(triangles)}.`,
  ];
  return parts.filter(Boolean).join(" ");
}

export function patchText(patch: Patch, unit: Unit): string {
  const { fitted, points } = patch;
  const rough = `${fine(fitted.rms_mm, unit)} rough`;
  return fitted.kind === "plane"
    ? `A flat of ${count(points.length)} points, ${rough}.`
    : `A round of ${lengthText(2 * fitted.radius_mm, unit)} diameter, ${count(points.length)} points, ${rough}.`;
}

export function noPatchText(kind: MatchDraft["kind"]): string {
  return kind === "plane"
    ? "There is no flat there. Tap the middle of a machined face."
    : "There is no round there. Tap the middle of a bore, a tube or a shaft.";
}

/** How many of the six ways to move the fitted surfaces hold. */
export function heldText(held: number): string {
  if (held === 6) return "The fit holds the scan in every way.";
  return `The fit holds ${held} of the 6 ways it can move; in the others it stays where the pairs put it.`;
}

/** A scan whose distances differ from the car's. */
export function stretchText(stretch: number): string | null {
  const off = (stretch - 1) * 100;
  if (Math.abs(off) < 1) return null;
  const way = off > 0 ? "smaller" : "larger";
  return `Between these points the scan is ${Math.abs(off).toFixed(1)} % ${way} than the car: look at its unit, or the scanner has stretched it.`;
}

const fine = (value_mm: number, unit: Unit): string => lengthText(value_mm, unit, { digits: unit === "in" ? 4 : 2 });

export function placedText(rms_mm: number, worst_mm: number, unit: Unit): string {
  return `Placed. The pairs are off by ${lengthText(rms_mm, unit)} in the mean (root mean square), the worst by ${lengthText(worst_mm, unit)}.`;
}

export function residualText(off_mm: number, isSuspect: boolean, unit: Unit): string {
  const off = `${lengthText(off_mm, unit)} off.`;
  return isSuspect ? `${off} This pair does not go with the others: pick it again, or take it out.` : off;
}

export function fitText({ rms_mm, worst_mm }: { rms_mm: number; worst_mm: number }, unit: Unit): string {
  return `Off by ${fine(rms_mm, unit)} in the mean (root mean square), ${fine(worst_mm, unit)} at the worst.`;
}

export function pairsAfterText(rms_mm: number, unit: Unit): string {
  return `After it the picked pairs are off by ${lengthText(rms_mm, unit)} in the mean (root mean square).`;
}

export function thinnedText(within_mm: number, triangles: number | null, unit: Unit): string {
  const proved = `No point of the scan is farther than ${lengthText(within_mm, unit)} from what is checked.`;
  return triangles === null ? proved : `${count(triangles)} triangles are left. ${proved}`;
}

export function wantsText(wanted_mm: number, isByRole: boolean, unit: Unit): string {
  const why = isByRole ? "by the rule for its role" : "as parts without a rule do";
  return `Wants ${wantedText(wanted_mm, unit)} to other parts, ${why}. A scan is no finer than its scanner: give it more where you doubt it.`;
}

export function unplacedText(isNew: boolean): string {
  return isNew
    ? "It was not placed: it stands where its file has it, from the car's axle line, centre plane and ground."
    : "It stays where it was.";
}

export const NOT_YOURS = "This project is open in another tab: nothing was changed here.";

export function axisText(name: string): string {
  return `Its axis lies in that of ${name}.`;
}
