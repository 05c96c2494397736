import type { LimitName, StateAt } from "../../check/result.ts";
import { formatLength, type LengthUnit } from "../../scene/length.ts";
import type { Side } from "../../scene/scene.ts";
import type { ClashItem } from "../clashes.ts";
import type { Finding } from "../digest.ts";
import type { Card, ViewState } from "../entry.ts";

const ANGLES: ReadonlySet<LimitName> = new Set(["inner-angle", "outer-angle", "joint-tilt", "joint-twist"]);

/** "ride height", "38.0 bump", "60.0 droop". */
export function tellTravel(travel_mm: number, unit: LengthUnit): string {
  const travel = formatLength(Math.abs(travel_mm), unit);
  if (!/[1-9]/.test(travel)) return "ride height";
  return `${travel} ${travel_mm > 0 ? "bump" : "droop"}`;
}

export function tellWheels({ left, right }: Readonly<Record<Side, number>>, unit: LengthUnit): string {
  const both = tellTravel(left, unit);
  return both === tellTravel(right, unit) ? both : `left ${both}, right ${tellTravel(right, unit)}`;
}

/** "engine at rest", "engine in overrun", "engine 40 % of the way to overrun". */
export function tellEngine({
  pose,
  share = 1,
}: {
  readonly pose: string;
  readonly share?: number | undefined;
}): string {
  if (pose === "rest") return "engine at rest";
  return share === 1 ? `engine in ${pose}` : `engine ${Math.round(100 * share)} % of the way to ${pose}`;
}

export function tellState(at: StateAt, unit: LengthUnit): string {
  return `${tellTravel(at.travel_mm, unit)}, ${tellEngine(at)}`;
}

export const VIEW_WORDS: Readonly<Record<ViewState, string>> = {
  ride: "Ride height",
  bump: "Full bump",
  droop: "Full droop",
  worst: "Worst clash",
};

/** "ear and upper (left)", "shaft-length (right)". */
export function tellWhat({ of, side }: Pick<Finding, "of" | "side">): string {
  const both = side === "both" ? "" : ` (${side})`;
  return of.kind === "pair" ? `${of.a} and ${of.b}${both}` : `${of.what}${of.joint ? ` ${of.joint}` : ""}${both}`;
}

/** "6.2 too deep", "+2.8"; a limit's value. */
export function tellGap({ of }: Pick<Finding, "of">, unit: LengthUnit): string {
  if (of.kind === "pair") {
    const gap = formatLength(Math.abs(of.clearance_mm), unit);
    return of.clearance_mm < 0 ? `${gap} too deep` : gap;
  }
  return tellLimitValue(of.what, of.value, unit);
}

/** "10.0", "at most 447.0". */
export function tellWanted({ of }: Pick<Finding, "of">, unit: LengthUnit): string {
  if (of.kind === "pair") return formatLength(of.required_mm, unit);
  return `${of.value < of.limit ? "at least" : "at most"} ${tellLimitValue(of.what, of.limit, unit)}`;
}

export function tellLimitValue(what: LimitName, value: number, unit: LengthUnit): string {
  return ANGLES.has(what) ? `${value.toFixed(1)}°` : formatLength(value, unit);
}

/** "fixed (card 14 finds it clear)", "accepted: rubber flap, meant to touch". */
export function tellStanding({ state, why, by, doubt, newest }: ClashItem): string {
  const because = why ? `: ${why}` : "";
  if (doubt === "still-found") return `${state}${because}; card ${newest} still finds it`;
  if (doubt === "not-checked") return `${state}${because}; not checked any more in card ${newest}`;
  if (by === "check") return `${state}: card ${newest} finds it clear`;
  if (by === "scene") return `${state} in the scene${because}`;
  return `${state}${because}`;
}

/** What the coordinates of cards are measured from. */
export const DATUM = "forward of the axle line, out from the car's centre plane, up from the ground";

export function tellUnits(unit: LengthUnit): string {
  return unit === "mm" ? "mm, degrees" : "inches, degrees";
}

/** "12 Nov 2026, 21:15 UTC": the same on every machine. */
export function tellWhen(iso: string): string {
  const [date, time] = iso.split("T") as [string, string];
  const [year, month, day] = date.split("-") as [string, string, string];
  return `${Number(day)} ${MONTHS[Number(month) - 1]} ${year}, ${time.slice(0, 5)} UTC`;
}

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** "as drawn", or what of the scene stands where it was measured on the car. */
export function tellBasis({ document }: Pick<Card, "document">): string {
  const bolted = Object.keys(document.boltedUp ?? {}).length;
  if (bolted === 0) return "as drawn";
  return `as drawn, with ${bolted} ${bolted === 1 ? "point" : "points"} as bolted up`;
}
