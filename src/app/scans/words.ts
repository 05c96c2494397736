import type { ScanLook } from "../../scans/scanRoom.ts";
import type { UnitReading } from "../../scans/unitGuess.ts";
import type { InputError } from "../../scene/error.ts";
import type { Unit } from "../store/state.ts";
import { countText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { capital } from "../words/names.ts";
import { lengthText, wantedText } from "../words/number.ts";
import type { MatchDraft, Patch } from "./scanStore.ts";

export function refusalSentence({ file, wrong, wanted }: Pick<InputError, "file" | "wrong" | "wanted">): string {
  const said = { wrong: capital(wrong), wanted };
  return file ? t("scans.refusalOf", { file, ...said }) : t("scans.refusal", said);
}

/** "0.62 m long: the size of an engine, a wheel or a corner". */
export function unitReason({ longest_mm, likelihood, isStandard }: UnitReading): string {
  const size = longest_mm >= 1000 ? `${(longest_mm / 1000).toFixed(2)} m` : `${longest_mm.toPrecision(3)} mm`;
  const suits = likelihood !== "odd" ? likelihood : longest_mm < 30 ? "small" : "large";
  const reason = t(`scans.suits.${suits}`, { size });
  return isStandard ? t("scans.standard", { reason }) : reason;
}

/** What was found, a sentence each, the gravest first. */
export function faultSentences({ report }: ScanLook, unit: Unit): string[] {
  const { holes, shells, openEdges } = report;
  const [largest] = holes;
  const strays = shells.slice(1);
  const lines: string[] = [];
  if (largest) {
    const across = lengthText(largest.across_mm, unit);
    lines.push(t("scans.faults.holes", { ...numbered(holes.length), across, edges: countText(openEdges) }));
  }
  if (strays.length > 0) {
    const [first, last] = [strays[0]!, strays.at(-1)!];
    const sizes = { largest: lengthText(first.size_mm, unit), smallest: lengthText(last.size_mm, unit) };
    lines.push(t("scans.faults.strays", { ...numbered(strays.length), ...sizes }));
  }
  for (const kind of ["oddEdges", "flipped", "dropped"] as const) {
    if (report[kind] > 0) lines.push(t(`scans.faults.${kind}`, numbered(report[kind])));
  }
  return lines;
}

/** The count that chooses the plural, and how it is written. */
function numbered(count: number): { count: number; number: string } {
  return { count, number: countText(count) };
}

/** What a check of it relies on. */
export function reliesText(isClosed: boolean): string {
  return isClosed ? t("scans.closed") : t("scans.openSurface");
}

export function doneText({ done, triangles }: ScanLook): string {
  const counts = {
    welded: done.verticesWelded,
    strays: done.straysLeftOut,
    closed: done.holesClosed,
    leftOpen: done.holesLeftOpen,
  };
  const parts = (["welded", "strays", "closed", "leftOpen"] as const)
    .filter((kind) => counts[kind] > 0)
    .map((kind) => t(`scans.done.${kind}`, { number: countText(counts[kind]) }));
  return [...parts, t("scans.done.triangles", { number: countText(triangles) })].join(" ");
}

export function patchText(patch: Patch, unit: Unit): string {
  const { fitted, points } = patch;
  const said = { number: countText(points.length), rough: fine(fitted.rms_mm, unit) };
  return fitted.kind === "plane"
    ? t("scans.fit.flat", said)
    : t("scans.fit.round", { ...said, diameter: lengthText(2 * fitted.radius_mm, unit) });
}

export function noPatchText(kind: MatchDraft["kind"]): string {
  return kind === "plane" ? t("scans.fit.noPlane") : t("scans.fit.noCylinder");
}

/** How many of the six ways to move the fitted surfaces hold. */
export function heldText(held: number): string {
  return held === 6 ? t("scans.fit.heldWhole") : t("scans.fit.held", { held });
}

/** A scan whose distances differ from the car's. */
export function stretchText(stretch: number): string | null {
  const off = (stretch - 1) * 100;
  if (Math.abs(off) < 1) return null;
  return t(`scans.place.${off > 0 ? "scanSmaller" : "scanLarger"}`, { percent: Math.abs(off).toFixed(1) });
}

const fine = (value_mm: number, unit: Unit): string => lengthText(value_mm, unit, { digits: unit === "in" ? 4 : 2 });

export function placedText(rms_mm: number, worst_mm: number, unit: Unit): string {
  return t("scans.place.placed", { mean: lengthText(rms_mm, unit), worst: lengthText(worst_mm, unit) });
}

export function residualText(off_mm: number, isSuspect: boolean, unit: Unit): string {
  return t(`scans.place.${isSuspect ? "suspect" : "off"}`, { off: lengthText(off_mm, unit) });
}

export function fitText({ rms_mm, worst_mm }: { rms_mm: number; worst_mm: number }, unit: Unit): string {
  return t("scans.fit.off", { mean: fine(rms_mm, unit), worst: fine(worst_mm, unit) });
}

export function pairsAfterText(rms_mm: number, unit: Unit): string {
  return t("scans.fit.pairsAfter", { mean: lengthText(rms_mm, unit) });
}

export function thinnedText(within_mm: number, triangles: number | null, unit: Unit): string {
  const within = lengthText(within_mm, unit);
  return triangles === null
    ? t("scans.thin.done", { within })
    : t("scans.thin.doneLeft", { number: countText(triangles), within });
}

export function wantsText(wanted_mm: number, isByRole: boolean, unit: Unit): string {
  return t(`scans.part.${isByRole ? "wantsByRole" : "wantsAsOthers"}`, { wanted: wantedText(wanted_mm, unit) });
}

export function unplacedText(isNew: boolean): string {
  return isNew ? t("scans.place.unplacedNew") : t("scans.place.unplacedAgain");
}
